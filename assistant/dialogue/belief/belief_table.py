"""Belief: whether an act is accepted, asked back or refused. One table for all of it.

What is asked back of typed text is less than of heard: a keyboard does not mishear, so only a
value that is rarely right, a word that is also another's number ("for", "to"), "some" for a
number, wires without a size and an unknown operator are asked about. An ear is also asked about
words it was unsure of, a mended noun, words that nobody could use, and a value that turns the
verdict over.
"""

from __future__ import annotations

import tomllib
from dataclasses import replace
from functools import lru_cache
from importlib.resources import files
from typing import Literal, TypeAlias

from boxaloud.grammar.acts import Act, Doubt
from boxaloud.grammar.quick_dataclass import dataclass

Decision: TypeAlias = Literal["accept", "ask", "refuse"]


@dataclass(frozen=True, slots=True)
class Table:
    """The thresholds and kinds of `data/belief.toml`."""

    sure: float
    typed: frozenset[str]
    heard: frozenset[str]
    valueless: frozenset[str]
    vague: frozenset[str]
    deciding: dict[str, str]
    flipping: frozenset[str]
    holdable: frozenset[str]
    answering: float
    again: float
    certain: float
    answers: frozenset[str]
    emptying: frozenset[str]
    leaving: frozenset[str]
    steps: int
    off_topic: int
    inert: int
    on_topic: int


@lru_cache(maxsize=1)
def table() -> Table:
    """The table, read once."""
    path = files("boxaloud.assistant.dialogue.belief") / "data" / "belief.toml"
    data = tomllib.loads(path.read_text(encoding="utf-8"))
    flipping = frozenset(data["flipping"]["acts"])
    emptying, leaving = (frozenset(data[name]["acts"]) for name in ("emptying", "leaving"))
    return Table(
        sure=float(data["sure"]),
        typed=frozenset(data["ask"]["typed"]),
        heard=frozenset(data["ask"]["heard"]),
        valueless=frozenset(data["ask"]["valueless"]),
        vague=frozenset(data["vague"]["acts"]),
        deciding=dict(data["deciding"]),
        flipping=flipping,
        holdable=flipping | emptying | leaving | {"Undo", *data["holdable"]["acts"]},
        answering=float(data["answering"]),
        again=float(data["again"]),
        certain=float(data["certain"]),
        answers=frozenset(data["answers"]["acts"]),
        emptying=emptying,
        leaving=leaving,
        steps=int(data["steps"]["asked"]),
        off_topic=int(data["off_topic"]),
        inert=int(data["inert"]),
        on_topic=int(data["on_topic"]),
    )


def kind(act: Act) -> str:
    """The name of an act's intent."""
    return type(act).__name__


def unsure(act: Act, confidence: float) -> Act:
    """An act heard with so much confidence, with a doubt where its deciding word was unsure."""
    known = table()
    if confidence >= known.sure or kind(act) not in known.deciding or act.doubts:
        return act
    return replace(act, doubts=(Doubt(known.deciding[kind(act)], "heard"),))


def doubt_of(act: Act, spoken: bool) -> Doubt | None:
    """The first doubt of an act that must be asked back."""
    if not act.doubts:
        return None
    known = table()
    asked = known.heard if spoken else known.typed
    for doubt in act.doubts:
        if doubt.reason not in asked:
            continue
        if doubt.reason == "vague" and kind(act) not in known.vague:
            continue
        return doubt
    return None


def decide(act: Act, spoken: bool, flips: bool, rejected: bool = False) -> Decision:
    """What becomes of an act: the whole of the safety net in one place.

    Args:
        act: the full act, with its doubts.
        spoken: True where an ear gave the words.
        flips: True where it turns a definite verdict over.
        rejected: True where just this was turned down before.
    """
    known = table()
    if kind(act) not in known.holdable:
        return "accept"
    doubtful = doubt_of(act, spoken) is not None
    turns = spoken and flips and kind(act) in known.flipping
    if not (doubtful or turns):
        return "accept"
    return "refuse" if rejected else "ask"
