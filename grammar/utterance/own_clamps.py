"""Clamps that a box is said to come with: "a 20 cubic inch box with clamps"."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_BOX = (acts.SetVolume, acts.SetSize, acts.NameBoxKind)
_WITH = lazy_pattern(
    r"(?i)\s*(?:box |one )?(?:with|w/|w|(?:that |which |and )?(?:it )?(?:has|comes with)) *"
    r"(?:(?:the|its|built[- ]in|cable|some) )*"
)
_PLAIN = lazy_pattern(
    r"(?i)(?:(?:with|w/|w|has|comes with) )?(?:(?:the|its|built[- ]in|cable|some) )*clamps?"
)


_LEAD = lazy_pattern(r"(?i)(?:with|w/|w|has|comes with)(?= )")
#: "It has clamps", "with clamps", "there are clamps in it": said of the box, wherever it stands.
_SAID_OF_BOX = lazy_pattern(
    r"(?i)(?:^|[\s,.;])(?:(?:it|this|this one|that one|this box|that box|the box|box)"
    r"(?:['’]s got| has got| has| had| does have| comes with| came with)|with|w/)"
    r" (?:(?:the|its|built[- ]in|cable|some) )*clamps(?! (?:out|on the|of the|and) ?)"
    r"|(?:^|[\s,.;])(?:got|has|have|having|with) (?:its|it['’]s) own (?:cable )?clamps\b"
    r"|(?:^|[,.;])\s*(?:(?:and|yes|yeah|yep|ok|okay|also|it),? )*has (?:(?:the|cable|some) )*clamps"
    r"(?=\s*(?:[.,;!]|$|and (?:an?|one|two)\b))"
    r"|clamps? (?:right |down |up |back )*(?:in it|in here|in there|in this (?:box|one))\b"
)
_OUT = lazy_pattern(
    r"(?i)\b(?:outside|out side|(?<!find )(?<!figure )out|external|outer|no|none|not"
    r"|if|whether|connectors?)\b|\?"
)


_NEAR = 16
"""Letters before and behind the word, in which it is said of what the clamps are."""


def clamps_of_box(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "A 20 cubic inch box with clamps", "it has clamps": its own, which are inside it and count,
    314.16(B)(2). Clamps that are only said to be there, or whose place is told too, are not meant:
    of the first it is asked where they are."""
    told = [act for act in made if isinstance(act, (acts.SetClamps, acts.Place))]
    if len(told) != 1:
        return made
    return [
        replace(act, where="inside") if act is told[0] and _is_of_box(act, made, heard) else act
        for act in made
    ]


def _is_of_box(act: Act, made: list[Act], heard: str) -> bool:
    if not isinstance(act, acts.SetClamps) or act.where != "present" or act.function != "inform":
        return False
    said = _SAID_OF_BOX.search(heard, max(0, act.span[0] - _NEAR), act.span[1] + _NEAR)
    if said is not None and not _OUT.search(heard):
        return True
    if _PLAIN.fullmatch(act.words) is None:
        return False
    return any(
        isinstance(box, _BOX)
        and box.span[1] <= act.span[0]
        and _WITH.fullmatch(f"{heard[box.span[1] : act.span[0]]}{_lead(act)}") is not None
        for box in made
    )


def _lead(act: Act) -> str:
    """ "With" of "with clamps"."""
    found = _LEAD.match(act.words)
    return found.group() if found is not None else ""
