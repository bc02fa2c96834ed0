"""One utterance being worked through: what it changed, what was said about it.

A `Turn` is the only mutable thing in the conversation, and it lives for one utterance.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import TypeAlias

from assistant.conversation.state import State
from grammar.statements import Statement


@dataclass
class Turn:
    """Statements are taken one by one from `ahead`; handlers write what they did."""

    state: State
    asked: str | None
    subject: int | None = None
    """Key of the item that the open question is about, if it is about one."""
    ahead: list[Statement] = field(default_factory=list)
    echoes: list[str] = field(default_factory=list)
    understood: list[str] = field(default_factory=list)
    answers: list[str] = field(default_factory=list)
    refused: list[str] = field(default_factory=list)
    unplaced: list[str] = field(default_factory=list)
    """Words that made a statement which nothing could be done with."""
    trail: list[State] = field(default_factory=list)
    """The states before each change of this utterance, for a `scratch that` within it."""
    stepped: str = ""
    """`undo`, `redo`, `start over`: done by the conversation, which keeps the history."""
    steps: int = 1
    event: tuple[str, str] | None = None
    """Something outside this box was asked for: ("next_box", "kitchen island")."""
    spoken: bool = False
    """True where an ear gave the words, so that doubts are to be asked back."""

    def take(self) -> Statement | None:
        """The next statement, taken away from what is ahead."""
        return self.ahead.pop(0) if self.ahead else None

    def next_is(self, *kinds: str) -> bool:
        """True where the next statement ahead is of one of these kinds."""
        return bool(self.ahead) and self.ahead[0].kind in kinds

    def enter(self, state: State, echo: str, understood: str = "") -> None:
        """Take a new state, and say so."""
        self.trail.append(self.state)
        self.state = state
        if echo:
            self.echoes.append(echo)
        self.understood.append(understood or echo)

    def answer(self, text: str, understood: str) -> None:
        """Answer a question; the box does not change."""
        self.answers.append(text)
        self.understood.append(understood)


Handler: TypeAlias = Callable[[Turn, Statement], None]
