"""What was said so far, both ways, in the order in which it was said."""

from __future__ import annotations

from dataclasses import dataclass, field

from boxaloud.assistant.dialogue import Reply
from boxaloud.assistant.dialogue.box_dialogue import Talk
from boxaloud.assistant.tui.presenters.trade_writing import sizes_written
from boxaloud.assistant.tui.tui_messages import text


@dataclass(frozen=True, slots=True)
class Exchange:
    """Words, the reply to them, and the box at hand when they were answered.

    Of what was said before the screen was opened the reply is not kept: it is empty.
    """

    box: str
    heard: str
    said: str = ""


@dataclass(slots=True)
class Transcript:
    """The exchanges of one session, after what its box had been told before."""

    exchanges: list[Exchange] = field(default_factory=list)

    def before(self, talk: Talk) -> None:
        """What a box had been told when the screen was opened."""
        self.exchanges += [Exchange(talk.name, entry.heard) for entry in talk.journal]

    def add(self, box: str, reply: Reply) -> None:
        """One more exchange."""
        self.exchanges.append(Exchange(box, reply.heard, sizes_written(reply.said)))

    def note(self, box: str, said: str) -> None:
        """What was told later of something asked for before."""
        self.exchanges.append(Exchange(box, "", said))

    def lines(self) -> list[str]:
        """The paragraphs, the box named where it changes."""
        found: list[str] = []
        box = ""
        for exchange in self.exchanges:
            if exchange.box != box:
                box = exchange.box
                found += ["", text("transcript.box", box=box)]
            if exchange.heard:
                found.append(text("transcript.heard", words=exchange.heard))
            if exchange.said:
                found.append(text("transcript.said", words=exchange.said))
        return found[1:] or [text("transcript.nothing")]
