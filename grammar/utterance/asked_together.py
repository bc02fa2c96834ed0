"""What is asked, supposed or forbidden in one breath with something coming back: "should I change
the 14-2 and put the other one back in?"."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_AND = lazy_pattern(r"(?i)\s*,?\s*(?:and|or)\s+(?:then\s+)?")


def asked_together(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """It is supposed as well, or left alone, and never carried out."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        joined = (
            isinstance(act, acts.PutBack)
            and last is not None
            and _AND.fullmatch(heard[last.span[1] : act.span[0]]) is not None
        )
        if joined and isinstance(last, acts.Suppose):
            kept[-1] = replace(last, acts=(*last.acts, act))
        elif not (joined and isinstance(last, (acts.Keep, acts.AskUnknown, acts.Ask))):
            kept.append(act)
    return kept
