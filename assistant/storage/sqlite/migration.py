"""The form of a job's file: its version, and the steps from each version to the next."""

from __future__ import annotations

import sqlite3
from functools import cache
from importlib.resources import files
from pathlib import Path

from boxaloud.assistant.storage.sqlite.storage_errors import Damaged, TooNew
from boxaloud.assistant.storage.storage_messages import say


@cache
def steps() -> tuple[tuple[int, str], ...]:
    """Every migration: the version it leads to, and its SQL. In order, without gaps."""
    folder = files("boxaloud.assistant.storage.sqlite") / "migrations"
    found = sorted(
        (int(item.name.split("_")[0]), item.read_text(encoding="utf-8"))
        for item in folder.iterdir()
        if item.name.endswith(".sql")
    )
    assert [version for version, _ in found] == list(range(1, len(found) + 1))
    return tuple(found)


def latest() -> int:
    """The version this program writes."""
    return steps()[-1][0]


def version_of(connection: sqlite3.Connection) -> int:
    """The version of a file, 0 for one with nothing in it. Reads only."""
    tables = connection.execute("SELECT count(*) FROM sqlite_master").fetchone()[0]
    if not tables:
        return 0
    try:
        row = connection.execute("SELECT max(version) FROM schema_version").fetchone()
    except sqlite3.OperationalError:
        raise Damaged("it has no schema version") from None
    return int(row[0] or 0)


def check_readable(connection: sqlite3.Connection, path: Path) -> int:
    """The version, where this program can read it. Raises TooNew for a later one."""
    found = version_of(connection)
    if found > latest():
        raise TooNew(say("keeping.too_new", path=path, found=found, known=latest()))
    return found


def migrate(connection: sqlite3.Connection, at: str, upto: int | None = None) -> None:
    """Bring the file up to the latest version, each step whole or not at all."""
    goal = latest() if upto is None else upto
    for version, sql in steps():
        if version_of(connection) < version <= goal:
            _step(connection, version, sql, at)


def _step(connection: sqlite3.Connection, version: int, sql: str, at: str) -> None:
    table = "CREATE TABLE IF NOT EXISTS schema_version (version INTEGER PRIMARY KEY, at TEXT)"
    connection.executescript(
        f"BEGIN IMMEDIATE; {table}; {sql}\n"
        f"INSERT INTO schema_version VALUES ({version}, '{at}'); COMMIT;"
    )
