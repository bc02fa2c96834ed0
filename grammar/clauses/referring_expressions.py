"""What words point at: "it", "the second cable", "one of the 14-2s", "both of them"."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import cast

from boxaloud.grammar.acts import Reference, ThingKind, Which
from boxaloud.grammar.clauses.act_fields import reference_to
from boxaloud.grammar.clauses.clause import Element
from boxaloud.grammar.lexer import numbers
from boxaloud.grammar.phrases.statements import Statement

_ORDINALS = {
    "first": 1, "second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7,
    "eighth": 8, "ninth": 9, "last": -1,
}  # fmt: skip
_NOUNS: dict[str, ThingKind] = {
    "cable": "cable", "cables": "cable", "run": "cable", "runs": "cable", "wire": "wire",
    "wires": "wire", "conductor": "conductors", "conductors": "conductors", "device": "device",
    "devices": "device", "switch": "device", "switches": "device", "receptacle": "device",
    "receptacles": "device", "outlet": "device", "outlets": "device", "dimmer": "device",
    "dimmers": "device", "box": "box", "volume": "box", "size": "box", "clamp": "clamps",
    "clamps": "clamps", "ring": "part", "rings": "part", "extension": "part", "cover": "part",
    "ground": "grounds", "grounds": "grounds", "stud": "fitting", "fitting": "fitting",
    "leg": "cable", "legs": "cable",
    "homeruns": "cable", "mc": "cable", "mcs": "cable",
    "bx": "cable", "whites": "conductors", "blacks": "conductors", "reds": "conductors",
    "hots": "conductors", "neutrals": "conductors",
}  # fmt: skip
_NAMES = {"switch": "switch", "switches": "switch", "receptacle": "receptacle",
          "receptacles": "receptacle", "outlet": "receptacle", "outlets": "receptacle",
          "dimmer": "dimmer", "dimmers": "dimmer"}  # fmt: skip
#: "that one", "the second one": no count.
_BEFORE_ONE = frozenset({"that", "this", "the", *_ORDINALS, "other", "last"})
_WHICH: dict[str, Which] = {
    "both": "both",
    "all": "all",
    "everything": "all",
    "other": "other",
    "others": "others",
}


def number_in(tag: str) -> Decimal | None:
    """The value of a number's tag, None for any other."""
    if tag.startswith("<n:"):
        text = tag[3:-1]
        return None if text == "None" else Decimal(text)
    return None


def pair_in(tag: str) -> tuple[int, int] | None:
    """The two numbers of a pair's tag, None for any other."""
    return numbers.pair(tag[6:-1]) if tag.startswith("<pair:") else None


def refer(elements: Sequence[Element], heard: str) -> Reference:
    """What a stretch of a clause points at."""
    kind: ThingKind = "anything"
    name: str | None = None
    awg = conductors = count = ordinal = None
    which: Which = "said"
    thing: Reference | None = None
    for place, element in enumerate(elements):
        tag = element.tag
        if element.found is not None and element.found.kind not in ("number", "size", "none"):
            thing = thing or reference_to(element.found)
        elif element.found is not None and element.found.kind == "size":
            awg = size_in([element])  # "one of the twelves", with a size asked for
        elif (pair := pair_in(tag)) is not None:
            kind, (awg, conductors) = "cable", pair
        elif tag in _ORDINALS:
            ordinal, which = _ordinal(elements, place, which)
        elif tag in _NOUNS:
            kind, name = _NOUNS[tag], _NAMES.get(tag)
        elif tag in _WHICH:
            which = _WHICH[tag]
        elif (value := number_in(tag)) is not None and value == int(value):
            before = elements[place - 1].tag if place else ""
            if tag == "<n:1>" and (before in _BEFORE_ONE or _stands_for(elements, place, heard)):
                continue
            if before in ("the", "that", "those") and int(value) in (14, 12, 10, 8, 6):
                awg = int(value)  # "the ten": the wires of that size
                continue
            count = count if count and _of_so_many(elements, place) else int(value)
    start = elements[0].start if elements else 0
    end = elements[-1].end if elements else 0
    words = heard[start:end]
    if thing is not None:
        only = len(elements) > 1 and count is not None
        return Reference(
            thing.kind, thing.name, thing.awg, thing.conductors,
            count if only else thing.count, ordinal, which, None, words,
        )  # fmt: skip
    return Reference(kind, name, awg, conductors, count, ordinal, which, None, words)


def _of_so_many(elements: Sequence[Element], place: int) -> bool:
    """ "One of the three": one is meant, and not three."""
    before = [element.tag for element in elements[max(0, place - 2) : place]]
    return before[:1] == ["of"] and before[-1] in ("the", "those", "these", "my")


def _stands_for(elements: Sequence[Element], place: int, heard: str) -> bool:
    """ "The porch one": a cable by what it is for, and no count."""
    said = heard[elements[place].start : elements[place].end].lower()
    before = [element.tag for element in elements[:place]]
    return said == "one" and len(before) > 1 and before[0] == "the" and before[-1].isalpha()


def _ordinal(elements: Sequence[Element], place: int, which: Which) -> tuple[int | None, Which]:
    """The place that a word gives; "those last two" are what came in last, and no one place."""
    following = number_in(elements[place + 1].tag) if place + 1 < len(elements) else None
    if elements[place].tag == "last" and following is not None and 1 < following < MANY:
        return None, "last"
    return _ORDINALS[elements[place].tag], which


MANY = 6
"""A number from here on may be the size of a wire: "the last twelve"."""


def size_in(elements: Sequence[Element]) -> int | None:
    """The wire size that a stretch of a clause names."""
    for element in reversed(elements):
        found: Statement | None = element.found
        if found is not None and found.get("awg") is not None:
            return int(cast(int, found.get("awg")))
        if (pair := pair_in(element.tag)) is not None:
            return pair[0]
        value = number_in(element.tag)
        if value is not None and value == int(value):
            return int(value)
    return None
