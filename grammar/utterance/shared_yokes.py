"""Devices that are there already, said to share a yoke or to have one each, 314.16(B)(4)."""

from __future__ import annotations

import re

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_ONE = (
    r"(?:just |all |both |really |actually )*"
    r"(?:one|the one|the same|same|a single|single|a common|one single) (?:yoke|strap)\b"
)
_LEAD = r"(?:(?:and|but|so|no|oh|ok|um|uh|well|yeah|actually|wait|sorry) )*"


def _spaced(say: str) -> re.Pattern[str]:
    """An expression in which any number of spaces may stand for one."""
    return lazy_pattern(re.sub(r" (?![*?])", " +", say))


_SHARES = _spaced(
    rf"\b(?:on|in|is|are|all|'s|'re) {_ONE}"
    rf"|\b(?:shares?|sharing) (?:{_ONE}|(?:a|the) (?:yoke|strap)\b)"
)
_BARE = _spaced(
    rf"(?:^ *|(?<=[,.;:]) ){_LEAD}(?:on )?{_ONE}"
    r"(?: for (?:both|the two|all three|everything)(?: of them)?)?(?= *(?:[,.;:!]|$))"
)
_APART = _spaced(
    r"\b(?:on|have|has|got) (?:(?:its|their|his) own|(?:two |three )?"
    r"(?:separate|different|individual)) (?:yokes?|straps?)\b"
    r"|\b(?:a|one) (?:yoke|strap) (?:each|apiece)\b"
)
_POINTING = lazy_pattern(
    r"\b(?:they|they're|those|these|them|both|all|it|it's|that|that's|each|everything)\b"
)
_NOUNS = lazy_pattern(r"(?i)(?:the|both|those|these|my|all|that|this)\b")
_COUNTS = {"both": 2, "two": 2, "2": 2, "three": 3, "3": 3}
_COUNTED = lazy_pattern(r"\b(both|two|three|2|3)\b")
_ENDS = lazy_pattern(r"[.,;:!?]")


_BESIDE = (acts.Social, acts.No, acts.Yes)


def shared_yoke(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Both devices are on one yoke", "they share a strap": said of what is there, nothing comes
    in by it. "A switch and a receptacle on one yoke" brings them in."""
    low = heard.lower()
    if "yoke" not in low and "strap" not in low:
        return made
    bare = _BARE.search(low)
    said = bare or _SHARES.search(low) or _APART.search(low)
    if said is None:
        return made
    span = _clause(low, said.start(), said.end())
    inside = [act for act in made if span[0] <= act.span[0] < span[1]]
    devices = [device for act in inside if (device := _device(act)) is not None]
    named = [one for one in devices if not re.search(r"yoke|strap", one.words.lower())]
    subject = low[span[0] : said.start()]
    if bare and not all(isinstance(act, _BESIDE) for act in made if act not in inside):
        return made  # "a combo switch and receptacle, one yoke, 18 cubic inches"
    if any(not _NOUNS.match(one.words) and (not n or one.count) for n, one in enumerate(named)):
        return made  # "a switch and a receptacle on one yoke"
    if not (named or bare or _POINTING.search(subject)) or not _only_of_devices(inside):
        return made
    counted = None if named else _COUNTED.search(low[slice(*span)].partition(" yoke")[0])
    act = acts.ShareYoke(
        targets=tuple(_meant(one) for one in named),
        count=_COUNTS[counted[1]] if counted is not None and not _APART.search(low) else None,
        apart=bare is None and _APART.search(low, *span) is not None,
        words=heard[slice(*span)].strip(" .,;:"),
        span=span,
        function="correction",
    )
    left[:] = [run for run in left if not span[0] <= run.span[0] < span[1]]
    first = made.index(inside[0]) if inside else len(made)
    rest = [one for one in made if one not in inside]
    return [*rest[:first], act, *rest[first:]]


def _clause(low: str, start: int, end: int) -> tuple[int, int]:
    """The place of the words up to the breaks before and behind."""
    before = [found.end() for found in _ENDS.finditer(low, 0, start)]
    behind = _ENDS.search(low, end)
    return before[-1] if before else 0, behind.start() if behind else len(low)


def _device(act: Act) -> acts.AddDevice | None:
    thing = act.thing if isinstance(act, acts.Restate) else act
    return thing if isinstance(thing, acts.AddDevice) else None


def _only_of_devices(inside: list[Act]) -> bool:
    """Whether nothing but devices, and numbers of them, is told in the clause."""
    return all(
        _device(act) is not None or isinstance(act, (acts.Number, acts.No, acts.Social))
        for act in inside
    )


def _meant(device: acts.AddDevice) -> Reference:
    """What a definite device points at; "both switches" at two."""
    name = None if device.name == "device" else device.name
    return Reference("device", name, count=device.count, words=device.words)
