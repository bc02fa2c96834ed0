"""What is in the box, with keys that change a count or take a line out."""

from __future__ import annotations

from typing import ClassVar

from boxaloud.assistant.tui.widgets.row_list import RowList
from textual.binding import Binding, BindingType
from textual.message import Message


class ContentsList(RowList):
    """Digits set the count of the line pointed at; plus, minus and Delete do what they say."""

    BINDINGS: ClassVar[list[BindingType]] = [
        Binding("plus", "by(1)", show=False),
        Binding("equals_sign", "by(1)", show=False),
        Binding("minus", "by(-1)", show=False),
        Binding("delete,backspace", "set(0)", show=False),
        *(Binding(str(n), f"set({n})", show=False) for n in range(1, 10)),
    ]

    class Recount(Message):
        """The line with this key is to have another count; none takes it out."""

        def __init__(self, key: int, count: int | None, by: int = 0) -> None:
            super().__init__()
            self.key = key
            self.count = count
            self.by = by

    def _key(self) -> int | None:
        about = self.row.about if self.row is not None else None
        return about if isinstance(about, int) else None

    def action_by(self, by: int) -> None:
        """One more or one fewer."""
        if (key := self._key()) is not None:
            self.post_message(self.Recount(key, None, by))

    def action_set(self, count: int) -> None:
        """So many."""
        if (key := self._key()) is not None:
            self.post_message(self.Recount(key, count))
