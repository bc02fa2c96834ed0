"""Which acts enter things of a box, and those with a wire size or a way through it, narrowed."""

from __future__ import annotations

from dataclasses import replace
from typing import Any, TypeGuard, TypeVar, cast

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Thing
from boxaloud.grammar.clauses.act_fields import KIND_OF, THINGS

_THINGS = tuple(THINGS.values())
_Counted = TypeVar("_Counted", bound=Act)
#: Acts that say a wire size.
SIZED = (
    acts.AddCable,
    acts.AddConductors,
    acts.AddGrounds,
    acts.AddJumper,
    acts.AddFixtureWires,
    acts.AddDevice,
    acts.AddTerminalBlock,
    acts.Size,
)
#: Acts that say how conductors meet the box.
ROUTED = (acts.AddCable, acts.AddConductors)


def is_thing(act: object) -> TypeGuard[Thing]:
    """Whether an act enters things of a box."""
    return isinstance(act, _THINGS)


def counted(act: object) -> int | None:
    """How many an act says; None where it says no count, or is of a kind that has none."""
    count = getattr(act, "count", None)
    return count if isinstance(count, int) else None


def with_count(act: _Counted, count: int) -> _Counted:
    """An act with its count said later, and no doubt left. Raises TypeError where it has none."""
    return cast(_Counted, replace(cast(Any, act), count=count, doubts=()))


def pointed_at(thing: Thing, words: str) -> acts.Reference:
    """What words point at by a thing that they name: so many like it."""
    name = getattr(thing, "name", None)
    return acts.Reference(
        KIND_OF[type(thing)],
        None if name == "device" else name,
        getattr(thing, "awg", None),
        getattr(thing, "conductors", None),
        counted(thing),
        words=words,
    )
