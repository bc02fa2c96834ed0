"""What is made of an utterance: its acts, and the words that became part of none."""

from __future__ import annotations

from boxaloud.grammar.acts.act_base import Act
from boxaloud.grammar.quick_dataclass import dataclass


@dataclass(frozen=True, slots=True)
class Unread:
    """Words of the utterance that became part of no act.

    `weighty`: a number, a negation, a quantity word, a likely thing, a verb of change: no verdict
    stands over it. Everything else is inert and not even mentioned.
    """

    words: str
    span: tuple[int, int]
    weighty: bool

    @classmethod
    def whole(cls, heard: str) -> Unread:
        """All of an utterance, without the space around it, as words that weigh."""
        words = heard.strip()
        start = heard.find(words)
        return cls(words, (start, start + len(words)), True)


@dataclass(frozen=True, slots=True)
class Utterance:
    """An utterance read: its acts in the order said, and what was not read."""

    heard: str
    acts: tuple[Act, ...]
    unread: tuple[Unread, ...] = ()

    @property
    def weighty(self) -> tuple[Unread, ...]:
        """What was not read and weighs."""
        return tuple(run for run in self.unread if run.weighty)
