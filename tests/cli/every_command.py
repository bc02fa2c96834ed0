"""Every command by the words it is called by, and a run of one."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Iterator
from typing import Any

from boxaloud.assistant.cli.command_rows import Command
from boxaloud.assistant.cli.main import BOXALOUD

BOX = "two 14-2 cables, one switch, no clamps inside, 18 cubic inch box"
TYPED = "from boxaloud.assistant.cli.start import main; main()"


def boxaloud(*args: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-c", TYPED, *args],
        stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=120,
    )  # fmt: skip


def every(command: Command, called: str) -> Iterator[tuple[str, Command]]:
    yield called, command
    for below in command.commands:
        yield from every(below, f"{called} {below.name}")


COMMANDS = dict(every(BOXALOUD, "boxaloud"))


class Taken:
    """A command that remembers what it was called with."""

    def __init__(self, status: int = 0) -> None:
        self.values: dict[str, Any] = {}
        self.status = status

    def __call__(self, **values: Any) -> int:
        self.values = values
        return self.status
