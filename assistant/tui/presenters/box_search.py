"""Standard boxes to search in, pure: Table 314.16(A) and a marked volume typed as figures."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from decimal import Decimal

from boxaloud.assistant.dialogue.assessment import assess
from boxaloud.assistant.dialogue.nlg.sentences import marked, volume
from boxaloud.assistant.dialogue.state import State, to_box
from boxaloud.assistant.tui.presenters.list_rows import Row
from boxaloud.assistant.tui.presenters.trade_writing import sizes_typed, sizes_written
from boxaloud.assistant.tui.tui_messages import text
from boxaloud.grammar.acts import SetSize, SetVolume
from boxaloud.rules import TableRow, table_boxes, work_out
from boxaloud.rules.contents import Marked
from boxaloud.rules.worksheet import Verdict

_SIZE_OR_WORD = re.compile(r"\S+(?: × \S+)*")
FIGURES = re.compile(r"[0-9]{1,4}([.,][0-9]{1,3})?")


@dataclass(frozen=True, slots=True)
class Filled:
    """What is to go into a box: the least and the most that it takes, cubic inches."""

    low: Decimal
    high: Decimal
    also: Decimal = Decimal(0)
    """What rings add to the box and barriers take from it."""


def filled_by(state: State) -> Filled | None:
    """The fill at hand; None while nothing is said of it, or no verdict may rest on it."""
    found = assess(state)
    if not found.sheet.lines or state.pending or state.unread or state.mistaken:
        return None
    return Filled(found.low, found.high, _beside_the_box(state))


def _beside_the_box(state: State) -> Decimal:
    """Cubic inches of what stands on a box or in it, whichever box that is."""
    any_box = Marked(Decimal(100))
    box = replace(to_box(state), parts=(any_box, *state.extras))
    capacity = work_out(box).capacity
    return Decimal(0) if capacity is None else capacity - any_box.volume


@dataclass(frozen=True, slots=True)
class Pick:
    """One box that can be chosen: a row of the Table, or a marked volume in cubic inches."""

    row: TableRow | None
    gangs: int = 1
    volume: Decimal = Decimal(0)
    filled: Filled | None = None

    @property
    def capacity(self) -> Decimal:
        """Cubic inches that it holds."""
        return self.volume if self.row is None else self.row.volume * self.gangs

    @property
    def standing(self) -> tuple[Verdict, Decimal] | None:
        """The verdict that this box would give, and the cubic inches that it fits or is over by
        at least; None where that cannot be said."""
        if self.filled is None:
            return None
        low, high = self.filled.low, self.filled.high
        capacity = self.capacity + self.filled.also
        if capacity >= high:
            return "fits", capacity - high
        return ("over", low - capacity) if capacity < low else ("incomplete", Decimal(0))

    @property
    def fit(self) -> str:
        """Whether the fill fits, and by how much; empty where that cannot be said."""
        if self.filled is None or self.standing is None:
            return ""
        verdict, margin = self.standing
        if verdict == "incomplete":
            return text("picker.open")
        more = "" if self.filled.low == self.filled.high else "+"
        return text(f"picker.{verdict}", margin=f"{volume(margin)}{more}")

    @property
    def shown(self) -> Row:
        """The pick as a row of a list."""
        held = text("picker.volume", volume=marked(self.capacity))
        right = f"{self.fit}  {held}".strip()
        if self.row is None:
            return Row(text("picker.marked", volume=marked(self.volume)), self.fit)
        key = "row" if self.gangs == 1 else "ganged"
        left = text(f"picker.{key}", name=sizes_written(self.row.name), gangs=self.gangs)
        return Row(left, f"{right}  {self.row.note.section}")

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


def search(query: str, gangs: int = 1, filled: Filled | None = None) -> list[Pick]:
    """The boxes whose name, family or volume holds every word of `query`.

    `filled` is what they are to hold. A size may be typed in any writing of it.
    """
    words = _SIZE_OR_WORD.findall(sizes_typed(query))
    picks = []
    typed = volume_typed(query)
    if typed is not None:
        picks.append(Pick(None, 1, typed, filled))
    for row in table_boxes():
        pick = Pick(row, gangs if row.gangs else 1, filled=filled)
        held = f"{sizes_written(row.name)} {row.family} {marked(pick.capacity)} in³".lower()
        if all(word in held for word in words):
            picks.append(pick)
    return picks
