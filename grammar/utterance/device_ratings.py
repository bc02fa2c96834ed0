"""Receptacles by what they are rated at: "a 40 amp receptacle", which one gang may not hold."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_RATED = lazy_pattern(
    r"(?i)\b(?P<rated>[456]0|forty|fifty|sixty)[ -]?(?:a|amps?|amperes?)\b(?=.*(?:rec|outlet|plug))"
)
_AMPERES = {"forty": "40", "fifty": "50", "sixty": "60"}
#: "40a recep two gang device, 2 gang masonry box": how wide the receptacle is, then the box.
_TWO_GANGS = lazy_pattern(r"(?i)\W*(?:an? |the |it's an? )?(?:two|2|double)[ -]gang device\b")


def by_rating(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """A receptacle of 40 A or more goes by what it is rated at: one that is wider than a single
    device box takes two allowances for each gang, 314.16(B)(4), so that its width is asked."""
    kept: list[Act] = []
    for place, act in enumerate(made):
        rated = _RATED.search(act.words) if _is_open(act) else None
        if isinstance(act, acts.AddDevice) and rated is not None:
            amperes = _AMPERES.get(rated["rated"].lower(), rated["rated"])
            act = replace(act, name=f"{amperes} amp receptacle")
            if _box_behind(made, place) and _TWO_GANGS.match(heard, act.span[1]):
                act = replace(act, gangs=2)
        kept.append(act)
    return kept


def _is_open(act: Act) -> bool:
    """Whether an act is of a receptacle whose width was not said."""
    return isinstance(act, acts.AddDevice) and act.name == "receptacle" and act.gangs is None


def _box_behind(made: list[Act], place: int) -> bool:
    """Whether the words behind a device were taken for part of its box."""
    following = made[place + 1] if place + 1 < len(made) else None
    return isinstance(following, (acts.SetSize, acts.SetVolume, acts.NameBoxKind))
