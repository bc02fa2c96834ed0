"""What can be done now, as keys with what they do, pure."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.tui.presenters.enclosure_view import front_of
from boxaloud.assistant.tui.tui_messages import texts

ACTIONS = {
    "contents": "screen.panel('contents')",
    "worksheet": "screen.panel('worksheet')",
    "boxes": "screen.panel('boxes')",
    "undo": "say('undo')",
    "redo": "say('redo')",
    "next_box": "say('next_box')",
    "repeat": "say('read_back')",
    "advice": "say('advice')",
    "report": "say('report')",
    "send_worksheet": "say('send_worksheet')",
    "leave": "quit",
    "more": "command_palette",
}
"""Commands whose action is not named as they are."""


@dataclass(frozen=True, slots=True)
class Offer:
    """A key, what it does in a word or two, and the action that does it."""

    key: str
    label: str
    action: str

    @property
    def shown(self) -> str:
        """As it stands in the footer."""
        return f"{self.key} {self.label}"


def offers(conversation: Conversation, ears: bool) -> tuple[Offer, ...]:
    """What can be done now, the likeliest first. `ears` is whether there is a microphone."""
    return tuple(_offer(name) for name in _useful(conversation, ears))


def _offer(name: str) -> Offer:
    key, label = texts("foot.key")[name]
    return Offer(key, label, ACTIONS.get(name, name))


def _useful(conversation: Conversation, ears: bool) -> Iterator[str]:
    talk = conversation.talk
    sheet, several = talk.assessment.sheet, len(conversation.boxes.names) > 1
    yield "help"
    if ears:
        yield "talk"
    if front_of(talk.assessment) is not None:
        yield "drawing"
    elif sheet.capacity is None:
        yield "pick_box"
    if sheet.lines:
        yield "what_if"
    if talk.assessment.verdict != "incomplete":
        yield "next_box"
    if talk.journal:
        yield from ("undo", "contents")
    if sheet.lines:
        yield "worksheet"
    if several:
        yield "boxes"
    if talk.journal:
        yield from ("big", "talk_so_far")
    if several:
        yield "overview"
    if sheet.capacity is not None:
        yield "pick_box"


def fitting(found: Sequence[Offer], width: int) -> tuple[Offer, ...]:
    """As many as fit, each whole; the way to every command is always the last of them."""
    last = _offer("more")
    room = width - len(last.shown)
    kept = []
    for offer in found:
        room -= len(offer.shown) + 2
        if room < 0:
            break
        kept.append(offer)
    return (*kept, last)
