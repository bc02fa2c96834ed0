"""The conversation of a job: one box after another, each with its own talk.

`Conversation.hear(words) -> Reply` does no input or output and reads no clock. What is to be
kept is handed out by `take_records`; a front end keeps it before it shows the reply.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from assistant.dialogue.boxes import Boxes, Resumed
from assistant.dialogue.journal import Entry
from assistant.dialogue.reply import Reply
from assistant.dialogue.spoken import spoken
from assistant.dialogue.sureness import confidence_of, doubted
from assistant.dialogue.talk import Talk
from assistant.dialogue.unreadable import printable, unreadable
from grammar import understand
from grammar.statements import Statement
from grammar.words import Word
from rules import DEFAULT_EDITION

FIRST_BOX = "box 1"
BOX_EVENTS = frozenset(
    {"next_box", "open_box", "go_back", "new_job", "copy_box", "name_box", "list_boxes"}
)


@dataclass(frozen=True, slots=True)
class Record:
    """One thing to be kept: an `entry` said of a box, or a box `opened`, `renamed`, `copied`."""

    action: str
    box: str
    entry: Entry | None = None
    other: str = ""
    edition: str = ""
    """The edition that a box newly `opened` begins under; empty where it was there before."""


class Conversation:
    """The whole of what a front end needs.

    `boxes` gives the journals of a job that is resumed, by name; a box is folded when it is
    first opened, and `resumed` says what else is known of them. `aliases` are a person's own
    words, "blue box" -> what it means.
    """

    def __init__(
        self,
        edition: str = DEFAULT_EDITION,
        aliases: Mapping[str, str] | None = None,
        boxes: Mapping[str, Sequence[Entry]] | None = None,
        current: str = FIRST_BOX,
        resumed: Resumed | None = None,
    ) -> None:
        self.aliases = dict(aliases or {})
        self.boxes = Boxes(edition, boxes or {}, current, resumed)
        self._records: list[Record] = []

    @property
    def talk(self) -> Talk:
        """The talk about the box at hand."""
        return self.boxes.current

    @property
    def asks(self) -> str | None:
        """The open question's slot, which an ear may listen for."""
        return self.talk.asks

    def hear(self, words: str | Sequence[Word]) -> Reply:
        """Take what was typed or heard and answer it."""
        text = words if isinstance(words, str) else " ".join(word.text for word in words)
        if problem := unreadable(text):
            return self._take(Entry(printable(text), (), refusal=problem))
        understanding = understand(words, expect=self.asks, aliases=self.aliases)
        statements, left_over, sure = doubted(understanding, words)
        return self._take(
            Entry(
                understanding.heard,
                statements,
                left_over,
                confidence_of(words),
                sure=sure,
            )
        )

    def enter(self, statements: Sequence[Statement], heard: str) -> Reply:
        """Take statements made by a key or a click; `heard` puts them in words, to be kept."""
        return self._take(Entry(heard, tuple(statements)))

    def _take(self, entry: Entry) -> Reply:
        box = self.talk.name
        if not self.boxes.trail:
            entry = _back_is_undo(entry)
        reply = self.talk.hear(entry)
        self._records.append(Record("entry", box, entry))
        if reply.event is None:
            return reply
        return self._event(reply, *reply.event)

    def take_records(self) -> tuple[Record, ...]:
        """What is to be kept since the last call."""
        taken = tuple(self._records)
        self._records.clear()
        return taken

    def _event(self, reply: Reply, kind: str, detail: str) -> Reply:
        if kind == "alias":
            return self._alias(reply, *detail.split("\n", 1))
        if kind not in BOX_EVENTS:
            return reply
        outcome = self.boxes.event(kind, detail)
        if outcome.action:
            self._records.append(
                Record(outcome.action, outcome.box, None, outcome.other, outcome.edition)
            )
        return _over(reply, self.talk, outcome.said)

    def _alias(self, reply: Reply, say: str, mean: str) -> Reply:
        from assistant.dialogue.saying import say as sentence

        self.aliases[say.strip().lower()] = mean.strip()
        return _over(reply, self.talk, sentence("alias_kept", say=say, mean=mean))


def _over(reply: Reply, talk: Talk, said: str) -> Reply:
    """The reply with other words, standing on the box now at hand."""
    here = talk.standing(said)
    new = replace(
        here,
        heard=reply.heard,
        confidence=reply.confidence,
        understood=reply.understood,
        left_over=reply.left_over,
        event=reply.event,
        spoken=spoken(here.said),
    )
    talk.last = new
    return new


def _back_is_undo(entry: Entry) -> Entry:
    """Where there is no earlier box to go back to, "go back" steps back within this one."""
    if not any(statement.kind == "go_back" for statement in entry.statements):
        return entry
    statements = tuple(
        replace(statement, kind="undo") if statement.kind == "go_back" else statement
        for statement in entry.statements
    )
    return replace(entry, statements=statements)
