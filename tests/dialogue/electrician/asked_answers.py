"""What the electrician answers to a question: something that was still to be told, or a word."""

from __future__ import annotations

import re
from dataclasses import dataclass

from electrician.agenda import Agenda, Part
from electrician.mind import Mind
from electrician.phrasing import GAUGE, Talker


@dataclass(frozen=True)
class Answer:
    """A part to tell, or words; neither where there is nothing to say to it."""

    words: str = ""
    tell: Part | None = None


def answer(asks: str, agenda: Agenda, talker: Talker, put: str) -> Answer | None:
    """The answer to a question about a slot, as it was put; None where it was of nothing known."""
    mind = agenda.mind
    if asks in ("clamps", "clamps_place", "box"):
        kind = "box" if asks == "box" else "clamps"
        agenda.take(kind)
        return Answer(tell=Part(kind))
    if asks == "grounds":
        return _grounds(agenda, talker)
    if asks == "device_size":
        return _size(mind, talker, put)
    if asks == "canopy":
        canopy = any(f[0] == "tails" and f[2] for f in mind.things)
        return Answer("yes" if canopy else "no")
    if asks == "box_depth" and mind.standard:
        return Answer(f"{mind.standard[1]} deep")
    return Answer("one" if asks == "gangs" else "")


def _grounds(agenda: Agenda, talker: Talker) -> Answer:
    missed = agenda.grounds()
    if missed is not None:
        return Answer(tell=missed)
    things = agenda.mind.things
    if any(fact[0] == "cable" and fact[3] for fact in things):
        return Answer(talker.pick("none", "just the ones in the cables"))
    return Answer("skip" if any(fact[0] == "grounds" for fact in things) else "none")


def _size(mind: Mind, talker: Talker, put: str) -> Answer | None:
    for fact in mind.things:
        if fact[0] == "device" and re.search(rf"the {fact[1]}(es|s)?\b", put):
            gauge = GAUGE[int(fact[2])]
            return Answer(talker.pick(gauge, f"the {gauge}s", f"number {gauge}"))
    return None
