"""What the screen sits at: something that answers words and keeps what was said.

`assistant.storage.Session` is one, keeping every word before its reply is shown; `MemoryDesk` is
another that keeps nothing, for a trial and for tests.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import NamedTuple, Protocol, TypeAlias

from boxaloud.assistant.dialogue import Conversation, Reply
from boxaloud.assistant.storage import Session
from boxaloud.assistant.storage.repository import places
from boxaloud.assistant.tui.tui_messages import text
from boxaloud.grammar.acts import Act
from boxaloud.grammar.lexer.heard_words import Word


class Order(NamedTuple):
    """A report that a reply asks for. `write` needs the job no more, so a thread may call it: it
    calls back after each of the `steps`, and gives the reply that tells where the report is."""

    steps: int
    write: Callable[[Callable[[], None]], Reply]


Reporter: TypeAlias = Callable[[Reply, Session], tuple[int, Callable[..., Reply]] | None]


def _no_report(_: Reply, __: Session) -> None:
    return None


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

    def first(self) -> Reply:
        """What to say first: which box this is, and the question that is open."""
        ...

    def hear(self, words: str | Sequence[Word]) -> Reply:
        """Answer what was typed or heard, once it is kept."""
        ...

    def enter(self, told: Sequence[Act], heard: str) -> Reply:
        """Answer what a key or a click said, once it is kept."""
        ...

    def ordered(self, reply: Reply) -> Order | None:
        """The report that a reply asks for, to be written; None where it asks for none."""
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

    def first(self) -> Reply:
        """What was said last, if anything was."""
        talk = self._conversation.talk
        return talk.last or talk.standing("")

    def hear(self, words: str | Sequence[Word]) -> Reply:
        """Answer what was typed or heard."""
        return self._conversation.hear(words)

    def enter(self, told: Sequence[Act], heard: str) -> Reply:
        """Answer what a key or a click said."""
        return self._conversation.enter(told, heard)

    def ordered(self, _: Reply) -> Order | None:
        """None: no job is kept that a report could be of."""
        return None


class JobDesk:
    """A job that is kept: the one last spoken to, or the one named, begun where there is none."""

    def __init__(self, name: str = "", reporter: Reporter | None = None) -> None:
        """`reporter` makes up the report that a reply asks for: its steps, and what writes it to a
        file and tells where. Without it the reply says what to do. Raises Problem, in a sentence,
        where the job cannot be read."""
        self._session = _session(name)
        self._reporter = reporter or _no_report

    @property
    def conversation(self) -> Conversation:
        """The conversation as it stands. Another job begun in the talk has another one."""
        return self._session.conversation

    @property
    def label(self) -> str:
        """The name of the job."""
        return self._session.name

    def first(self) -> Reply:
        """Which job and box this is, and the question that is open."""
        return self._session.resume()

    def hear(self, words: str | Sequence[Word]) -> Reply:
        """Keep what was typed or heard, then answer it."""
        return self._session.hear(words)

    def enter(self, told: Sequence[Act], heard: str) -> Reply:
        """Keep what a key or a click said, then answer it."""
        return self._session.enter(told, heard)

    def ordered(self, reply: Reply) -> Order | None:
        """The report that a reply asks for, made up from the job as it is now."""
        found = self._reporter(reply, self._session)
        return None if found is None else Order(*found)

    def close(self) -> None:
        """Let go of the job's file."""
        self._session.close()


def _session(name: str) -> Session:
    if name:
        return Session.open_or_start(name)
    if places():
        return Session.open()
    return Session.start(text("head.first_job"))
