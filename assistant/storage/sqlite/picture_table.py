"""The pictures of a job's boxes in its file, each with a check of its own."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterable
from dataclasses import dataclass
from zlib import crc32

_COLUMNS = "at, box, position, says, kind, wide, high, data"


@dataclass(frozen=True, slots=True)
class Picture:
    """A photograph or a sketch. `kind` is `jpeg` or `png`, sizes are pixels; `box` is what the
    box was called after row `position` of the journal. `number` is 0 until it is kept."""

    at: str
    box: str
    position: int
    says: str
    kind: str
    wide: int
    high: int
    data: bytes
    number: int = 0


def read_pictures(connection: sqlite3.Connection) -> tuple[list[Picture], int]:
    """The pictures that are what was written, and how many are not."""
    found = connection.execute(f"SELECT {_COLUMNS}, number, chk FROM picture ORDER BY number")
    whole, spoilt = [], 0
    for *values, number, check in found:
        if check == _check(values):
            row = [*values, number]
            whole.append(Picture(*row))
        else:
            spoilt += 1
    return whole, spoilt


def write_pictures(connection: sqlite3.Connection, pictures: Iterable[Picture]) -> None:
    """Add pictures, numbered on from those that were there."""
    for one in pictures:
        values = (one.at, one.box, one.position, one.says, one.kind, one.wide, one.high, one.data)
        connection.execute(
            f"INSERT INTO picture ({_COLUMNS}, chk) VALUES (?,?,?,?,?,?,?,?,?)",
            (*values, _check(values)),
        )


def drop_picture(connection: sqlite3.Connection, number: int) -> bool:
    """Take a picture out; False where there is none of that number."""
    return connection.execute("DELETE FROM picture WHERE number = ?", (number,)).rowcount == 1


def _check(values: Iterable[object]) -> int:
    *told, data = values
    said = "\x1f".join(map(str, told)).encode("utf-8", "surrogatepass")
    return crc32(data if isinstance(data, bytes) else b"", crc32(said))
