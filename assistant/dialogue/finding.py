"""Finding the item that a correction means: the last thing that it can mean."""

from __future__ import annotations

from assistant.dialogue.state import Item, State
from grammar.statements import Statement
from rules.contents import (
    BondingJumper,
    Cable,
    Conductors,
    FixtureWires,
    Grounds,
    SupportFitting,
    TerminalBlock,
    Uncounted,
    Yoke,
)

TYPES: dict[str, type] = {
    "cable": Cable,
    "conductors": Conductors,
    "grounds": Grounds,
    "jumper": BondingJumper,
    "fixture_wires": FixtureWires,
    "device": Yoke,
    "fitting": SupportFitting,
    "terminal_block": TerminalBlock,
    "uncounted": Uncounted,
}


def matching(state: State, statement: Statement) -> Item | None:
    """The last item that agrees with all that `statement` says, else the last of its type.

    A statement that names a size only falls back to another size where there is one item of
    that type and so no mistaking it.
    """
    kind = TYPES.get(statement.kind)
    if kind is None:
        return None
    same_type = [item for item in reversed(state.items) if isinstance(item.content, kind)]
    exact = [item for item in same_type if _agrees(item, statement)]
    if exact:
        last = next((item for item in exact if item.key == state.last), None)
        return last or exact[0]
    return None


def last_of_type(state: State, statement: Statement) -> Item | None:
    """The only item of the statement's type, or the one said last."""
    kind = TYPES.get(statement.kind)
    if kind is None:
        return None
    same_type = [item for item in state.items if isinstance(item.content, kind)]
    if len(same_type) == 1:
        return same_type[0]
    last = state.item(state.last)
    return last if last in same_type else None


def by_name(state: State, name: str) -> Item | None:
    """The last device, fitting or uncounted thing with this name, or whose name ends so.

    "the switch" may mean a three-way switch; "the receptacle" the GFCI receptacle.
    """
    for item in reversed(state.items) if name else ():
        called = str(getattr(item.content, "name", getattr(item.content, "kind", "")))
        if called and (called == name or called.endswith(name) or name.endswith(called)):
            return item
    return None


def last_sized(state: State) -> Item | None:
    """The device or terminal block last said, one whose size is still unsaid before others."""
    sized = [item for item in state.items if isinstance(item.content, Yoke | TerminalBlock)]
    last = state.item(state.last)
    if last in sized:
        return last
    unsaid = [item for item in sized if getattr(item.content, "awg", None) is None]
    return next(reversed(unsaid or sized), None)


def last_item(state: State) -> Item | None:
    """The item said last, where the last thing said was an item."""
    return state.item(state.last)


def _agrees(item: Item, statement: Statement) -> bool:
    content = item.content
    for slot in ("awg", "conductors"):
        said = statement.get(slot)
        if said is not None and getattr(content, slot, said) not in (None, said):
            return False
    name = statement.get("name")
    if name is not None:
        called = str(getattr(content, "name", getattr(content, "kind", "")))
        said_name = str(name)
        return called == said_name or called.endswith(said_name) or said_name == "device"
    path = statement.get("path")
    return path is None or getattr(content, "path", path) == path
