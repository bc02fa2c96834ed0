"""How a job stands, read without opening it: a folder of a thousand jobs is listed at once.

It rests on rows whose chain holds and on remembered verdicts whose checks hold. Where anything
else is met there is no summary, and the job has to be opened, which tells what is wrong.
"""

from __future__ import annotations

import contextlib
import sqlite3
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

from boxaloud.assistant.storage.replay import replay
from boxaloud.assistant.storage.rules_fingerprint import works
from boxaloud.assistant.storage.sqlite.about_table import about_holds, read_about
from boxaloud.assistant.storage.sqlite.folder_scan import reading, ways_to_read
from boxaloud.assistant.storage.sqlite.journal_rows import START, Row, follow
from boxaloud.assistant.storage.sqlite.migration import latest, version_of
from boxaloud.assistant.storage.sqlite.remembered_verdicts import read_verdicts
from boxaloud.assistant.text.problem import Problem


@dataclass(frozen=True, slots=True)
class Summary:
    """A job in a line: how many boxes, and how many of them fit, are over, are not finished."""

    name: str
    edition: str
    boxes: int
    fits: int
    over: int
    incomplete: int


def summary(path: Path) -> Summary | None:
    """How the job at a path stands; None where it has to be opened to be known."""
    ways = ways_to_read(path)
    if len(ways) > 1:  # it is open, or was left in the middle of writing
        return None
    with (
        contextlib.suppress(sqlite3.Error, OSError, ValueError, TypeError, Problem),
        contextlib.closing(reading(path, ways[0])) as connection,
    ):
        return _read(connection)
    return None


def _read(connection: sqlite3.Connection) -> Summary | None:
    about = read_about(connection)
    if about is None or version_of(connection) != latest() or not about_holds(connection):
        return None
    found = connection.execute(
        "SELECT position, at, action, box, other, edition, entry, chk FROM journal "
        "ORDER BY position"
    ).fetchall()
    rows = list(follow((Row(*values) for values in found), START))
    job = replay(rows)
    if len(rows) != len(found) or not job.texts:
        return None
    known = job.standing(read_verdicts(connection, works()))
    if len(known) != len(job.texts):
        return None
    counts = Counter(known.values())
    return Summary(
        about.name,
        about.edition,
        len(known),
        counts["fits"],
        counts["over"],
        counts["incomplete"],
    )
