"""Questions whether there is room for more of a thing, and for how many."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import cast

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.clauses.act_fields import THINGS, thing_of
from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.phrases.statements import Statement


def asks_for_room(clause: Clause, kinds: Sequence[str], things: Sequence[Statement]) -> bool:
    """Whether more of one thing is asked for: "how many more 14-2s", "can I add a dimmer"."""
    box = any(found.kind in ("box_volume", "box_size") for found in things)
    inside = [found for found in things if found.kind in THINGS]
    if box or len(inside) != 1:
        return "room_for" in kinds and not box and len(inside) < 2
    if re.search(r"\bhow many\b", clause.line):
        return not re.search(
            r"\b(?:did|do i have|have i|are in|are there|did i say|you got|you have)\b", clause.line
        )
    return bool(
        re.search(
            r"\b(?:can|could|will|would|is there|do i have) (?:i |we |it |there )?(?:be )?"
            r"(?:still |also |safely |even )?(?:fit|add|get|put|squeeze|take|hold|room|run"
            r"|bring|have|throw|stuff|stick|enough room|space|any room)\b",
            clause.line,
        )
        or re.search(
            r"^(?:(?:and|so|ok) )*(?:will|would|can|could) (?:a |an |another |one more "
            r"|the )?<[^>]*>(?: still| also)? (?:fit|work|go)\b",
            clause.line,
        )
    )


def room_for(
    clause: Clause, things: Sequence[Statement], words: str, span: tuple[int, int]
) -> list[Act]:
    """The question for room: for what of it, and how many; None where that is the question."""
    found = next((found for found in things if found.kind in THINGS), None)
    thing = None if found is None else thing_of(found)
    if thing is None and (size := next((f for f in clause.found if f.kind == "size"), None)):
        thing = acts.AddConductors(awg=cast(int, size.get("awg")), words=size.words, span=size.span)
    count = None
    if thing is not None and not re.search(r"\bhow many\b", clause.line):
        count = getattr(thing, "count", None) or 1
    return [acts.RoomFor(thing=thing, count=count, words=words, span=span)]
