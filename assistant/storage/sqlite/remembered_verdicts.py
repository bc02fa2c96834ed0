"""Remembered verdicts: a memory to count by, each with a check that binds it to its row."""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping
from dataclasses import dataclass
from zlib import crc32


@dataclass(frozen=True, slots=True)
class Standing:
    """The verdicts of boxes after the rows appended with it, worked out by `works`."""

    verdicts: Mapping[str, str]
    works: str


def write_verdicts(
    connection: sqlite3.Connection, standing: Standing, last: Mapping[str, int]
) -> None:
    """Remember verdicts, each at the position of its box's last row."""
    for box, verdict in standing.verdicts.items():
        position = last.get(box)
        if position is None:
            continue
        found = connection.execute("SELECT chk FROM journal WHERE position = ?", (position,))
        row = found.fetchone()
        check = _check(box, position, standing.works, verdict, row[0] if row else 0)
        connection.execute(
            "INSERT OR REPLACE INTO verdicts (box, position, works, verdict, chk) "
            "VALUES (?,?,?,?,?)",
            (box, position, standing.works, verdict, check),
        )


def read_verdicts(connection: sqlite3.Connection, works: str) -> dict[str, tuple[int, str]]:
    """By box, the row a verdict was worked out at and the verdict, as far as its check holds."""
    return {
        box: (position, verdict)
        for box, position, by, verdict, chk, row in _rows(connection)
        if by == works and chk == _check(box, position, by, verdict, row)
    }


def read_earlier_verdicts(connection: sqlite3.Connection, works: str) -> dict[str, tuple[int, str]]:
    """Those worked out by anything but `works`, to be compared with; early ones have no check."""
    return {
        box: (position, verdict)
        for box, position, by, verdict, chk, row in _rows(connection)
        if by != works and (chk is None or chk == _check(box, position, by, verdict, row))
    }


def _rows(connection: sqlite3.Connection) -> list[tuple[str, int, str, str, int | None, int]]:
    return connection.execute(
        "SELECT v.box, v.position, v.works, v.verdict, v.chk, j.chk "
        "FROM verdicts v LEFT JOIN journal j ON j.position = v.position"
    ).fetchall()


def _check(box: str, position: int, works: str, verdict: str, row: object) -> int:
    said = "\x1f".join((str(box), str(position), str(works), str(verdict)))
    return crc32(said.encode("utf-8", "surrogatepass"), row if isinstance(row, int) else 0)
