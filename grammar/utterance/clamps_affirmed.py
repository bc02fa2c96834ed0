"""Clamps with a yes or a no beside them: "clamps? yep", "none on the clamps", "clamps: no clamps".

What is affirmed without a place is inside: clamps that somebody finds in a box are its own, and
count, 314.16(B)(2).
"""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.lazy_patterns import lazy_pattern

#: "Yes on the clamps".
_OF = lazy_pattern(r"(?i)\s*(?:on|for|to|as for|as to|about) (?:(?:the|any|its|cable) )*")
_ASKED = lazy_pattern(r"(?i)\W*")
_ENDS = lazy_pattern(r"(?i)\s*(?:[.;!]|$|,(?!\s*(?:in|out|but|and they|on)))")
_ANSWERS = (acts.Yes, acts.NoneOfThem)


def affirmed(made: list[Act], heard: str) -> list[Act]:
    """The acts with clamps and the yes or no to them as one."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        together = None if last is None else _together(last, act, heard)
        if together is None:
            kept.append(act)
        else:
            kept[-1] = together
    return kept


def _together(last: Act, act: Act, heard: str) -> Act | None:
    between = heard[last.span[1] : act.span[0]]
    span = (last.span[0], act.span[1])
    if isinstance(act, acts.SetClamps) and act.where == "present":
        if isinstance(last, acts.Yes) and act.count and _ASKED.fullmatch(between):
            return replace(act, where="inside", words=heard[slice(*span)], span=span)
        if isinstance(last, _ANSWERS) and _OF.fullmatch(between):
            where: acts.Placing = "inside" if isinstance(last, acts.Yes) else "none"
            return replace(act, where=where, words=heard[slice(*span)], span=span)
        if _said_twice(last) and not between.strip():
            return replace(last, words=heard[slice(*span)], span=span)
    asked = "?" in between and _ASKED.fullmatch(between) and _ENDS.match(heard, act.span[1])
    there = isinstance(last, acts.SetClamps) and last.where == "present"
    if there and asked and isinstance(act, acts.Yes):
        return acts.SetClamps(where="inside", words=heard[slice(*span)], span=span)
    return None


def _said_twice(act: Act) -> bool:
    """ "Clamps: no" of "clamps: no clamps"."""
    return isinstance(act, acts.SetClamps) and act.where == "none"
