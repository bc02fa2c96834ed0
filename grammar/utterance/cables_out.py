"""A cable that is "out": one that leaves the box, or one that is no longer in it."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_BEFORE = lazy_pattern(r"(?i)(?:^|.*[.;!?])\s*(?:(?:ok|okay|so|and|now|then|well|no),? )*")
_OUT = lazy_pattern(r"(?i) (?:is |are )?out\s*(?:[.;!]|$)")


def out_or_gone(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "One cable out.", a sentence of its own: that one leaves the box to somewhere, or that
    there is one less. Nothing comes in or goes, and it is asked."""
    kept: list[Act] = []
    for place, act in enumerate(made):
        unsized = isinstance(act, acts.AddCable) and act.awg is None and act.count is not None
        told = any(isinstance(other, acts.AddCable) for other in made[:place] + made[place + 1 :])
        out = _OUT.match(heard, act.span[1])
        if not unsized or told or out is None or not _BEFORE.fullmatch(heard[: act.span[0]]):
            kept.append(act)
            continue
        span = (act.span[0], act.span[1] + len(" out"))
        left[:] = [run for run in left if run.span[1] <= span[0] or run.span[0] >= span[1]]
        left.append(Unread(heard[slice(*span)], span, True))
    return kept
