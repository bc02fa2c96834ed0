"""A box in somebody's mind."""

from __future__ import annotations

import random
from collections import Counter
from dataclasses import dataclass, field
from typing import TypeAlias

Fact: TypeAlias = tuple[str | int | bool, ...]
"""("cable", awg, conductors, ground), ("conductors", awg), ("grounds", awg), ("device", name,
awg), ("tails", awg, canopy), ("fitting", name), ("uncounted", name)."""

DEVICES = [
    "switch",
    "three-way switch",
    "dimmer",
    "receptacle",
    "duplex receptacle",
    "GFCI receptacle",
    "timer",
]
FITTINGS = ["luminaire stud", "hickey"]
MARKED = [
    ("14", 3),
    ("16", 3),
    ("18", 6),
    ("20.3", 3),
    ("20", 2),
    ("22.5", 5),
    ("32", 2),
    ("34", 3),
    ("44", 1),
    ("12.5", 1),
    ("30", 1),
]


@dataclass
class Mind:
    """What is in the box, how it is clamped, what it holds, by which edition."""

    things: Counter[Fact] = field(default_factory=Counter)
    clamps: str = "none"
    volume: str = "18"
    standard: tuple[str, str] | None = None
    """Shape and depth of a standard metal box, where it is no marked one."""
    edition: str = "2023"

    @property
    def sizes(self) -> set[int]:
        return {int(fact[1]) for fact in self.things if fact[0] in ("cable", "conductors")}


def random_mind(dice: random.Random) -> Mind:
    """Mostly ordinary boxes: a few cables, a device or two, now and then raceway or luminaire."""
    from electrician.truth import STANDARD

    mind = Mind()
    sizes = [dice.choices([14, 12, 10], [6, 4, 1])[0]]
    if dice.random() < 0.3:
        sizes.append(dice.choice([14, 12]))
    raceway = dice.random() < 0.2
    if raceway:
        awg = dice.choices([12, 14, 10, 8], [4, 3, 2, 1])[0]
        mind.things["conductors", awg] = dice.randint(2, 6)
        if dice.random() < 0.8:
            mind.things["grounds", awg] = dice.randint(1, 2)
    if not raceway or dice.random() < 0.3:
        for awg in dict.fromkeys(sizes):
            conductors = dice.choices([2, 3], [4, 1])[0]
            ground = dice.random() < 0.93
            mind.things["cable", awg, conductors, ground] = dice.choices(
                [1, 2, 3, 4], [3, 5, 3, 1]
            )[0]
    _add_devices(mind, dice)
    if dice.random() < 0.12:
        mind.things["tails", 18, dice.random() < 0.6] = 2
    if dice.random() < 0.1:
        mind.things["fitting", dice.choice(FITTINGS)] = 1
    if dice.random() < 0.1:
        mind.things["uncounted", "wire connector"] = dice.randint(2, 5)
    mind.clamps = dice.choices(["none", "inside", "outside"], [4, 4, 2])[0]
    if dice.random() < 0.25:
        mind.standard = dice.choice(list(STANDARD))
        mind.volume = STANDARD[mind.standard]
    else:
        volumes, weights = zip(*MARKED, strict=True)
        mind.volume = dice.choices(volumes, weights)[0]
    if dice.random() < 0.1:
        mind.edition = dice.choice(["2017", "2020", "2014"])
    return mind


def _add_devices(mind: Mind, dice: random.Random) -> None:
    for name in dice.sample(DEVICES, dice.choices([0, 1, 2], [1, 6, 2])[0]):
        awg = dice.choice(sorted(mind.sizes))
        mind.things["device", name, awg] = dice.choices([1, 2], [5, 1])[0]
