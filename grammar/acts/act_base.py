"""What every dialogue act carries: the words, their place, and why they may be doubted."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal, TypeAlias

from boxaloud.grammar.quick_dataclass import dataclass

Value: TypeAlias = int | Decimal | str | bool | None
Function: TypeAlias = Literal["inform", "correction", "request"]
"""What a telling act does: `correction` where the words mark it as one ("actually", "I mean"),
`request` where it is an order ("add", "make it"), else `inform`."""

Reason: TypeAlias = Literal[
    "heard", "repaired", "confusable", "unusual", "vague", "carried", "beside", "flips",
    "unsized", "operator", "conflict", "drastic", "named", "fewer", "some",
    "anew", "elsewhere",
]  # fmt: skip
"""Why a slot is not to be trusted yet.

`heard`: the ear was unsure; `repaired`: a misspelling was mended; `confusable`: it sounds like
another value; `unusual`: a value that is rarely right; `vague`: several were said, not how many;
`carried`: left unsaid, taken from a neighbour; `beside`: a word that was not understood stands
right beside it; `flips`: it turns the verdict over; `unsized`: wires without a size; `operator`:
an unknown verb stands before it; `conflict`: two values for one slot in one breath; `drastic`:
a sound would empty a box or leave it; `named`: it stands in the name of the box ("the hall
3-way"), and may yet be said by itself; `fewer`: it would stand for more than were said; `some`:
something is told of so many, which may be some of those that are there; `anew`: more of them than
are there are all of them, with one that was not seen before; `elsewhere`: a cable leads to it.
"""

WirePath: TypeAlias = Literal["ends", "through", "loop", "short_loop", "inside"]
"""How conductors meet the box, 314.16(B)(1); `ends`: they end or are spliced in it, which is also
what holds where nothing was said."""

Unit: TypeAlias = Literal["cm3", "liter", "mm", "cm", "kg"]
"""The unit that was said with a measure, where it is none of the code's own."""

Placing: TypeAlias = Literal["inside", "outside", "none", "moulded", "present"]
"""Where cable clamps are; `present`: there are some, nobody said where."""


@dataclass(frozen=True, slots=True)
class Doubt:
    """Why a slot of an act is not to be trusted yet."""

    slot: str
    reason: Reason
    instead: Value = None
    """The other value it may have been, where there is one: its rival."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Act:
    """What every act carries: the speaker's own words and their place in the utterance."""

    words: str = ""
    span: tuple[int, int] = (0, 0)
    doubts: tuple[Doubt, ...] = ()
    function: Function = "inform"
