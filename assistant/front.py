"""What the line front ends share: starting a conversation, printing a reply, the exit status."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import Protocol

from boxaloud.assistant import aliases
from boxaloud.assistant.dialogue import Conversation, Reply
from boxaloud.assistant.problems import EXIT_OF_VERDICT, UNUSABLE, Problem
from boxaloud.grammar.acts import Alias
from boxaloud.grammar.words import Word
from boxaloud.rules import DEFAULT_EDITION, RulesError, check_edition


class Listener(Protocol):
    """What takes words and answers: a conversation in memory, or a session that keeps it."""

    @property
    def asks(self) -> str | None:
        """The open question's slot."""
        ...

    def hear(self, words: str | Sequence[Word]) -> Reply:
        """Take what was typed or heard and answer it."""
        ...


class InMemory:
    """A conversation of which nothing is kept but the person's own words."""

    def __init__(self, edition: str) -> None:
        self.conversation = Conversation(edition, aliases=aliases.read())

    @property
    def asks(self) -> str | None:
        """The open question's slot."""
        return self.conversation.asks

    def hear(self, words: str | Sequence[Word]) -> Reply:
        """Take what was typed or heard and answer it."""
        reply = self.conversation.hear(words)
        if any(isinstance(act, Alias) for act in reply.outside):
            aliases.write(self.conversation.aliases)
        return reply


def begin(edition: str) -> InMemory:
    """A new conversation under an edition, the default when it is empty."""
    try:
        return InMemory(check_edition(edition) if edition else DEFAULT_EDITION)
    except RulesError as refusal:
        raise Problem(str(refusal)) from None


@contextmanager
def listening(job: str, edition: str) -> Iterator[tuple[Listener, str]]:
    """Who listens, and what to say first: the job named, or nobody's in memory where `job` is
    empty."""
    if not job:
        yield begin(edition), aliases.unreadable()
        return
    from boxaloud.assistant.jobs.session import Session

    session = Session.open_or_start(job, edition)
    try:
        yield session, session.resume().said
    finally:
        session.close()


def shown_in(units: str) -> str:
    """The units to show volumes in: `in3`, or `cm3` for cubic centimetres beside them."""
    if units not in ("in3", "cm3"):
        raise Problem(f"I show volumes in in3 or cm3, not in “{units}”: say one of the two.")
    return units


def put(text: str) -> None:
    """One line on standard output, at once."""
    sys.stdout.write(text + "\n")
    sys.stdout.flush()


def put_json(reply: Reply) -> None:
    """A reply as one JSON object on a line."""
    import json

    put(json.dumps(reply.to_json(), ensure_ascii=False))


def exit_status(reply: Reply | None, anything_entered: bool) -> int:
    """0 fits, 1 over, 3 incomplete; 2 where nothing at all was understood."""
    if reply is None or not anything_entered:
        return UNUSABLE
    return EXIT_OF_VERDICT[reply.verdict]
