"""The engine's connection to a job's file: how it is opened, in place or from a copy."""

from __future__ import annotations

import contextlib
import shutil
import sqlite3
import tempfile
from collections.abc import Iterator
from pathlib import Path

from boxaloud.assistant.storage.sqlite.file_header import heading_trouble
from boxaloud.assistant.storage.sqlite.storage_errors import Damaged
from boxaloud.assistant.storage.sqlite.write_ahead_log import log_of, unplayed

WAIT_SECONDS = 3.0
"""How long to wait for another front end that is just writing."""


def look_before(path: Path) -> None:
    """Raise Damaged for what the engine would not notice, or would write over."""
    if trouble := heading_trouble(path, log_of(path).exists()):
        raise Damaged(trouble)
    if unplayed(path):
        raise Damaged("its log cannot be read to the end")


def connect(path: Path) -> sqlite3.Connection:
    """An existing file, opened so that what is committed is flushed by the system."""
    connection = sqlite3.connect(
        f"{path.absolute().as_uri()}?mode=rw", uri=True, isolation_level=None,
        timeout=WAIT_SECONDS, check_same_thread=False,
    )  # fmt: skip
    connection.text_factory = as_text
    connection.execute("PRAGMA synchronous = FULL")
    return connection


def as_text(raw: bytes) -> str:
    """Text as it is stored; bytes that are none are told by the check of their row."""
    return raw.decode("utf-8", "surrogateescape")


def keep_a_log(connection: sqlite3.Connection) -> None:
    """Write ahead to a log: one flush an entry, where a rollback journal takes four. The
    log is folded into the file when the last front end closes it."""
    connection.execute("PRAGMA journal_mode = WAL")


def read_a_copy(path: Path) -> sqlite3.Connection:
    """A job that cannot be written to, read from a copy: SQLite cannot read a log in place
    without writing beside it."""
    with tempfile.TemporaryDirectory() as folder, private_copy(path, Path(folder)) as copied:
        source = connect(copied)
        memory = sqlite3.connect(":memory:", isolation_level=None, check_same_thread=False)
        memory.text_factory = as_text
        with contextlib.closing(source):
            source.backup(memory)
    return memory


@contextlib.contextmanager
def private_copy(path: Path, folder: Path) -> Iterator[Path]:
    """A copy of a job's file and its log in `folder`, to read without touching them."""
    copied = folder / "copy"
    shutil.copyfile(path, copied)
    if log_of(path).exists():
        shutil.copyfile(log_of(path), log_of(copied))
    yield copied


def check_whole(connection: sqlite3.Connection) -> None:
    """Raise Damaged where the engine finds a fault in the file's pages."""
    found = connection.execute("PRAGMA quick_check(1)").fetchone()[0]
    if found != "ok":
        raise Damaged(str(found))
