"""The form of a job's file: its version, and the steps from each version to the next."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import TypeAlias

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
    if [version for version, _ in found] != list(range(1, len(found) + 1)):
        raise ValueError("the migrations do not follow one another without a gap")
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
        found = connection.execute("SELECT version FROM schema_version ORDER BY version").fetchall()
    except sqlite3.OperationalError:
        raise Damaged("it has no schema version") from None
    versions = [version for (version,) in found]
    if versions != list(range(1, len(versions) + 1)):  # each version leaves a row
        raise Damaged("it does not say its form")
    return len(versions)


def check_readable(connection: sqlite3.Connection, path: Path) -> int:
    """The version, where this program can read it. Raises TooNew for a later one."""
    found = version_of(connection)
    if found > latest():
        raise TooNew(say("keeping.too_new", path=path, found=found, known=latest()))
    return found


Seal: TypeAlias = Callable[[sqlite3.Connection], object]
"""What is to be written with a step, such as the check over what the file says of its job."""


def _nothing(_: sqlite3.Connection) -> None:
    return None


def migrate(
    connection: sqlite3.Connection, at: str, upto: int | None = None, seal: Seal = _nothing
) -> None:
    """Bring the file up to the latest version, each step and its `seal` whole or not at all."""
    goal = latest() if upto is None else upto
    for version, sql in steps():
        if version <= goal:
            _step(connection, version, sql, at, seal)


def _step(connection: sqlite3.Connection, version: int, sql: str, at: str, seal: Seal) -> None:
    """One step, unless another front end has taken it meanwhile."""
    connection.execute("BEGIN IMMEDIATE")
    try:
        if version_of(connection) < version:
            connection.execute(
                "CREATE TABLE IF NOT EXISTS schema_version (version INTEGER PRIMARY KEY, at TEXT)"
            )
            for statement in _statements(sql):
                connection.execute(statement)
            connection.execute("INSERT INTO schema_version VALUES (?, ?)", (version, at))
            seal(connection)
        connection.execute("COMMIT")
    except BaseException:
        if connection.in_transaction:
            connection.execute("ROLLBACK")
        raise


def _statements(sql: str) -> Iterator[str]:
    """The statements of a script, one by one."""
    waiting = ""
    for line in sql.splitlines(keepends=True):
        waiting += line
        if sqlite3.complete_statement(waiting):
            yield waiting
            waiting = ""
