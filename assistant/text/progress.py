"""A bar that tells how far a long piece of work has come, on standard error.

It is plain characters without colour, and is drawn on a terminal only: a file or a pipe gets none
of it.
"""

from __future__ import annotations

import contextlib
import sys
from collections.abc import Iterator

from boxaloud.assistant.text import printing

WIDTH = 36


@contextlib.contextmanager
def progress(name: str, whole: int, quiet: bool = False) -> Iterator[Bar]:
    """A bar for work of `whole` steps: whole at the end, gone where the work failed. `quiet`
    draws nothing at all."""
    shown = Bar(name, whole, quiet or not sys.stderr.isatty())
    shown.at(0)
    try:
        yield shown
    except BaseException:
        shown.hide()
        raise
    shown.at(whole)
    shown.end()


class Bar:
    """A bar that was begun. Use `progress`."""

    def __init__(self, name: str, whole: int, quiet: bool) -> None:
        self._name = name
        self._whole = whole
        self._done = 0
        self._shown = ""
        self._quiet = quiet

    def step(self, count: int = 1) -> None:
        """So many more steps are done."""
        self.at(self._done + count)

    def at(self, done: int) -> None:
        """So many steps are done in all."""
        self._done = done
        if self._quiet:
            return
        text = bar(self._name, self._done, self._whole)
        if text != self._shown:
            self._shown = text
            printing.warn(text, "\r", "")

    def end(self) -> None:
        """Leave the bar as it stands, and go on below it."""
        if self._shown:
            printing.warn("")

    def hide(self) -> None:
        """Make room for a line of output; the next step draws the bar again."""
        if self._shown:
            printing.warn(" " * len(self._shown), "\r", "")
            printing.warn("", "\r", "")
            self._shown = ""


def bar(name: str, done: int, whole: int, width: int = WIDTH) -> str:
    """How much is done, as a bar of `width` characters and in percent."""
    # a file may hold fewer characters than bytes, and may grow while it is read
    percent = min(100, 100 * done // whole) if whole else 100
    full = percent * width // 100
    return f"{name}  [{'#' * full}{'-' * (width - full)}]  {percent} %"
