"""Boxes that are named in a clause of their own, and the device that names them."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.clauses.act_fields import act_of
from boxaloud.grammar.clauses.clause import Clause, Element
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.headings import ROOM_WORDS, ROOMS, named_device, words_named

_NAMED_ONLY = lazy_pattern(r"(?:the )?(?:[a-z]+ )?<device:[^>]*>(?: box| one)?")


def device_named(elements: Sequence[Element]) -> list[Act]:
    """ "The hall 3-way box": the device that it is named by is in it."""
    element = named_device(elements)
    made = act_of(element.found) if element is not None and element.found is not None else None
    if not isinstance(made, acts.AddDevice):
        return []
    return [replace(made, doubts=(acts.Doubt("count", "named"),))]


def family_named(elements: Sequence[Element]) -> list[Act]:
    """ "Octagon in the dining room": the kind of box that it is named by is what it is."""
    kinds = [act_of(element.found) for element in elements if element.found is not None]
    return [one for one in kinds if isinstance(one, acts.NameBoxKind) and one.family]


def next_named(begins: Clause, following: Clause, heard: str) -> list[Act]:
    """The box that begins, where the clause behind it is its name, and the device in that name."""
    begun = act_of(begins.found[0])
    if not isinstance(begun, acts.NextBox) or begun.name.lower() not in ("", "the", "is"):
        return []
    if not _NAMED_ONLY.fullmatch(following.line) or not device_named(following.elements):
        return []
    named = _named(following.elements, heard, begins.span[0])
    return [named, *device_named(following.elements)]


#: "Switch to box hall 3-way": with the word itself no room is needed.
_TO_BOX = lazy_pattern(r"(?:switch|change|move|jump|go)(?: back)?(?: over)? to box <device:[^>]*>")


def opened_named(opens: Clause, following: Sequence[Clause], heard: str) -> tuple[list[Act], int]:
    """ "Back to the hall 3-way": the box of that name, in which no device is entered.

    With how many clauses it takes up.
    """
    if _TO_BOX.fullmatch(opens.line):
        return [_opened(opens.elements[-1:], "", heard, opens.span[0])], 1
    begun = act_of(opens.found[0]) if opens.line == "<open_box::>" and following else None
    if not isinstance(begun, acts.OpenBox) or not _NAMED_ONLY.fullmatch(following[0].line):
        return [], 0
    room = begun.name.lower().removeprefix("the").strip()
    if not device_named(following[0].elements) and room not in ROOMS:
        return [], 0
    return [_opened(following[0].elements, room, heard, opens.span[0])], 2


def _opened(elements: Sequence[Element], room: str, heard: str, start: int) -> acts.OpenBox:
    words = heard[elements[0].start : elements[-1].end].strip(" .:,")
    name = re.sub(r"(?i)^(?:the|my) |(?: box| one)$", "", f"{room} {words}".strip())
    return acts.OpenBox(
        name=name, words=heard[start : elements[-1].end], span=(start, elements[-1].end)
    )


def _named(elements: Sequence[Element], heard: str, start: int) -> acts.NextBox:
    words = heard[elements[0].start : elements[-1].end].strip(" .:,")
    name = re.sub(r"(?i)^(?:the|my) |(?: box| one)$", "", words)
    return acts.NextBox(name=name, words=words, span=(start, elements[-1].end))


def of_that_box(clause: Clause, heard: str) -> tuple[list[Act], Clause] | None:
    """ "The hall box has one 14-3": that box, and the clause that tells what it has."""
    at = _place_of_verb(clause)
    if not at:
        return None
    head, rest = clause.elements[:at], clause.elements[at + 1 :]
    told = Clause(rest, line=" ".join(element.tag for element in rest), closes=clause.closes)
    return [_named(head, heard, head[0].start), *device_named(head)], told


_HAS = frozenset({"has", "gets", "got", "needs", "takes", "contains", "holds"})


_IS_CABLES = lazy_pattern(r" box is <(?:cable|conductors):[1-9]")


def _place_of_verb(clause: Clause) -> int:
    """ "The hall box has one 14-3": the place of the verb behind a box named by a room; 0 where
    no box is named so, or nothing is told of it."""
    if len(clause.elements) < 4:  # a name, "box", the verb, what it has
        return 0
    tags = [element.tag for element in clause.elements]
    at = next((place for place, tag in enumerate(tags[:6]) if tag in _HAS), 0)
    if not at and "is" in tags[:6] and _IS_CABLES.search(clause.line):
        at = tags.index("is")  # "laundry box is two 12-2s and a receptacle"
    if at < 2 or tags[at - 1] != "box" or clause.mood != "declarative":
        return 0
    named = clause.elements[: at - 1]
    if not any(e.found is not None for e in clause.elements[at:]):
        return 0
    device = named_device(named)
    words = [w for e in named for w in words_named(e, device) if w != "the"]
    rooms = words and all(w in ROOMS | ROOM_WORDS for w in words)
    return at if rooms and any(w in ROOMS for w in words) else 0
