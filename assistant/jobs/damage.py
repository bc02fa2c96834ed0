"""A damaged file is set aside under a name that says so, and what can be read is carried over.

Only the rows up to the first one that is not what was written are carried: a box folded from
a journal with a gap would be another box, and nobody would see it.
"""

from __future__ import annotations

import contextlib
import os
import sqlite3
from pathlib import Path

from assistant.jobs.clock import stamp
from assistant.jobs.file import About, JobFile
from assistant.jobs.rows import START, Mark, Row, check_of

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
    with contextlib.suppress(sqlite3.Error, ValueError, TypeError):
        uri = f"{path.absolute().as_uri()}?mode=ro&immutable=1"
        with contextlib.closing(sqlite3.connect(uri, uri=True)) as connection:
            while (row := _row(connection, mark.position + 1)) is not None:
                if row.check != check_of(row, mark.check):
                    break
                found.append(row)
                mark = row.mark
    return found


def _row(connection: sqlite3.Connection, position: int) -> Row | None:
    values = connection.execute(
        "SELECT position, at, action, box, other, edition, entry, chk FROM journal "
        "WHERE position = ?",
        (position,),
    ).fetchone()
    return None if values is None else Row(*values)


def readable_about(path: Path) -> About | None:
    """What a damaged file still says of the job, or None."""
    with contextlib.suppress(sqlite3.Error, KeyError, ValueError):
        uri = f"{path.absolute().as_uri()}?mode=ro&immutable=1"
        with contextlib.closing(sqlite3.connect(uri, uri=True)) as connection:
            found = dict(connection.execute("SELECT key, value FROM about").fetchall())
        return About(found["name"], found["edition"], found["units"], found["begun"])
    return None


def renewed(path: Path, about: About, rows: list[Row]) -> tuple[JobFile, Path]:
    """Set the damaged file at `path` aside and write a new one with these rows.

    Gives the new file and where the damaged one is now.
    """
    aside = set_aside(path)
    file = JobFile.create(path, about)
    if rows:
        file.append(rows, START)
    return file, aside
