"""What a state holds: items of the box, a box half named, acts that wait, what was taken out."""

from __future__ import annotations

from dataclasses import fields, replace
from decimal import Decimal
from typing import Literal, TypeAlias

from boxaloud.grammar.acts import Act, Reason, Reference
from boxaloud.grammar.quick_dataclass import dataclass
from boxaloud.rules.contents import Conductors, Content, Grounds

Open: TypeAlias = Literal["", "gangs", "canopy"]


@dataclass(frozen=True, slots=True)
class Item:
    """One thing in the box, as entered. `key` stays the same through corrections."""

    key: int
    content: Content
    words: str
    open: Open = ""
    """What nobody has said of it: whether a device takes one gang or two, or whether fixture
    wires come from a domed canopy."""
    space: int = 0
    """The space of a divided box that it stands in, counted from 1; 0 where nobody said."""
    sized_by_wires: bool = False
    """True for a ground or jumper whose size nobody said: it is as large as the wires need."""


@dataclass(frozen=True, slots=True)
class PartialBox:
    """A box named by its shape, with something still missing (mostly the depth)."""

    family: str
    width: Decimal | None = None
    height: Decimal | None = None
    depth: Decimal | str | None = None
    gangs: int = 1
    label: str = "box"


@dataclass(frozen=True, slots=True)
class Pending:
    """An act that waits for a yes before it counts."""

    act: Act
    slot: str
    reason: Reason

    @property
    def mark(self) -> str:
        """What it says, apart from the words: the same for the same thing said again."""
        return mark_of(self.act)


def mark_of(act: Act) -> str:
    """What an act says, apart from the words it was said in."""
    told = [
        f"{field.name}={_bare(getattr(act, field.name))}"
        for field in fields(act)
        if field.name not in ("words", "span", "doubts", "function")
    ]
    return f"{type(act).__name__} {', '.join(told)}"


def _bare(value: object) -> str:
    if isinstance(value, Act):
        return mark_of(value)
    if isinstance(value, Reference):
        return repr(replace(value, words=""))
    return str(value)


@dataclass(frozen=True, slots=True)
class Recalled:
    """What was taken out or replaced last, the key of what came in its place, and how many came."""

    content: Content
    words: str
    by: int | None = None
    came: int | None = None


def from_both_sides(content: Content) -> Content:
    """A conductor spliced in a conduit body that comes in from both sides counts twice."""
    if isinstance(content, Grounds):
        return replace(content, count=content.count * 2)
    if isinstance(content, Conductors) and content.path not in ("through", "loop", "inside"):
        return replace(content, count=content.count * 2)
    return content
