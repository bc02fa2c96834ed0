"""Single keys from a terminal, without waiting for any: for a person whose hands are busy."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from typing import Protocol


class Keys(Protocol):
    """Where keys come from."""

    def pressed(self) -> str:
        """The keys pressed since the last call, in order."""
        ...


class NoKeys:
    """No keyboard: nothing is ever pressed."""

    def pressed(self) -> str:
        """Nothing."""
        return ""


class ScriptedKeys:
    """Keys pressed by a script, in place of a person."""

    def __init__(self) -> None:
        self._waiting = ""

    def press(self, keys: str) -> None:
        """Press keys."""
        self._waiting += keys

    def pressed(self) -> str:
        """What was pressed since the last call."""
        pressed, self._waiting = self._waiting, ""
        return pressed


@contextmanager
def terminal_keys() -> Iterator[Keys]:
    """The keys of the terminal, one by one and unseen, until the block ends."""
    if not sys.stdin.isatty():
        yield NoKeys()
    elif sys.platform == "win32":
        yield _WindowsKeys()
    else:
        import termios
        import tty

        descriptor = sys.stdin.fileno()
        before = termios.tcgetattr(descriptor)
        try:
            tty.setcbreak(descriptor)
            yield _TerminalKeys(descriptor)
        finally:
            termios.tcsetattr(descriptor, termios.TCSADRAIN, before)


class _TerminalKeys:
    def __init__(self, descriptor: int) -> None:
        self._descriptor = descriptor

    def pressed(self) -> str:
        import select

        if not select.select([self._descriptor], [], [], 0)[0]:
            return ""
        return os.read(self._descriptor, 64).decode("utf-8", "replace") or "\x04"


class _WindowsKeys:
    def pressed(self) -> str:
        import msvcrt

        keys = ""
        while msvcrt.kbhit():  # type: ignore[attr-defined,unused-ignore]
            keys += msvcrt.getwch()  # type: ignore[attr-defined,unused-ignore]
        return keys
