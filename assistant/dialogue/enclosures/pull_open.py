"""What is still open of a pull box: asked one at a time, before any dimension is said."""

from __future__ import annotations

from collections import defaultdict

from boxaloud.assistant.dialogue.enclosures import pull_cables
from boxaloud.assistant.dialogue.enclosures.pull_state import (
    Entering,
    PullBoxSaid,
    Pulled,
    PullSaid,
)
from boxaloud.assistant.dialogue.question_slots import PullSlot
from boxaloud.assistant.dialogue.state import State
from boxaloud.rules.pull import OPPOSITE, Wall

WORST_CASE = frozenset(
    {"pull_rows", "pull_returns", "pull_walls", "pull_cover", "pull_conductor", pull_cables.WORST}
)  # fmt: skip
"""Slots that can be left at their worst case, the largest box."""


def missing(state: State) -> PullSlot | None:
    """The slot to ask about next; None where every dimension can be worked out."""
    said = state.pulls
    if said is None:
        return None
    said = pull_cables.sized(said, state.assumed)
    return next((slot for slot in _open(said, state.assumed) if slot not in state.assumed), None)


def asked(state: State) -> PullSlot | None:
    """The slot to ask about, what was skipped left out."""
    slot = missing(state)
    if slot is None and state.pulls is not None and state.pulls.blocks:
        slot = "pull_inside" if None in state.pulls.inside and not state.box else None
    return None if slot in state.put_off else slot


def _open(said: PullBoxSaid, assumed: frozenset[str]) -> list[PullSlot]:
    found: list[PullSlot] = []
    slots = [pull_cables.slot_of(one, said, assumed) for one in said.entering]
    if said.pulls and (any(slots) or not all(one.entering for one in said.pulls)):
        return [next((slot for slot in slots if slot is not None), "pull_size")]
    if not said.pulls:
        return ["pull_size"]
    if any(kind_of(one) is None for one in said.pulls):
        found.append("pull_kind")
    if _rows_open(said):
        found.append("pull_rows")
    if any(_returns_open(one) for one in said.pulls):
        found.append("pull_returns")
    if any(_half_walled(one) for one in said.pulls):
        found.append("pull_wall")
    if _walls_open(said):
        found.append("pull_walls")
    if said.with_back and said.cover is None:
        found.append("pull_cover")
    if said.with_back and said.cover is not False and not said.conductor:
        found.append("pull_conductor")
    return found


def kind_of(pulled: Pulled) -> PullSaid | None:
    """The kind that was said, else the one that two walls make; None where neither tells."""
    if pulled.kind is not None:
        return pulled.kind
    if pulled.returns:
        return "u"
    ends = {one.end for one in pulled.entering}
    if pulled.placing == "same" and ends == {"in", "out"}:
        return "u"
    if pulled.placing in ("opposite", "adjacent"):
        return "straight" if pulled.placing == "opposite" else "angle"
    if any(one.wall is None for one in pulled.entering) and len(pulled.walls) != 2:
        return None
    walls = walls_of(pulled)
    if len(walls) != 2:
        return None
    one, other = walls
    return "straight" if OPPOSITE.get(one) == other else "angle"


def walls_of(pulled: Pulled) -> list[Wall]:
    """The walls named for a pull, each once, in the order said."""
    named = [wall for one in pulled.entering for wall in (one.wall, one.to) if wall is not None]
    return list(dict.fromkeys((*named, *pulled.walls)))


def _rows_open(said: PullBoxSaid) -> bool:
    """Rows were spoken of, but not what is in which."""
    rows: dict[str, list[int | None]] = defaultdict(list)
    for pulled in said.pulls:
        for one in pulled.entering:
            rows[one.wall or ""].append(one.row)
    several = any(None in found and len(set(found)) > 1 for found in rows.values())
    unsaid = all(row is None for found in rows.values() for row in found)
    return several or (unsaid and said.rows is not None and said.rows > 1)


def _returns_open(pulled: Pulled) -> bool:
    """Whether the raceways of a U pull are its entries, or each comes back out beside itself."""
    if kind_of(pulled) != "u" or pulled.returns is not None:
        return False
    loose = [one for one in pulled.entering if one.to is None and one.end is None]
    count = sum(one.count for one in loose)
    if count < 2:
        return False
    return not (len(loose) == 1 and count == 2)


def _half_walled(pulled: Pulled) -> bool:
    """Some raceways of a pull have their wall and some have none."""
    if pulled.walls or pulled.kind == "u":
        return False
    return len({one.wall is None and one.end is None for one in pulled.entering}) > 1


def _walls_open(said: PullBoxSaid) -> bool:
    """A splice without its walls, or several pulls that may share a wall or not."""
    loose = [one for one in said.pulls if not walls_of(one) and not one.placing]
    if any(kind_of(one) == "splice" for one in loose):
        return True
    turning = [one for one in loose if kind_of(one) != "straight"]
    return len(said.pulls) > 1 and bool(turning)


def lone(pulled: Pulled) -> tuple[Entering, ...]:
    """The raceways of a U pull that are entries as they stand."""
    if pulled.returns is not None:
        return () if pulled.returns else pulled.entering
    two = len(pulled.entering) == 1 and pulled.entering[0].count == 2
    return pulled.entering if two else ()
