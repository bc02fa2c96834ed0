"""What a reply says that is not as the electrician has it in mind, and how it is put right."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass

from electrician.agenda import Part, shown
from electrician.mind import Fact, Mind
from electrician.phrasing import WORDS
from electrician.reply_reading import Reading


@dataclass(frozen=True)
class Fix:
    """One thing to put right; where nothing is named, there is nothing but to start over."""

    tell: Part | None = None
    land: Fact | None = None
    """A device with the size that it is on."""
    take_off: tuple[Fact, int] | None = None


def difference(found: Reading, edition: str | None, mind: Mind) -> Fix | None:
    """The first thing that is not as it is in mind; None where all is."""
    meant = Counter({shown(fact, mind): count for fact, count in mind.things.items()})
    things: Counter[Fact] = Counter()
    for fact, count in found.things.items():
        things[plainly(fact, mind)] += count
    several = len(mind.sizes) > 1
    for fact, count in (things - meant).items():
        if fact[0] == "unread":
            return Fix()
        if fact[0] == "device" and fact[2] == 0 and several:
            continue  # its size is still to be asked
        true = true_size(mind, str(fact[1])) if fact[0] == "device" else None
        if true is not None and fact[2] not in (0, true[2]):
            return Fix(land=true)
        return Fix(take_off=(plainly(fact, mind), min(count, 10)))
    for fact, count in (meant - things).items():
        loose = ("device", fact[1], 0)
        if fact[0] == "device" and things[loose] >= count and several:
            continue
        real = fact if fact in mind.things else (true_size(mind, str(fact[1])) or fact)
        return Fix(tell=Part("thing", real, count))
    if found.clamps not in (None, mind.clamps):
        return Fix(tell=Part("clamps"))
    if found.volume not in (None, mind.volume):
        return Fix(tell=Part("box"))
    if edition not in (None, mind.edition):
        return Fix(tell=Part("edition"))
    return None


def true_size(mind: Mind, name: str) -> Fact | None:
    """The device of that name, with the size it is on."""
    return next((f for f in mind.things if f[0] == "device" and f[1] == name), None)


def plainly(fact: Fact, mind: Mind) -> Fact:
    """A device's size means nothing where there is only one."""
    if fact[0] == "device" and len(mind.sizes) == 1 and fact[2] in (0, *mind.sizes):
        return "device", fact[1], 0
    return fact


def within(part: Reading, whole: Reading, mind: Mind) -> bool:
    """True where everything in `part` is so in `whole`."""
    known: Counter[Fact] = Counter()
    for fact, count in whole.things.items():
        known[plainly(fact, mind)] += count
    return (
        all(known[plainly(fact, mind)] == count for fact, count in part.things.items())
        and part.clamps in (None, whole.clamps)
        and part.volume in (None, whole.volume)
        and part.edition in (None, whole.edition)
    )


def right_count(asked: Reading, due: Reading) -> int:
    """How many there are of the first thing asked about that was told; 0 where none was."""
    for fact in asked.things:
        if fact in due.things and 0 < due.things[fact] < len(WORDS):
            return due.things[fact]
    return 0
