"""The rows of a journal in the database."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable

from boxaloud.assistant.storage.sqlite.journal_rows import START, Mark, Row

COLUMNS = "position, at, action, box, other, edition, entry, chk"


def read_rows(connection: sqlite3.Connection, after: int) -> list[Row]:
    """The rows after a position, in order, as they stand there."""
    query = f"SELECT {COLUMNS} FROM journal WHERE position > ? ORDER BY position"
    return [Row(*values) for values in connection.execute(query, (after,))]


def last_mark(connection: sqlite3.Connection) -> Mark:
    """The place after the last row."""
    found = connection.execute(
        "SELECT position, chk FROM journal ORDER BY position DESC LIMIT 1"
    ).fetchone()
    return Mark(*found) if found else START


def write_rows(connection: sqlite3.Connection, rows: Iterable[Row]) -> None:
    """Put rows behind those that are there."""
    connection.executemany(
        f"INSERT INTO journal ({COLUMNS}) VALUES (?,?,?,?,?,?,?,?)", map(_values, rows)
    )


def _values(row: Row) -> tuple[int | str, ...]:
    return (
        row.position, row.at, row.action, row.box, row.other, row.edition, row.entry, row.check
    )  # fmt: skip
