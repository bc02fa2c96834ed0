"""How a thousand talks went: success, joint goals, slots, turns, and verdicts wrong unheard."""

from __future__ import annotations

import random
from collections import Counter
from dataclasses import dataclass, field
from fractions import Fraction

from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.dialogue.state import State
from boxaloud.rules.contents import (
    Cable,
    Conductors,
    FixtureWires,
    Grounds,
    Marked,
    SupportFitting,
    TableBox,
    Uncounted,
    Yoke,
)

from electrician import truth
from electrician.mind import Fact, Mind, random_mind
from electrician.noise import Recogniser
from electrician.talking import Electrician


@dataclass
class Outcome:
    """One talk."""

    accepted: bool
    right: bool
    """The accepted total and verdict are the truth."""
    turns: int
    least: int
    joint: int
    """Turns after which the box was as meant."""
    hits: int
    misses: int
    extras: int
    wrong_words: int
    words: int
    meddled: int = 0
    """Questions and remarks that changed what is held to be in the box."""
    log: list[tuple[str, str, str]] = field(default_factory=list)


def entered(state: State) -> Counter[Fact]:
    """What the product holds to be in the box, for measuring only."""
    facts: Counter[Fact] = Counter()
    for item in state.items:
        match item.content:
            case Cable() as c:
                facts["cable", c.awg, c.conductors, c.ground is not None] += c.count
            case Conductors() as c:
                facts["conductors", c.awg] += c.count
            case Grounds() as g:
                facts["grounds", g.awg] += g.count
            case FixtureWires() as w:
                facts["tails", w.awg, w.canopy] += w.count
            case Yoke() as y:
                facts["device", y.name] += y.count
            case SupportFitting() as s:
                facts["fitting", s.kind] += 1
            case Uncounted() as u:
                facts["uncounted", u.kind] += u.count
    for part in state.box:
        if isinstance(part, Marked | TableBox):
            facts["box", str(part)] += 0
    return facts


def held(state: State) -> tuple[Counter[Fact], str]:
    """All that is held of a box: what is in it, and its clamps."""
    return entered(state), str(state.clamps)


def meant(electrician: Electrician) -> Counter[Fact]:
    """What has been told by now: all of the mind but what is still to come."""
    facts: Counter[Fact] = Counter()
    for fact, count in electrician.mind.things.items():
        facts[fact[:2] if fact[0] == "device" else fact] += count
    for part in [
        *(p for chunk in electrician.agenda.todo for p in chunk),
        *electrician.agenda.later,
    ]:
        if part.kind == "thing":
            key = part.fact[:2] if part.fact[0] == "device" else part.fact
            facts[key] -= part.count
    return +facts


def one_talk(seed: int, errors: float, mind: Mind | None = None, plain: bool = False) -> Outcome:
    """A random box talked through at a rate of word errors.

    `plain`: the ear only swaps words, and the electrician only tells: no slips, no questions, no
    remarks.
    """
    dice = random.Random(seed)
    mind = mind or random_mind(dice)
    electrician = Electrician(mind, dice, lively=not plain)
    ear = Recogniser(errors, dice, swaps_only=plain)
    conversation = Conversation()
    reply = None
    found = Outcome(False, False, 0, electrician.least, 0, 0, 0, 0, 0, 0)
    while (words := electrician.say(reply)) is not None:
        heard = ear.hear(words)
        before = held(conversation.talk.state)
        reply = conversation.hear(heard)
        found.meddled += electrician.extra and held(conversation.talk.state) != before
        _score(found, entered(conversation.talk.state), meant(electrician))
        found.log.append((words, " ".join(word.text for word in heard), reply.said))
    found.turns = electrician.turns
    found.wrong_words, found.words = ear.wrong, ear.words
    if electrician.accepted is not None:
        found.accepted = True
        total, verdict = electrician.accepted
        true = truth.count(mind)
        found.right = Fraction(total) == true.total and verdict == true.verdict
    return found


def _score(found: Outcome, entered: Counter[Fact], told: Counter[Fact]) -> None:
    entered = +entered
    found.joint += entered == told
    found.hits += sum((entered & told).values())
    found.misses += sum((told - entered).values())
    found.extras += sum((entered - told).values())


@dataclass(frozen=True)
class Report:
    """Many talks at one rate of word errors."""

    errors: float
    talks: int
    success: float
    silently_wrong: int
    joint_goal: float
    slot_f1: float
    turns_over_least: float
    measured_errors: float
    meddled: int
    """Questions and remarks that changed the box."""

    def __str__(self) -> str:
        return (
            f"{self.errors:.0%} word errors ({self.measured_errors:.1%} measured), "
            f"{self.talks} boxes: success {self.success:.1%}, silently wrong verdicts "
            f"{self.silently_wrong}, joint goal {self.joint_goal:.3f}, slot F1 "
            f"{self.slot_f1:.3f}, turns {self.turns_over_least:.2f} of the least, "
            f"boxes changed by a question or remark {self.meddled}"
        )


def report(errors: float, seeds: range, plain: bool = False) -> tuple[Report, list[Outcome]]:
    """Talk through one random box a seed."""
    found = [one_talk(seed, errors, plain=plain) for seed in seeds]
    turns = sum(one.turns for one in found)
    hits = sum(one.hits for one in found)
    wrong = sum(one.misses + one.extras for one in found)
    made = Report(
        errors,
        len(found),
        sum(one.accepted and one.right for one in found) / len(found),
        sum(one.accepted and not one.right for one in found),
        sum(one.joint for one in found) / turns,
        2 * hits / (2 * hits + wrong),
        turns / sum(one.least for one in found),
        sum(one.wrong_words for one in found) / sum(one.words for one in found),
        sum(one.meddled for one in found),
    )
    return made, found
