"""What was typed before, to be typed again."""

from __future__ import annotations

MOST = 200
"""Lines that are remembered."""


class InputHistory:
    """The lines of this session, the newest last, and a place among them."""

    def __init__(self) -> None:
        self._lines: list[str] = []
        self._back = 0
        self._begun = ""

    def keep(self, words: str) -> None:
        """One more line; the same one twice is kept once."""
        if words and self._lines[-1:] != [words]:
            self._lines = [*self._lines, words][-MOST:]
        self._back = 0

    def older(self, begun: str) -> str | None:
        """The line before; None at the oldest. `begun` is what stands on the line now."""
        if self._back == len(self._lines):
            return None
        if not self._back:
            self._begun = begun
        self._back += 1
        return self._lines[-self._back]

    def newer(self) -> str | None:
        """The line after, at last what had been begun; None where that stands already."""
        if not self._back:
            return None
        self._back -= 1
        return self._lines[-self._back] if self._back else self._begun
