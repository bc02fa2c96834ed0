"""A number that only says how many clamps there are: "there's one inside"."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_THERE = lazy_pattern(
    r"(?i)(?:(?:yes|yeah|but|and|oh|no|wait|well|actually)[ ,]+)*"
    r"(?:there(?:'s| is| are| was)|it has|it's got|has|i see|i found|see|got)"
    r" (?:really |actually |only |just )*$"
)
_NEXT = lazy_pattern(r"\s*(?:(?:of them|are|is|really|on the|both)\s+)*")


def so_many_inside(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "There's one inside": how many clamps, which count together however many they are,
    314.16(B)(2), and no count of anything else."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        number = isinstance(last, (acts.Number, acts.RestateNumber, acts.Recount))
        if (
            last is not None
            and number
            and (_places(last, act, heard) or _so_many_clamps(last, act))
            and _stands_alone(heard, last)
        ):
            kept.pop()
        kept.append(act)
    return kept


def _places(number: Act, act: Act, heard: str) -> bool:
    """Whether it is said behind a number where those are."""
    between = _NEXT.fullmatch(heard, number.span[1], act.span[0])
    return isinstance(act, acts.Place) and between is not None


def _so_many_clamps(number: Act, act: Act) -> bool:
    """ "There is one, I just saw it. One clamp inside": the number is that of the clamps."""
    value = number.count if isinstance(number, acts.Recount) else getattr(number, "value", None)
    return isinstance(act, acts.SetClamps) and act.count is not None and act.count == value


def _stands_alone(heard: str, number: Act) -> bool:
    """Whether the number follows "there is" and the like, its own words or those before it."""
    words = number.words.lower().rsplit(" ", 1)
    before = heard[: number.span[0]] + (words[0] + " " if len(words) > 1 else "")
    clause = before.replace(",", ".").rsplit(".", 1)[-1].lstrip()
    but = clause.lower().rfind(" but ")
    return _THERE.fullmatch(clause[but + 1 :] if but >= 0 else clause) is not None
