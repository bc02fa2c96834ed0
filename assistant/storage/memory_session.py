"""A session of which nothing is kept, and what it shares with one that is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import Protocol

from boxaloud.assistant.dialogue import Conversation, Reply
from boxaloud.assistant.dialogue.question_slots import QuestionSlot
from boxaloud.assistant.dialogue.refused_own_words import left_alone
from boxaloud.assistant.storage import alias_file
from boxaloud.assistant.text.problem import Problem
from boxaloud.grammar.acts import Alias
from boxaloud.grammar.lexer.heard_words import Word
from boxaloud.rules import DEFAULT_EDITION, RulesError, check_edition


class DialogueSession(Protocol):
    """What takes words and answers: a conversation in memory, or a session that keeps it."""

    @property
    def asks(self) -> QuestionSlot | None:
        """The open question's slot."""
        ...

    def hear(self, words: str | Sequence[Word]) -> Reply:
        """Take what was typed or heard and answer it."""
        ...


class MemorySession:
    """A conversation of which nothing is kept but the person's own words."""

    def __init__(self, edition: str) -> None:
        self.conversation = Conversation(edition, aliases=alias_file.read())

    @property
    def asks(self) -> QuestionSlot | None:
        """The open question's slot."""
        return self.conversation.asks

    def hear(self, words: str | Sequence[Word]) -> Reply:
        """Take what was typed or heard and answer it."""
        reply = self.conversation.hear(words)
        if any(isinstance(act, Alias) for act in reply.outside):
            alias_file.write(self.conversation.aliases)
        return reply


def begin(edition: str) -> MemorySession:
    """A new conversation under an edition, the default when it is empty."""
    try:
        return MemorySession(check_edition(edition) if edition else DEFAULT_EDITION)
    except RulesError as refusal:
        raise Problem(str(refusal)) from None


@contextmanager
def listening(job: str, edition: str) -> Iterator[tuple[DialogueSession, str]]:
    """Who listens, and what to say first: the job named, or nobody's in memory where `job` is
    empty."""
    if not job:
        yield begin(edition), alias_file.trouble() or left_alone(alias_file.read())
        return
    from boxaloud.assistant.storage.session import Session  # a talk in memory needs no database

    session = Session.open_or_start(job, edition)
    try:
        yield session, session.resume().said
    finally:
        session.close()
