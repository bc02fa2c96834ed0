"""The described box as it stands: the journal folded.

A `State` is immutable. Every act that tells makes a new one, so that undo is going back to an
earlier value and two states can be compared with `==`.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import field, fields, replace
from decimal import Decimal
from functools import cache
from operator import attrgetter
from typing import Literal, TypeAlias, TypeVar

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.enclosures.body_state import BodySaid
from boxaloud.assistant.dialogue.enclosures.pull_state import PullBoxSaid
from boxaloud.assistant.dialogue.state_parts import (
    Item,
    Open,
    PartialBox,
    Pending,
    Recalled,
    from_both_sides,
)
from boxaloud.grammar.acts import Act
from boxaloud.grammar.quick_dataclass import dataclass
from boxaloud.rules import is_canadian
from boxaloud.rules.canadian_tally import CONNECTORS, deepest, most_connectors
from boxaloud.rules.contents import (
    DEFAULT_EDITION,
    BondingJumper,
    Box,
    Cable,
    Clamps,
    Conductors,
    Content,
    FixtureWires,
    Grounds,
    Part,
    TerminalBlock,
    Uncounted,
    Yoke,
)

Form: TypeAlias = Literal["normal", "brief", "full"]
Settled: TypeAlias = Literal["said", "least", "most"]
GroundsSaid: TypeAlias = Literal["unsaid", "said", "none"]
_Landed = TypeVar("_Landed", Yoke, TerminalBlock)


@dataclass(frozen=True)
class State:
    """Everything described so far, and what the talk is in the middle of.

    Without slots, so that `altered` can make one of another fast.
    """

    edition: str = DEFAULT_EDITION
    items: tuple[Item, ...] = ()
    box: tuple[Part, ...] = ()
    extras: tuple[Part, ...] = ()
    partial: PartialBox | None = None
    pulls: PullBoxSaid | None = None
    """Pulls of conductors of 4 AWG and larger, 314.28(A)."""
    body: BodySaid = field(default_factory=BodySaid)
    """What is said of a conduit body, 314.16(C)."""
    partial_ring: PartialBox | None = None
    """An extension ring named by its shape, whose depth is still missing."""
    table_count: tuple[int, int | None] | None = None
    """Conductors that were said to be allowed by the Table with nothing else in, and their size."""
    gangs: int | None = None
    """Gangs of the box, where they were said apart from its volume."""
    edition_choices: tuple[str, ...] = ()
    """Editions that what was said may mean, until it is said which."""
    edition_of: str = ""
    """The place or code that those are of, as it was said."""
    space: int = 0
    """The space of a divided box that is being talked about; 0 where none is."""
    shares: tuple[tuple[int, Decimal], ...] = ()
    """Spaces of a divided box with the cubic inches that were said of each."""
    equal_spaces: bool = False
    """True once it was said that the spaces are equal."""
    no_connectors: bool = False
    """True once it was said that there is no wire connector, which only Canada counts."""
    hangs: Decimal | None = None
    """Pounds of the fan or luminaire that the box carries."""
    clamps: Clamps = "unknown"
    clamps_mentioned: bool = False
    nonmetallic: bool | None = None
    grounds: GroundsSaid = "unsaid"
    empty: bool = False
    """True once it was said that there is nothing (else) in the box."""
    next_key: int = 1
    last: int | str = ""
    """Key of the item, or `box`, `clamps`, `edition`, that was said last."""
    assumed: frozenset[str] = frozenset()
    """Slots left at their worst case; one of a single item with its key ("device_size 3")."""
    put_off: frozenset[str] = frozenset()
    """Slots skipped that have no worst case."""
    pending: tuple[Pending, ...] = ()
    rejected: frozenset[str] = frozenset()
    """Marks of held acts that were turned down."""
    unread: tuple[str, ...] = ()
    """Weighty words that nothing could be made of, until that is settled."""
    unread_with: frozenset[str] = frozenset()
    """The names of the acts that were understood beside them."""
    mistaken: bool = False
    """True while something of the box was said to be wrong, but not what it should be."""
    recalled: tuple[Recalled, ...] = ()
    """For "put it back"."""
    proposed: tuple[Act, ...] = ()
    """What was supposed or proposed last, for "do it"."""
    offered: tuple[Act, ...] = ()
    """The boxes that were told to hold it, the smallest first, for "use the second one"."""
    box_sought: Act | None = None
    """The question which box would do, answered anew as more comes in, until a box is named."""
    added: int = 0
    """How many of the item said last came in when it was last added to."""
    named_by: int = 0
    """Key of the device that the box is named by, until it is said by itself; 0 for none."""
    name_open: int = 0
    """That key while nobody has said whether the device is in the box; else 0."""
    tags: frozenset[str] = field(default_factory=frozenset)
    form: Form = "normal"

    def item(self, key: int | str) -> Item | None:
        """The item with this key, or None."""
        return next((item for item in self.items if item.key == key), None)

    def takes_worst(self, slot: str, key: int | None = None) -> bool:
        """True where a slot, or that slot of one item, was left at its worst case."""
        return slot in self.assumed or (key is not None and f"{slot} {key}" in self.assumed)

    def with_item(
        self,
        content: Content,
        words: str,
        open_: Open = "",
        added: int | None = None,
        sized_by_wires: bool = False,
    ) -> State:
        """This state with one more item, which becomes the last thing said."""
        item = Item(self.next_key, content, words, open_, self.space, sized_by_wires)
        return altered(
            self, items=(*self.items, item), next_key=self.next_key + 1, last=item.key, empty=False,
            added=self.added if added is None else added,
        )  # fmt: skip

    def with_content(self, key: int, content: Content) -> State:
        """This state with the content of one item replaced, and that item said last."""
        items = tuple(
            _with_content(item, content) if item.key == key else item for item in self.items
        )
        return altered(self, items=items, last=key)

    def closed(self, key: int, content: Content) -> State:
        """This state with an item replaced and nothing of it open any more."""
        items = tuple(
            replace(item, content=content, open="") if item.key == key else item
            for item in self.items
        )
        return altered(self, items=items, last=key)

    def without(self, key: int) -> State:
        """This state with one item gone."""
        items = tuple(item for item in self.items if item.key != key)
        return altered(self, items=items, last=items[-1].key if items else "")


@cache
def beginning(edition: str) -> State:
    """The state of a box of which nothing was said, the same one for every box."""
    return State(edition=edition)


def _with_content(item: Item, content: Content) -> Item:
    """An item with another content; a size that was said anew is no longer that of the wires."""
    same = getattr(item.content, "awg", None) == getattr(content, "awg", None)
    return replace(item, content=content, sized_by_wires=item.sized_by_wires and same)


def all_but(*left_out: str) -> Callable[[State], tuple[object, ...]]:
    """What compares states by all of their fields but some, without making states for it."""
    return attrgetter(*(field.name for field in fields(State) if field.name not in left_out))


described = all_but(
    "pending", "rejected", "unread", "unread_with", "form", "last", "put_off",
    "clamps_mentioned", "proposed", "offered", "recalled", "added", "mistaken", "named_by",
    "box_sought",
)  # fmt: skip
"""All that says something of the box."""


def sizes_present(state: State) -> tuple[int, ...]:
    """The AWG sizes of the insulated conductors that a device could land on, largest first."""
    found = {
        item.content.awg
        for item in state.items
        if isinstance(item.content, Cable | Conductors) and item.content.path != "inside"
    }
    return tuple(sorted(found))


def grounds_known(state: State) -> bool:
    """False where conductors were named one by one and no ground as large was named.

    A cable brings its own ground; a raceway may carry one that nobody mentioned.
    """
    loose = [
        item.content.awg
        for item in state.items
        if isinstance(item.content, Conductors) and item.content.path != "inside"
    ]
    if not loose or state.grounds != "unsaid":
        return True
    cabled = [
        item.content.ground
        for item in state.items
        if isinstance(item.content, Cable) and item.content.ground is not None
    ]
    return bool(cabled) and min(cabled) <= min(loose)


def to_box(state: State, settled: Settled = "said") -> Box:
    """The box that the rules work out, with what was left at its worst case filled in.

    `settled` takes what is open of single items (a device's width, a canopy) at its `least` or
    its `most`; as `said`, a device is one gang wide and fixture wires are counted.
    """
    contents = [_settled(item, state, settled) for item in state.items]
    clamps = state.clamps
    if "clamps" in state.assumed and clamps in ("unknown", "moulded"):
        clamps = "inside"
    if (settled == "most" and state.body.spliced) or state.takes_worst("body_ends"):
        both = state.body.both_sides is not False
    else:
        both = state.body.both_sides is True
    if both:
        contents = [from_both_sides(content) for content in contents]
    connectors = _connectors(state, contents)
    known = grounds_known(state)
    if not known and "grounds" in state.assumed:
        contents.append(Grounds(min(sizes_present(state)), 1))
        known = True
    return Box(
        parts=(*state.box, *state.extras) if state.box else (),
        contents=tuple(contents),
        clamps=clamps,
        grounds_known=known,
        nonmetallic=state.nonmetallic,
        edition=state.edition,
        connectors_known=connectors,
        hangs=state.hangs,
        tags=state.tags | ({"divided"} if any(item.space for item in state.items) else set()),
    )


def _connectors(state: State, contents: list[Content]) -> bool:
    """Whether it is known how many wire connectors there are; the worst case is added where it
    was chosen."""
    if not is_canadian(state.edition) or state.no_connectors:
        return True
    if any(isinstance(c, Uncounted) and c.kind in CONNECTORS for c in contents):
        return True
    if "connectors" not in state.assumed:
        return False
    most = most_connectors(contents)
    if most:
        contents.append(Uncounted("wire connector", most))
    return True


def _settled(item: Item, state: State, settled: Settled) -> Content:
    """An item's content with its unknowns at the worst case where that was chosen."""
    content = item.content
    if isinstance(content, Yoke):
        worst = state.takes_worst("gangs", item.key)
        if item.open == "gangs" and (settled == "most" or worst):
            content = replace(content, gangs=2)
        content = _landed(content, item, state, "device_size")
        if state.takes_worst("device_depth", item.key) and content.depth is None:
            content = replace(content, depth=deepest())
    elif isinstance(content, BondingJumper) and content.enters is None:
        content = replace(content, enters=True) if state.takes_worst("jumper") else content
    elif isinstance(content, TerminalBlock):
        content = _landed(content, item, state, "block_size")
    elif item.open == "canopy" and isinstance(content, FixtureWires | Grounds):
        content = replace(content, canopy=settled == "least" and "canopy" not in state.assumed)
    return content


def _landed(content: _Landed, item: Item, state: State, slot: str) -> _Landed:
    """A device or block of unknown size, on the largest size present where that was chosen."""
    sizes = sizes_present(state)
    if content.awg is None and sizes and state.takes_worst(slot, item.key):
        return replace(content, awg=min(sizes))
    return content
