"""Single turns of outside authors come out right in as many cases as once reached, by class."""

from __future__ import annotations

import tomllib
from collections import Counter
from pathlib import Path

import pytest
from single_turns import TURNS, outcomes

FLOORS = tomllib.loads((TURNS / "floors.toml").read_text(encoding="utf-8"))


@pytest.mark.parametrize("file", sorted(TURNS.glob("*.jsonl")), ids=lambda file: file.stem)
def test_a_set_of_turns_is_as_right_as_it_was(file: Path) -> None:
    found = list(outcomes(file))
    floors = FLOORS[file.stem]
    right = Counter(one.turn["class"] for one in found if one.right)
    below = {kind: right[kind] for kind in floors["right"] if right[kind] < floors["right"][kind]}
    assert below == {}
    assert sum(one.unsafe for one in found) <= floors["over_said_to_fit"]
    assert {one.turn["class"] for one in found} == set(floors["right"])
