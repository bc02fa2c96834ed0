"""Devices that a clause names for where something else is, and that are in no box of theirs."""

from __future__ import annotations

import re
from collections.abc import Sequence

from boxaloud.grammar import grammar_data
from boxaloud.grammar.clauses.clause import Element
from boxaloud.grammar.lazy_patterns import lazy_pattern

_BEHIND = frozenset(grammar_data.table("clauses")["telling"]["elsewhere"])


def is_elsewhere(elements: Sequence[Element], place: int) -> bool:
    """ "a box behind the old switch": the switch is not in it."""
    before = [element.tag for element in elements[max(0, place - 3) : place]]
    if _is_other_end(elements, place):
        return True
    if _ANOTHER.match(" ".join(element.tag for element in elements[place + 1 : place + 4])):
        return False  # "next to the old dimmer a new one"
    if _beside_a_device(elements, place, before):
        return False
    if before[-1:] == ["it"] or before[-1:] == ["them"] or _beside_another(elements, place, before):
        return False  # "a switch and next to it an outlet": it stands beside one that is there
    if "behind" in before and not any(map(_is_the_box, elements[:place])):
        return False  # "three 14-2s stuffed in behind a dimmer": it closes the box
    return any(word in _BEHIND for word in before) and not any(
        word.startswith("<") for word in before
    )


_AT_ITS_SIDE = frozenset({"next", "beside", "near", "under", "above", "below"})


def _beside_a_device(elements: Sequence[Element], place: int, before: Sequence[str]) -> bool:
    """ "A switch sitting next to a receptacle", "next to that the fan control": both are in the
    box, where the first is; "next to the old switch" says where something else is."""
    found = elements[place].found
    if found is None or not _AT_ITS_SIDE.intersection(before):
        return False
    first = any(e.found is not None and e.found.kind == "device" for e in elements[:place])
    if before[-1:] in (["that"], ["this"]) or {"it", "them"}.intersection(before):
        return True  # "beside it sits a timer"
    return first and _NUMBERED.match(found.words) is not None


_DETERMINERS = frozenset({"the", "my", "that", "this", "our", "your", "his", "her"})
_NUMBERED = lazy_pattern(r"(?i)(?:an?|one|two|three|four|both|\d+)\b")


def _beside_another(elements: Sequence[Element], place: int, before: Sequence[str]) -> bool:
    """ "Near the door a switch": it is near something else that is named, and is in the box."""
    found = elements[place].found
    own = found is not None and _NUMBERED.match(found.words) is not None
    named = [n for n, word in enumerate(before) if word in _DETERMINERS]
    return own and bool(named) and named[-1] < len(before) - 1


_ANOTHER = lazy_pattern(
    r"(?:(?:is|goes|sits|comes|there|i|am|putting) )*"
    r"(?:a (?:new|second|fresh|smart|different)|another)\b"
)
_IN_HERE = lazy_pattern(r"(?:(?:mounted|right|sitting|also) )*(?:here|in (?:here|it|this))\b")
#: Where a cable goes or comes from.
_TOWARDS = frozenset({"to", "from", "feeding", "feeds", "serving", "toward", "towards"})
_ORDINAL = frozenset({"first", "second", "third", "other", "next"})


def _is_other_end(elements: Sequence[Element], place: int) -> bool:
    """ "A 14-3 to the other three-way", "from the first switch": what a cable goes to is in a box
    of its own."""
    found = elements[place].found
    at = place - 1
    while at >= 0 and elements[at].tag in ("the", *_ORDINAL):
        at -= 1
    if found is None or at < 1 or elements[at].tag not in _TOWARDS:
        return False
    behind = " ".join(element.tag for element in elements[place + 1 : place + 4])
    if _IN_HERE.match(behind):
        return False  # "a 14-2 going to another switch in here"
    other = at < place - 1 and elements[place - 1].tag in _ORDINAL
    if not other and not re.match(r"(?i)(?:the |that )?(?:other|another|next)\b", found.words):
        return False
    return any(e.found is not None and e.found.kind == "cable" for e in elements[:at])


def _is_the_box(element: Element) -> bool:
    """Whether an element stands for the box at hand."""
    return element.tag in ("box", "it", "this", "that", "one", "<n:1>") or element.tag.startswith(
        "<box_"
    )
