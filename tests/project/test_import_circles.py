"""No import runs in a circle: between modules, between folders that stand side by side, and the
rooms that are seen at a first glance are few.

Past defect this prevents: two halves of one room that can only be understood together.
"""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Mapping
from pathlib import Path

from test_layers import MAY_IMPORT, ROOT, imports_of, room_of

ROOMS_AT_A_GLANCE = 12


def modules() -> dict[str, Path]:
    """All modules of the package by the name they are imported by."""
    found = {}
    for place in ("rules", "grammar", "assistant"):
        for path in sorted((ROOT / place).rglob("*.py")):
            parts = path.relative_to(ROOT).with_suffix("").parts
            found[".".join(("boxaloud", *parts)).removesuffix(".__init__")] = path
    return found


def arrows() -> dict[str, set[str]]:
    """What each module imports of ours, at its head or inside a function."""
    known = modules()
    found: dict[str, set[str]] = {}
    for name, path in known.items():
        taken = imports_of(path)
        whole = {one if one in known else one.rpartition(".")[0] for one in taken}
        found[name] = {one for one in whole if one in known and one != name}
    return found


def left_in_circles(graph: Mapping[str, set[str]]) -> set[str]:
    """What is left once all that imports nothing of the rest is taken out, again and again."""
    waiting = {name: set(known) for name, known in graph.items()}
    while ready := {name for name, known in waiting.items() if not known & set(waiting)}:
        waiting = {name: known for name, known in waiting.items() if name not in ready}
    return set(waiting)


def test_a_circle_is_found() -> None:
    assert left_in_circles({"a": {"b"}, "b": {"c"}, "c": {"a"}, "d": {"a"}, "e": set()}) == set(
        "abcd"
    )
    assert left_in_circles({"a": {"b", "c"}, "b": {"c"}, "c": set()}) == set()


def test_no_module_imports_itself_by_way_of_others() -> None:
    assert left_in_circles(arrows()) == set()


def test_no_two_folders_side_by_side_know_each_other() -> None:
    """A folder may be known by the modules above it and know those; its neighbours stand in one
    order."""
    between: dict[str, dict[str, set[str]]] = defaultdict(lambda: defaultdict(set))
    for name, known in arrows().items():
        for other in known:
            one, two = name.split("."), other.split(".")
            shared = next(
                (at for at, (x, y) in enumerate(zip(one, two, strict=False)) if x != y), None
            )
            if shared is None or len(one) <= shared + 1 or len(two) <= shared + 1:
                continue  # a module beside the folders, or an `__init__`
            between[".".join(one[:shared])][one[shared]].add(two[shared])
    assert {place: left_in_circles(graph) for place, graph in between.items()} == {
        place: set() for place in between
    }


def test_the_first_glance_shows_few_rooms() -> None:
    assert len(MAY_IMPORT) <= ROOMS_AT_A_GLANCE


def floors() -> dict[str, int]:
    """The floor of each room: one above the highest that it imports, the ground being 1."""
    below: dict[str, set[str]] = {room: set() for room in MAY_IMPORT}
    for name, known in arrows().items():
        for other in known:
            here, there = room_of(name), room_of(other)
            if here in below and there in below and here != there:
                below[here].add(there)
    found: dict[str, int] = {}
    while waiting := [room for room in below if room not in found and below[room] <= set(found)]:
        found |= {room: 1 + max((found[one] for one in below[room]), default=0) for room in waiting}
    return found


def test_the_guide_draws_the_floors_as_they_are() -> None:
    guide = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
    drawn = {
        room: int(floor)
        for floor, rooms in re.findall(r"(?m)^(\d)  ([a-z ]+)$", guide)
        for room in rooms.split()
    }
    assert drawn == {room.removeprefix("assistant/"): at for room, at in floors().items()}
