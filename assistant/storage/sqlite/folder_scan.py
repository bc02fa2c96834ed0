"""What lies in a folder of jobs: the jobs, and entries that have their ending and are none.

An entry is looked at before it is opened: a pipe would be waited for, a device read for ever.
Nothing that is found here stops the look at the rest.
"""

from __future__ import annotations

import contextlib
import os
import sqlite3
import stat
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from boxaloud.assistant.storage.data_folders import SUFFIX
from boxaloud.assistant.storage.sqlite.about_table import About, read_about
from boxaloud.assistant.storage.storage_messages import say

LOG = "-wal"
"""The ending, after a job's own, of the file that its last rows are in while it is open."""


@dataclass(frozen=True, slots=True)
class Place:
    """A job on the shelf: its name, where its file is, when it was last written."""

    name: str
    path: Path
    written: float


@dataclass(frozen=True, slots=True)
class Odd:
    """An entry that has the ending of a job and cannot be opened as one; `why` is a clause."""

    path: Path
    why: str

    def __str__(self) -> str:
        return say("shelf.odd", path=self.path, why=self.why)


def look(folder: Path) -> tuple[list[Place], list[Odd]]:
    """The jobs of a folder, the one last written first, and the odd entries, by name."""
    paths, odd = entries(folder)
    return [place_of(path) for path in paths], odd


def place_of(path: Path) -> Place:
    """A job by its file; where that does not say its name, the file's."""
    about = peek(path)
    return Place(about.name if about else path.stem, path, _written(path))


def entries(folder: Path) -> tuple[list[Path], list[Odd]]:
    """The files of jobs in a folder, the one last written first, and the odd entries, by name."""
    paths: list[Path] = []
    odd: list[Odd] = []
    for path in _named(folder):
        if why := trouble_with(path):
            odd.append(Odd(path, why))
        else:
            paths.append(path)
    return sorted(paths, key=lambda path: (-_written(path), path.name)), odd


def _named(folder: Path) -> Iterator[Path]:
    """The entries that have the ending of a job, by name."""
    with contextlib.suppress(OSError), os.scandir(folder) as entries:
        for name in sorted(entry.name for entry in entries):
            if name.endswith(SUFFIX):
                yield folder / name


def trouble_with(path: Path) -> str:
    """Why an entry cannot be a job, in a clause; empty where it may be one."""
    try:
        mode = os.stat(path).st_mode
    except OSError as fault:
        return say("shelf.broken", why=fault.strerror or fault)
    if stat.S_ISDIR(mode):
        return say("shelf.folder")
    if not stat.S_ISREG(mode):
        return say("shelf.no_file")
    if path.name.startswith("."):
        return say("shelf.nameless")
    if not os.access(path, os.R_OK):
        return say("shelf.closed")
    return ""


def peek(path: Path) -> About | None:
    """What a file says of its job, or None. The file is not written to, nor waited for."""
    for how in ways_to_read(path):
        with (
            contextlib.suppress(sqlite3.Error, OSError, ValueError),
            contextlib.closing(reading(path, how)) as connection,
        ):
            return read_about(connection)
    return None


def ways_to_read(path: Path) -> tuple[str, ...]:
    """With the rows in its log where there are any; else, or where that cannot be, as it lies."""
    with contextlib.suppress(OSError):
        if os.stat(f"{path}{LOG}").st_size:
            return ("mode=ro", "mode=ro&immutable=1")
    return ("mode=ro&immutable=1",)


def reading(path: Path, how: str) -> sqlite3.Connection:
    """A connection that only reads."""
    return sqlite3.connect(_uri(path, how), uri=True, timeout=1)


def _uri(path: Path, how: str) -> str:
    return f"{path.absolute().as_uri()}?{how}"


def _written(path: Path) -> float:
    """When a job was last written: its file, or the log beside it."""
    times = [0.0]
    for each in (path, f"{path}{LOG}"):
        with contextlib.suppress(OSError):
            times.append(os.stat(each).st_mtime)
    return max(times)
