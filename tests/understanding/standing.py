"""How a box stands after a talk, and whether that is as it should be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from boxaloud.assistant.dialogue import Conversation, Reply
from boxaloud.grammar.lexer.heard_words import Word
from matrix_rows import Row

SURE = 0.97


@dataclass(frozen=True)
class Standing:
    """What is compared of a box: never a sentence. Volumes in cubic inches."""

    verdict: str
    total: Decimal
    capacity: Decimal | None
    edition: str
    box: str

    def __str__(self) -> str:
        return f"{self.verdict} {self.total} of {self.capacity} ({self.box}, {self.edition})"


def heard(text: str, confidence: float = SURE) -> list[Word]:
    """The words of a sentence as an ear gives them."""
    return [Word(word, confidence) for word in text.split()]


def play(said: Sequence[str | list[Word]]) -> tuple[Conversation, Reply]:
    """A new conversation after these utterances, and the last reply."""
    talk = Conversation()
    for words in said:
        reply = talk.hear(words)
    return talk, reply


def standing(talk: Conversation) -> Standing:
    """Where the box at hand stands."""
    found, box = talk.talk.assessment, talk.talk
    return Standing(
        found.verdict, found.sheet.total, found.sheet.capacity, box.state.edition, box.name
    )


def entered(talk: Conversation) -> tuple[tuple[Any, ...], ...]:
    """All that was entered in every box: what may not change unless something was told."""
    states = [(name, talk.boxes.talk(name).state) for name in talk.boxes.names]
    return tuple(
        (name, s.items, s.box, s.extras, s.clamps, s.grounds, s.edition, s.empty, s.pulls)
        for name, s in states
    )


def fault(row: Row, talk: Conversation, reply: Reply) -> str:
    """What is wrong with the box after a talk, in words; empty where it is as the row says."""
    got = standing(talk)
    if row.never and row.never in reply.said:
        return f"says “{reply.said}”"
    if row.says and row.says not in reply.said:
        return f"says “{reply.said}”"
    if row.or_asked and got.verdict == "incomplete" and reply.asks:
        return ""
    wrong = (
        got.verdict != row.verdict
        or (row.total is not None and got.total != row.total)
        or (row.capacity is not None and _differs(got.capacity, row.capacity, row.near))
        or (row.boxless and got.capacity is not None)
        or (row.edition is not None and got.edition != row.edition)
        or (row.asks is not None and reply.asks != row.asks)
        or (row.at is not None and got.box != row.at)
        or (bool(row.boxes) and talk.boxes.names != row.boxes)
    )
    return f"{got}, asks {reply.asks}: {reply.said}" if wrong else ""


def _differs(got: Decimal | None, wanted: Decimal, near: Decimal) -> bool:
    return got is None or abs(got - wanted) > near


def unsafe(row: Row, got: Standing) -> bool:
    """True where an over box, or one that nothing may be said of yet, is said to fit."""
    return got.verdict == "fits" and row.verdict != "fits"
