"""What keys say: the statements that a key makes, and the same in words for the journal."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from assistant.dialogue import Conversation, naming
from assistant.screen.wording import text
from grammar.statements import Statement


@dataclass(frozen=True, slots=True)
class Saying:
    """Statements, and the words that stand for them in the journal."""

    statements: tuple[Statement, ...]
    heard: str


def plain(kind: str, words: str, **slots: str) -> Saying:
    """A single statement: undo, redo, next box …"""
    return Saying((Statement(kind, slots, words),), words)


def recount(conversation: Conversation, key: int, count: int | None, by: int) -> Saying | None:
    """Another count for an item picked on the screen, or None where it has gone."""
    item = conversation.talk.state.item(key)
    if item is None:
        return None
    wanted = item.content.count + by if count is None else count
    what = naming.shown(item.content)
    name = "remove" if wanted <= 0 else "set_count"
    words = text(f"contents.{name}", what=what, count=wanted)
    value = Statement("number", {"value": Decimal(max(wanted, 0))}, str(max(wanted, 0)))
    return Saying((Statement("change", {"item": key}, words), value), words)
