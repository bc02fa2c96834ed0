"""What words point at among the things of the box."""

from __future__ import annotations

from typing import Literal, TypeAlias

from boxaloud.grammar.quick_dataclass import dataclass

ThingKind: TypeAlias = Literal[
    "cable", "conductors", "grounds", "jumper", "fixture_wires", "device", "fitting",
    "terminal_block", "uncounted", "wire", "box", "clamps", "part", "barrier", "anything",
]  # fmt: skip
"""Kinds of thing that a word can point at. `wire`: a cable or conductors; `anything`: unsaid."""

Which: TypeAlias = Literal["said", "last", "other", "others", "all", "both", "first"]


@dataclass(frozen=True, slots=True)
class Reference:
    """What words point at among the things of the box: "one of the 14-2s", "the second cable",
    "it". `count` is how many of them are meant, `ordinal` counts from 1 (-1: the last)."""

    kind: ThingKind = "anything"
    name: str | None = None
    awg: int | None = None
    conductors: int | None = None
    count: int | None = None
    ordinal: int | None = None
    which: Which = "said"
    item: int | None = None
    """The key of an item picked on a screen; never said."""
    words: str = ""
