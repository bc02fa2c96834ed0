"""A damaged file is set aside under a name that says so, and what can be read is carried over.

Only the rows up to the first one that is not what was written are carried: a box folded from
a journal with a gap would be another box, and nobody would see it.
"""

from __future__ import annotations

import contextlib
import os
import re
import sqlite3
import tempfile
from collections.abc import Iterator
from pathlib import Path

from boxaloud.assistant.storage.clock import stamp
from boxaloud.assistant.storage.sqlite.journal_file import About, JobFile, about_of, private_copy
from boxaloud.assistant.storage.sqlite.journal_rows import START, Mark, Row, check_of

_COMPANIONS = ("-journal", "-wal", "-shm")


def set_aside(path: Path) -> Path:
    """Rename a damaged file, and what belongs to it, so that nothing is written over it."""
    target = path.with_name(f"{path.name}.damaged-{stamp()}")
    number = 2
    while target.exists():
        target = path.with_name(f"{path.name}.damaged-{stamp()}-{number}")
        number += 1
    os.rename(path, target)
    for ending in _COMPANIONS:
        companion = path.with_name(path.name + ending)
        if companion.exists():
            os.rename(companion, target.with_name(target.name + ending))
    return target


def readable_rows(path: Path) -> list[Row]:
    """The rows of a damaged file from the first, as far as they are what was written."""
    found: list[Row] = []
    mark: Mark = START
    with _looked_at(path) as connection:
        while (row := _row(connection, mark.position + 1)) is not None:
            if row.check != check_of(row, mark.check):
                break
            found.append(row)
            mark = row.mark
    return found


@contextlib.contextmanager
def _looked_at(path: Path) -> Iterator[sqlite3.Connection]:
    """A copy of a file that may be damaged, to read from; what cannot be read ends the block."""
    faults = (sqlite3.Error, OSError, ValueError, TypeError, KeyError)
    with (
        contextlib.suppress(*faults),
        tempfile.TemporaryDirectory() as folder,
        private_copy(path, Path(folder)) as copied,
        contextlib.closing(sqlite3.connect(copied)) as connection,
    ):
        yield connection


def _row(connection: sqlite3.Connection, position: int) -> Row | None:
    values = connection.execute(
        "SELECT position, at, action, box, other, edition, entry, chk FROM journal "
        "WHERE position = ?",
        (position,),
    ).fetchone()
    return None if values is None else Row(*values)


def readable_about(path: Path) -> About | None:
    """What a file, damaged or not, says of its job, or None."""
    found: About | None = None
    with contextlib.suppress(sqlite3.Error, KeyError, ValueError):
        found = _about_in(f"{path.absolute().as_uri()}?mode=rw")
    if found is None:
        with _looked_at(path) as connection:
            found = about_of(connection)
    return found


def _about_in(uri: str) -> About:
    with contextlib.closing(sqlite3.connect(uri, uri=True)) as connection:
        return about_of(connection)


def renewed(path: Path, about: About, rows: list[Row]) -> tuple[JobFile, Path]:
    """Set the damaged file at `path` aside and write a new one with these rows.

    Gives the new file and where the damaged one is now. The new file never has the path of the
    old: a front end that still has that open would take the log beside it for its own.
    """
    fresh = fresh_path(path)
    aside = set_aside(path)
    file = JobFile.create(fresh, about)
    if rows:
        file.append(rows, START)
    return file, aside


def fresh_path(path: Path) -> Path:
    """A path beside this one that no job has had."""
    stem, number = re.sub(r"-\d+$", "", path.stem), 2
    while True:
        fresh = path.with_name(f"{stem}-{number}{path.suffix}")
        taken = [*fresh.parent.glob(f"{fresh.name}*")]
        if not taken and fresh != path:
            return fresh
        number += 1
