"""Standard boxes to search in, pure: Table 314.16(A) and a marked volume typed as figures."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal

from boxaloud.assistant.dialogue.nlg.sentences import marked
from boxaloud.assistant.tui.presenters.list_rows import Row
from boxaloud.assistant.tui.tui_messages import text
from boxaloud.grammar.acts import SetSize, SetVolume
from boxaloud.rules import TableRow, table_boxes

FIGURES = re.compile(r"[0-9]{1,4}([.,][0-9]{1,3})?")


@dataclass(frozen=True, slots=True)
class Pick:
    """One box that can be chosen: a row of the Table, or a marked volume in cubic inches."""

    row: TableRow | None
    gangs: int = 1
    volume: Decimal = Decimal(0)

    @property
    def shown(self) -> Row:
        """The pick as a row of a list."""
        if self.row is None:
            return Row(text("picker.marked", volume=marked(self.volume)))
        key = "row" if self.gangs == 1 else "ganged"
        left = text(f"picker.{key}", name=self.row.name, gangs=self.gangs)
        volume = text("picker.volume", volume=marked(self.row.volume * self.gangs))
        return Row(left, f"{volume}  {self.row.note.section}")

    @property
    def act(self) -> SetSize | SetVolume:
        """What choosing it says."""
        if self.row is None:
            return SetVolume(volume=self.volume, words=self.words)
        return SetSize(row=self.row.id, gangs=self.gangs, words=self.words)

    @property
    def words(self) -> str:
        """The same in words, for the journal."""
        if self.row is None:
            return text("picker.heard_marked", volume=marked(self.volume))
        name = self.row.name.removesuffix(" box")
        key = "heard_row" if self.gangs == 1 else "heard_ganged"
        return text(f"picker.{key}", name=name, gangs=self.gangs)


def volume_typed(query: str) -> Decimal | None:
    """A volume typed as figures, cubic inches; None for anything else."""
    figures = FIGURES.fullmatch(query.strip())
    value = Decimal(figures[0].replace(",", ".")) if figures else Decimal(0)
    return value or None


def search(query: str, gangs: int = 1) -> list[Pick]:
    """The boxes whose name, family or volume holds every word of `query`."""
    words = query.lower().split()
    picks = []
    volume = volume_typed(query)
    if volume is not None:
        picks.append(Pick(None, 1, volume))
    for row in table_boxes():
        pick = Pick(row, gangs if row.gangs else 1)
        held = f"{row.name} {row.family} {pick.shown.right}".lower()
        if all(word in held for word in words):
            picks.append(pick)
    return picks
