"""What the electrician is still to tell: in which order, and what only when asked."""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from electrician.mind import Fact, Mind
from electrician.phrasing import Talker
from electrician.reply_reading import Reading


@dataclass
class Part:
    """One thing to be told: a fact with its count, or the clamps, the box, the edition."""

    kind: str
    fact: Fact = ()
    count: int = 0

    def expected(self, mind: Mind, sized: bool) -> Reading:
        if self.kind == "clamps":
            return Reading(clamps=mind.clamps)
        if self.kind == "box":
            return Reading(volume=mind.volume)
        if self.kind == "edition":
            return Reading(edition=mind.edition)
        return Reading(Counter({shown(self.fact, mind, sized): self.count}))

    def said(self, talker: Talker, sized: bool) -> str:
        """The part in words."""
        match self.kind:
            case "clamps":
                return talker.clamps()
            case "box":
                return talker.box()
            case "edition":
                return talker.edition()
        return talker.fact(self.fact, self.count, sized)


def shown(fact: Fact, mind: Mind, sized: bool = True) -> Fact:
    """A fact as it is read back: a device names its size only where there are several."""
    if fact[0] == "device" and (not sized or len(mind.sizes) == 1):
        return "device", fact[1], 0
    return fact


def expected(parts: Sequence[Part], mind: Mind, sized: bool) -> Reading:
    """What a listener has heard once all of these were told."""
    total = Reading()
    for part in parts:
        one = part.expected(mind, sized)
        total.things += one.things
        total.clamps = one.clamps or total.clamps
        total.volume = one.volume or total.volume
        total.edition = one.edition or total.edition
    return total


class Agenda:
    """The parts of a mind, in chunks: each chunk is told in one utterance."""

    def __init__(self, mind: Mind, dice: random.Random) -> None:
        self.mind = mind
        self.todo: list[list[Part]] = []
        self.later: list[Part] = []
        """Told only when asked."""
        self._plan(dice)

    def __len__(self) -> int:
        return len(self.todo) + len(self.later)

    def _plan(self, dice: random.Random) -> None:
        parts = [Part("thing", fact, count) for fact, count in self.mind.things.items()]
        dice.shuffle(parts)
        for kind, kept in (("clamps", 0.4), ("box", 0.3)):
            if dice.random() < kept:
                self.later.append(Part(kind))
            else:
                parts.insert(dice.randrange(len(parts) + 1), Part(kind))
        grounds = [part for part in parts if part.fact[:1] == ("grounds",)]
        if grounds and self._loose() and dice.random() < 0.4:
            parts.remove(grounds[0])
            self.later.append(grounds[0])
        if self.mind.edition != "2023":
            self.todo.append([Part("edition")])
        while parts:
            size = dice.choice([1, 2, 2, 3])
            self.todo.append(parts[:size])
            parts = parts[size:]

    def _loose(self) -> bool:
        """True where the grounds will be asked for: no cable brings any."""
        return not any(fact[0] == "cable" for fact in self.mind.things)

    def again(self, parts: Sequence[Part]) -> None:
        """These are to be told again, each by itself, before all else."""
        self.todo[:0] = [[part] for part in parts]

    def all_anew(self) -> None:
        """All is to be told from the beginning."""
        things = [Part("thing", fact, count) for fact, count in self.mind.things.items()]
        self.todo = [[part] for part in [*things, Part("clamps"), Part("box")]]
        if self.mind.edition != "2023":
            self.todo.append([Part("edition")])

    def take(self, kind: str) -> None:
        """What was asked for is told now, and not again."""
        self.later = [part for part in self.later if part.kind != kind]
        self.todo = [[p for p in chunk if p.kind != kind] for chunk in self.todo]
        self.todo = [chunk for chunk in self.todo if chunk]

    def grounds(self) -> Part | None:
        """The grounds, where they were kept back or may have been missed; None where they come
        by themselves, or there are none."""
        held = next((p for p in self.later if p.fact[:1] == ("grounds",)), None)
        if held is not None:
            self.later.remove(held)
            return held
        fact = next((f for f in self.mind.things if f[0] == "grounds"), None)
        if fact is None or any(p.fact == fact for chunk in self.todo for p in chunk):
            return None
        return Part("thing", fact, self.mind.things[fact])
