"""What can still be read of a damaged file: its rows from the first, what it says of its job,
and the words of statements that lie in it and could not be carried over.

The file is read as bytes and looked at in a folder of our own, never in place. It is tried as it
is, then with the first page of a new file: that page holds the layout, which all files share.
"""

from __future__ import annotations

import contextlib
import json
import re
import sqlite3
import tempfile
from collections.abc import Iterator, Sequence
from functools import lru_cache
from pathlib import Path

from boxaloud.assistant.storage.clock import now
from boxaloud.assistant.storage.sqlite.about_table import About, about_holds, read_about
from boxaloud.assistant.storage.sqlite.journal_rows import START, Row, check_of
from boxaloud.assistant.storage.sqlite.journal_table import COLUMNS
from boxaloud.assistant.storage.sqlite.migration import migrate
from boxaloud.assistant.storage.sqlite.picture_table import Picture, read_pictures
from boxaloud.assistant.storage.sqlite.write_ahead_log import committed, frames_of, played

PAGE = 4096
_FAULTS = (sqlite3.Error, OSError, ValueError, TypeError, KeyError, OverflowError, MemoryError)
_HEARD = re.compile(rb'"heard":("(?:[^"\\\x00-\x1f]|\\.)*")')


def readable_rows(path: Path) -> list[Row]:
    """The rows of a damaged file from the first, as far as they are what was written."""
    return max((_chain(image) for image in _images(path)), key=len, default=[])


def readable_about(path: Path) -> About | None:
    """What a damaged file says of its job, or None."""
    doubtful: About | None = None
    for image in _images(path):
        with _looked_at(image) as connection:
            found = read_about(connection)
            if found is not None and about_holds(connection):
                return found
            doubtful = doubtful or found
    return doubtful


def readable_pictures(path: Path) -> list[Picture]:
    """The pictures of a damaged file that are what was written."""
    return max((_pictures(image) for image in _images(path)), key=len, default=[])


def _pictures(image: bytes) -> list[Picture]:
    with _looked_at(image) as connection:
        return read_pictures(connection)[0]
    return []


def left_behind(path: Path, rows: Sequence[Row]) -> list[str]:
    """The words of statements that lie in a file and are in none of these rows."""
    carried = {words for row in rows for words in _heard(row.entry.encode("ascii", "replace"))}
    found = [words for image in _images(path, grafts=False) for words in _heard(image)]
    return [words for words in dict.fromkeys(found) if words not in carried]


def _heard(raw: bytes) -> Iterator[str]:
    for match in _HEARD.finditer(raw):
        with contextlib.suppress(ValueError):
            yield json.loads(match[1].decode("utf-8", "replace"))


def _images(path: Path, grafts: bool = True) -> Iterator[bytes]:
    """The file's bytes with what the engine plays of its log, then with all of its log."""
    content = b""
    with contextlib.suppress(OSError, MemoryError):
        content = path.read_bytes()
    frames = frames_of(path)
    for image in dict.fromkeys((played(content, committed(frames)), played(content, frames))):
        yield image
        if grafts and len(image) > PAGE:
            yield _grafted(image)


def _grafted(image: bytes) -> bytes:
    first = bytearray(_first_page())
    first[28:32] = (len(image) // PAGE).to_bytes(4, "big")  # pages of the file
    first[32:40] = bytes(8)  # no page is free
    return bytes(first) + image[PAGE:]


@lru_cache(maxsize=1)
def _first_page() -> bytes:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "new"
        with contextlib.closing(sqlite3.connect(path, isolation_level=None)) as connection:
            connection.execute(f"PRAGMA page_size = {PAGE}")
            migrate(connection, now())
        return path.read_bytes()[:PAGE]


def _chain(image: bytes) -> list[Row]:
    found: list[Row] = []
    mark = START
    with _looked_at(image) as connection:
        for values in connection.execute(f"SELECT {COLUMNS} FROM journal ORDER BY position"):
            row = Row(*values)
            if row.position != mark.position + 1 or row.check != check_of(row, mark.check):
                break
            found.append(row)
            mark = row.mark
    return found


@contextlib.contextmanager
def _looked_at(image: bytes) -> Iterator[sqlite3.Connection]:
    """Bytes that may be damaged, as a database to read from; what cannot be read ends the block."""
    plain = bytearray(image)
    plain[18:20] = b"\x01\x01"  # there is no log beside it
    with contextlib.suppress(*_FAULTS), tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "image"
        path.write_bytes(plain)
        uri = f"{path.as_uri()}?mode=ro&immutable=1"
        with contextlib.closing(sqlite3.connect(uri, uri=True)) as connection:
            connection.text_factory = lambda raw: raw.decode("utf-8", "surrogateescape")
            yield connection
