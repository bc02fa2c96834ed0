"""A job's rows as the conversation takes them up: journals by box, where it stood, the way back.

Entries stay JSON text until their box is opened, so that a job of thousands of boxes opens
at once.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from boxaloud.assistant.dialogue import Entry
from boxaloud.assistant.dialogue.conversation import FIRST_BOX
from boxaloud.assistant.storage.sqlite.journal_rows import Row, entry_of
from boxaloud.assistant.storage.sqlite.storage_errors import TooNew
from boxaloud.assistant.storage.storage_messages import say


class Journals(Mapping[str, Sequence[Entry]]):
    """Journals by box name, each decoded when it is asked for."""

    def __init__(self, texts: Mapping[str, list[str]]) -> None:
        self._texts = texts

    def __getitem__(self, box: str) -> Sequence[Entry]:
        return [entry_of(text) for text in self._texts[box]]

    def __iter__(self) -> Iterator[str]:
        return iter(self._texts)

    def __len__(self) -> int:
        return len(self._texts)


@dataclass
class Job:
    """A job's rows replayed."""

    texts: dict[str, list[str]] = field(default_factory=dict)
    editions: dict[str, str] = field(default_factory=dict)
    last: dict[str, int] = field(default_factory=dict)
    """The position of the last row about each box."""
    removed: dict[str, list[str]] = field(default_factory=dict)
    trail: list[str] = field(default_factory=list)
    rows: int = 0
    """How many rows were replayed."""
    current: str = FIRST_BOX

    @property
    def journals(self) -> Journals:
        """The journals of the boxes at hand."""
        return Journals(self.texts)

    def standing(self, remembered: Mapping[str, tuple[int, str]]) -> dict[str, str]:
        """The remembered verdicts that still hold: those of each box's last row."""
        return {
            box: verdict
            for box, (position, verdict) in remembered.items()
            if box in self.texts and self.last.get(box) == position
        }

    def take(self, row: Row) -> None:
        """Replay one row. Raises TooNew for one of a kind that is not known here."""
        match row.action:
            case "entry":
                self.texts.setdefault(row.box, []).append(row.entry)
            case "opened":
                self._opened(row)
            case "renamed":
                self._renamed(row)
            case "copied":
                self.texts[row.box] = list(self.texts.get(row.other, []))
                if row.other in self.editions:
                    self.editions[row.box] = self.editions[row.other]
                self._go(row.box)
            case "removed":
                self.removed[row.box] = self.texts.pop(row.box, [])
            case "restored":
                self.texts[row.box] = self.removed.pop(row.box, [])
            case later:
                raise TooNew(say("keeping.unknown_action", action=later))
        self.rows += 1
        self.last[row.box] = row.position
        self._settle()

    def _opened(self, row: Row) -> None:
        self.texts.setdefault(row.box, [])
        if row.edition:
            self.editions[row.box] = row.edition
        if self.trail and self.trail[-1] == row.box:
            self.trail.pop()
            self.current = row.box
        else:
            self._go(row.box)

    def _renamed(self, row: Row) -> None:
        if row.other in self.texts:
            self.texts = {
                row.box if name == row.other else name: text for name, text in self.texts.items()
            }
        if row.other in self.editions:
            self.editions[row.box] = self.editions.pop(row.other)
        self.trail = [row.box if name == row.other else name for name in self.trail]
        if self.current == row.other:
            self.current = row.box

    def _go(self, box: str) -> None:
        if self.current != box:
            self.trail.append(self.current)
        self.current = box

    def _settle(self) -> None:
        """The box at hand must be one that is there."""
        if self.removed:
            self.trail = [name for name in self.trail if name in self.texts]
            if self.current not in self.texts and self.texts:
                self.current = next(reversed(self.texts))


def replay(rows: Iterable[Row]) -> Job:
    """Replay rows from the first."""
    job = Job()
    for row in rows:
        job.take(row)
    return job
