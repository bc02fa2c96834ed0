"""What the screen sits at: something that answers words and keeps what was said.

`assistant.jobs.Session` is one, keeping every word before its reply is shown; `MemoryDesk` is
another that keeps nothing, for a trial and for tests.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Protocol

from assistant.conversation import Conversation, Reply
from assistant.screen.wording import text
from grammar.statements import Statement
from grammar.words import Word


class Desk(Protocol):
    """The whole of what the screen needs from the rest of the assistant."""

    @property
    def conversation(self) -> Conversation:
        """The conversation as it stands."""
        ...

    @property
    def label(self) -> str:
        """The name of the job, for the head line."""
        ...

    def hear(self, words: str | Sequence[Word]) -> Reply:
        """Answer what was typed or heard, once it is kept."""
        ...

    def enter(self, statements: Sequence[Statement], heard: str) -> Reply:
        """Answer what a key or a click said, once it is kept."""
        ...


class MemoryDesk:
    """A conversation that is gone when the screen closes."""

    def __init__(self, conversation: Conversation | None = None) -> None:
        self._conversation = conversation or Conversation()

    @property
    def conversation(self) -> Conversation:
        """The conversation as it stands."""
        return self._conversation

    @property
    def label(self) -> str:
        """It says that nothing is kept."""
        return text("head.memory")

    def hear(self, words: str | Sequence[Word]) -> Reply:
        """Answer what was typed or heard."""
        return self._conversation.hear(words)

    def enter(self, statements: Sequence[Statement], heard: str) -> Reply:
        """Answer what a key or a click said."""
        return self._conversation.enter(statements, heard)
