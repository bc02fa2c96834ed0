"""What keys say: the acts that a key makes, and the same in words for the journal."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.dialogue.nlg import item_names
from boxaloud.assistant.tui.tui_messages import text
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act

PLAIN: dict[str, Callable[..., Act]] = {
    "undo": acts.Undo,
    "redo": acts.Redo,
    "next_box": acts.NextBox,
    "report": acts.SendReport,
    "send_worksheet": partial(acts.SendReport, of="box"),
}
"""Keys that say a single thing of which nothing is left open."""
ASKED: dict[str, acts.QuestionKind] = {"read_back": "read_back", "advice": "advice"}


@dataclass(frozen=True, slots=True)
class Saying:
    """Acts, and the words that stand for them in the journal."""

    acts: tuple[Act, ...]
    heard: str


def plain(kind: str) -> Saying:
    """A single act: undo, redo, next box, read back …"""
    words = kind.replace("_", " ")
    if kind in ASKED:
        return Saying((acts.Ask(about=ASKED[kind], words=words),), words)
    return Saying((PLAIN[kind](words=words),), words)


def opened(name: str) -> Saying:
    """A box of the job picked from the list."""
    words = text("boxes.open", name=name)
    return Saying((acts.OpenBox(name=name, words=words),), words)


def recount(conversation: Conversation, key: int, count: int | None, by: int) -> Saying | None:
    """Another count for an item picked on the screen, or None where it has gone."""
    item = conversation.talk.state.item(key)
    if item is None:
        return None
    wanted = max(item.content.count + by if count is None else count, 0)
    what = item_names.shown(item.content)
    words = text(f"contents.{'set_count' if wanted else 'remove'}", what=what, count=wanted)
    target = acts.Reference(item=key, words=what)
    made = acts.Recount(target=target, count=wanted, words=words, function="request")
    return Saying((made,), words)
