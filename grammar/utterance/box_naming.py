"""Whole utterances that name a box: "box B", "call the first box the pantry"."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.headings import LETTERED, ROOMS

_LEAD = (
    r"(?:(?:ok|okay|so|and|please|hey|no|actually|wait|sorry|um|uh|hello|hi|well|now|let us|let's"
    r"|you can|can you|could you),? )*"
)
_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth")
_WHICH = rf"(?:the )?(?P<of>(?:{'|'.join(_ORDINALS)}|last|previous|other) (?:box|one))"
_NUMBERED = r"(?P<of>box (?:number )?(?:\d+|one|two|three|four|five|six|seven|eight|nine|ten))"
_NAME = r"(?:the )?(?P<name>[a-z][\w'-]*(?: [\w'-]+){0,4}?)(?:,? (?:please|instead|now))*[.!]?"
_NAMING = tuple(
    lazy_pattern(say)
    for say in (
        rf"{_LEAD}(?:call|name|rename|label) {_WHICH}(?: to| as)? {_NAME}",
        rf"{_LEAD}(?:call|name|rename|label) {_NUMBERED}(?: to| as)? {_NAME}",
        rf"{_LEAD}rename (?:the )?(?P<of>[a-z][\w'-]*(?: [\w'-]+)??)(?: box)? (?:to|as) {_NAME}",
        rf"{_LEAD}{_WHICH} (?:is|was)(?: called| named| for| in)? {_NAME}",
    )
)
#: "Rename this to den": of the box at hand.
_AT_HAND = frozenset({"it", "this", "that", "the", "this box", "that box", "the box", "this one"})


def box_named(heard: str) -> Act | None:
    """The act of an utterance that does nothing but name a box; None for any other."""
    low = heard.lower()
    if "box" not in low and " one" not in low and "rename" not in low:
        return None
    if letter := LETTERED.fullmatch(low.strip()):
        return acts.NextBox(name=letter[1], words=heard, span=(0, len(heard)))
    for place, naming in enumerate(_NAMING):
        said = naming.fullmatch(low.strip())
        if said is None or said["of"] in _AT_HAND:
            continue
        called = place < len(_NAMING) - 1 or re.search(r"\b(?:called|named)\b", low)
        if not called and said["name"].split()[-1] not in ROOMS - {"box"}:
            return None  # "the second one is a dimmer"
        return acts.NameBox(name=said["name"], of=said["of"], words=heard, span=(0, len(heard)))
    return None


def counts_not_names(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Next box, 3 12-2s": the number counts what stands behind it, and names no box."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        if isinstance(last, acts.NextBox) and last.name.isdigit() and is_thing(act):
            gap = heard[last.span[1] : act.span[0]]
            if act.count is None and gap and not gap.strip():
                start = last.span[1] - len(last.name)
                words = heard[last.span[0] : start].rstrip(" ,:")
                kept[-1] = replace(
                    last, name="", words=words, span=(last.span[0], last.span[0] + len(words))
                )
                act = replace(
                    act, count=int(last.name), words=heard[start : act.span[1]],
                    span=(start, act.span[1]),
                    doubts=tuple(d for d in act.doubts if d.slot != "count"),
                )  # fmt: skip
        kept.append(act)
    return kept
