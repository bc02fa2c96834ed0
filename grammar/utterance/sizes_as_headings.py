"""Sizes that head a list or close it, and count nothing: "twelves: three 12-2", "both #14"."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.neighbours import joining

_HEADED = lazy_pattern(r"(?i)(?:the )?(?:[a-z]+|#?\d+['’]?)s?\s*[:=-]+\s*(?:[a-z]+|\d+)")
_SPACE = lazy_pattern(r"\s+")


@joining
def headed_by_size(last: Act, act: Act, heard: str) -> Act | None:
    """ "Twelves: three 12-2": three cables, and no three wires beside one."""
    if (
        isinstance(act, acts.AddCable)
        and isinstance(last, acts.AddConductors)
        and act.count is None
        and act.awg == last.awg
        and _HEADED.fullmatch(last.words)
        and _SPACE.fullmatch(heard, last.span[1], act.span[0])
    ):
        return replace(act, count=last.count)
    return None


_BOTH = lazy_pattern(
    r"(?i)(?:they(?:'re| are) )?(?:both|all)(?: of them)? (?:number |#|no\.? ?)"
    r"(?:\d+|six|eight|ten|twelve|fourteen|sixteen|eighteen)"
)
_JOINED = lazy_pattern(r"[\s,(–-]*(?:and )?")


def sized_by_both(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "One ground and one isolated ground, both number 14": their size, and no wires more."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        if (
            isinstance(act, acts.AddConductors)
            and isinstance(last, acts.AddGrounds)
            and _BOTH.fullmatch(act.words)
            and _JOINED.fullmatch(heard, last.span[1], act.span[0])
        ):
            kept = _sized(kept, act.awg)
            continue
        kept.append(act)
    return kept


def _sized(kept: list[Act], awg: int | None) -> list[Act]:
    """The acts with that size on the grounds at their end that have none."""
    place = len(kept)
    while place and isinstance(kept[place - 1], acts.AddGrounds):
        place -= 1
    return [
        *kept[:place],
        *(
            replace(one, awg=awg) if isinstance(one, acts.AddGrounds) and one.awg is None else one
            for one in kept[place:]
        ),
    ]


#: "Number 6", "number 8s", "12 THHN": a size, and no word of how many.
_ONLY_SIZE = lazy_pattern(
    r"(?i)(?:number\s+|no\.?\s*|#)(?:\d+|six|eight|ten|twelve|fourteen)['’]?s?"
    r"(?:\s+(?:wires?|conductors?|thhn|thwn))*"
)
_BEGINS = lazy_pattern(
    r"(?i)(?:^|.*[.:;!?–—]\s)\s*(?:(?:[a-z]+,|so|well|now|ok|okay|um|uh|hello|please)\s+){0,3}"
)
_WHERE = (acts.SetSize, acts.SetVolume, acts.NameBoxKind)


def sized_ahead(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Number 6 in a four-square. Six number 6 conductors": what the wires are, and then how
    many of them there are."""
    kept: list[Act] = []
    for place, act in enumerate(made):
        if isinstance(act, (acts.Size, acts.AddConductors)) and _ONLY_SIZE.fullmatch(act.words):
            behind = next((one for one in made[place + 1 :] if not isinstance(one, _WHERE)), None)
            begins = _BEGINS.fullmatch(heard[: act.span[0]]) is not None
            if begins and _counts(behind, act.awg) and getattr(act, "count", None) is None:
                continue
        kept.append(act)
    return kept


def _counts(act: Act | None, awg: int | None) -> bool:
    """Whether it is told how many wires of that size there are."""
    return isinstance(act, acts.AddConductors) and act.awg == awg and act.count is not None
