"""One job's file: an SQLite database whose journal is only ever added to.

A row is on the disk (written, and flushed by the system) before `append` returns. Appending
checks the place it appends at, so that two front ends cannot write over each other.
"""

from __future__ import annotations

import contextlib
import os
import sqlite3
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from pathlib import Path

from boxaloud.assistant.storage.clock import now, stamp
from boxaloud.assistant.storage.private_files import private_folder
from boxaloud.assistant.storage.project_details import kept
from boxaloud.assistant.storage.sqlite.about_table import (
    About,
    about_holds,
    read_about,
    write_about,
)
from boxaloud.assistant.storage.sqlite.folder_scan import trouble_with
from boxaloud.assistant.storage.sqlite.job_connection import (
    check_whole,
    connect,
    keep_a_log,
    look_before,
    read_a_copy,
)
from boxaloud.assistant.storage.sqlite.journal_rows import START, Mark, Row, follow
from boxaloud.assistant.storage.sqlite.journal_table import last_mark, read_rows, write_rows
from boxaloud.assistant.storage.sqlite.migration import check_readable, latest, migrate, version_of
from boxaloud.assistant.storage.sqlite.picture_table import (
    Picture,
    drop_picture,
    read_pictures,
    write_pictures,
)
from boxaloud.assistant.storage.sqlite.remembered_verdicts import (
    Standing,
    read_earlier_verdicts,
    read_verdicts,
    write_verdicts,
)
from boxaloud.assistant.storage.sqlite.storage_errors import Damaged, Moved, NotKept, Replaced, told
from boxaloud.assistant.storage.sqlite.write_ahead_log import log_of
from boxaloud.assistant.storage.storage_messages import say
from boxaloud.assistant.text.atomic_file import draft_beside, put_where_none_is, sweep

_HELD: Counter[tuple[int, int] | None] = Counter()
"""The files that this process has open, by identity. Whoever opens one of them by other means than
the engine's, and closes it again, takes the engine's locks off it, and rows are lost."""


class JobFile:
    """An open job file. Raises NotKept, Damaged, Moved or Replaced, never a database error."""

    def __init__(
        self, path: Path, connection: sqlite3.Connection, about: About, writable: bool
    ) -> None:
        self.path = path
        self.about = about
        self._connection = connection
        self._writable = writable
        self._identity = _identity(path)
        _HELD[self._identity] += 1
        self._held = True

    @classmethod
    def create(cls, path: Path, about: About) -> JobFile:
        """A new file, there whole or not at all. Raises FileExistsError rather than replace one."""
        with _plain_faults(path):
            private_folder(path.parent)
            if log_of(path).exists():  # of an earlier file: it would be played into this one
                raise FileExistsError(log_of(path))
            sweep(path.parent)
            with draft_beside(path) as draft:
                _write_new(draft, about)
                put_where_none_is(draft, path)
        return cls.open(path)

    @classmethod
    def open(cls, path: Path) -> JobFile:
        """An existing file, checked and brought up to the latest form.

        Raises TooNew, with the file untouched, where a later version wrote it.
        """
        with _plain_faults(path):
            if why := trouble_with(path):
                raise NotKept(say("trouble.broken", path=path, why=why))
            if not _HELD[_identity(path)]:
                look_before(path)
            writable = os.access(path, os.W_OK) and os.access(path.parent, os.W_OK)
            connection = connect(path) if writable else read_a_copy(path)
            try:
                if not check_readable(connection, path):
                    raise Damaged("it is empty")
                check_whole(connection)
                _bring_up(connection)
                about = _about_of(connection)
                if writable:
                    keep_a_log(connection)
            except BaseException:
                connection.close()
                raise
        return cls(path, connection, about, writable)

    def close(self) -> None:
        """Let go of the file."""
        _HELD[self._identity] -= self._held
        self._held = False
        log = _identity(log_of(self.path))
        replaced = _identity(self.path) not in (None, self._identity)
        with contextlib.suppress(sqlite3.Error):
            self._connection.close()
        if replaced and log is not None and log == _identity(log_of(self.path)):
            # the log is of the file that was here: it must not be played into this one
            with contextlib.suppress(OSError):
                os.rename(
                    log_of(self.path), self.path.with_name(f"{self.path.name}.left-{stamp()}")
                )

    def rows(self, after: Mark = START) -> list[Row]:
        """The rows after a mark. Raises Replaced where the mark is not in this history, and
        Damaged where a row is not what was written."""
        with _plain_faults(self.path):
            self._check_holds(after)
            found = read_rows(self._connection, after.position)
        whole = list(follow(found, after))
        if len(whole) != len(found):
            raise Damaged(f"row {after.position + len(whole) + 1} is not what was written")
        return whole

    def mark(self) -> Mark:
        """The place after the last row. Raises NotKept where the file is no longer in place."""
        with _plain_faults(self.path):
            self._check_in_place()
            return last_mark(self._connection)

    def append(self, rows: Sequence[Row], after: Mark, standing: Standing | None = None) -> None:
        """Put rows after `after`, durably. Raises Moved where that is not the end any more."""
        with _plain_faults(self.path), self._transaction():
            if last_mark(self._connection) != after:
                raise Moved
            write_rows(self._connection, rows)
            if standing is not None:
                write_verdicts(self._connection, standing, {row.box: row.position for row in rows})
        # a file whose folder was moved or deleted takes rows that nobody will find again
        with _plain_faults(self.path):
            self._check_in_place()

    def verdicts(self, works: str, other: bool = False) -> dict[str, tuple[int, str]]:
        """Remembered verdicts by box: the row they were worked out at, and the verdict.

        Those worked out by just these `works`, or with `other` by any but these.
        """
        read = read_earlier_verdicts if other else read_verdicts
        with _plain_faults(self.path):
            return read(self._connection, works)

    def remember(self, standing: Standing, last: Mapping[str, int]) -> None:
        """Remember verdicts, each at the position of its box's last row."""
        with _plain_faults(self.path), self._transaction():
            write_verdicts(self._connection, standing, last)

    def tell(self, about: Mapping[str, str]) -> None:
        """Change what the job is called or shown in."""
        with _plain_faults(self.path), self._transaction():
            write_about(self._connection, about)
        self.about = _about_of(self._connection)

    def pictures(self) -> tuple[list[Picture], int]:
        """The pictures that are what was written, and how many are not."""
        with _plain_faults(self.path):
            return read_pictures(self._connection)

    def add_pictures(self, pictures: Iterable[Picture]) -> None:
        """Add pictures, all or none."""
        with _plain_faults(self.path), self._transaction():
            write_pictures(self._connection, pictures)

    def drop_picture(self, number: int) -> bool:
        """Take a picture out; False where there is none of that number."""
        with _plain_faults(self.path), self._transaction():
            return drop_picture(self._connection, number)

    def settle(self) -> bool:
        """Bring all into the one file. False where another front end has the job open."""
        try:
            mode = self._connection.execute("PRAGMA journal_mode = DELETE").fetchone()[0]
        except sqlite3.OperationalError:
            return False
        return str(mode) == "delete"

    def copy_to(self, path: Path, about: Mapping[str, str]) -> None:
        """A copy, whole or not at all, that says of its job what `about` has in place of the same
        keys here."""
        with _plain_faults(path):
            private_folder(path.parent)
            sweep(path.parent)
            with draft_beside(path) as draft:
                with contextlib.closing(connect(draft)) as target:
                    self._connection.backup(target)
                    with target:
                        write_about(target, about)
                put_where_none_is(draft, path)

    def _check_in_place(self) -> None:
        """The path must still lead to the file that is open."""
        self.path.stat()
        if _identity(self.path) != self._identity:
            raise NotKept(say("trouble.broken", path=self.path, why="it was replaced"))

    def _check_holds(self, mark: Mark) -> None:
        if mark == START:
            return
        found = self._connection.execute(
            "SELECT chk FROM journal WHERE position = ?", (mark.position,)
        ).fetchone()
        if found is None or found[0] != mark.check:
            raise Replaced

    @contextlib.contextmanager
    def _transaction(self) -> Iterator[None]:
        if not self._writable:
            raise NotKept(say("trouble.read_only", path=self.path.parent))
        self._connection.execute("BEGIN IMMEDIATE")
        try:
            yield
            self._connection.execute("COMMIT")
        except BaseException:
            with contextlib.suppress(sqlite3.Error):
                if self._connection.in_transaction:
                    self._connection.execute("ROLLBACK")
            raise


def _identity(path: Path) -> tuple[int, int] | None:
    """What tells a file from another that has its name; None where there is none."""
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_dev, found.st_ino


@contextlib.contextmanager
def _plain_faults(path: Path) -> Iterator[None]:
    try:
        yield
    except FileExistsError:
        raise
    except (sqlite3.Error, OSError) as fault:
        raise told(fault, path) from fault
    except UnicodeDecodeError as fault:  # a name in the layout, in the engine's own message
        raise Damaged(str(fault)) from fault


def _bring_up(connection: sqlite3.Connection) -> None:
    """Migrate an older file. Where it cannot be written to, an older form is not readable."""
    if version_of(connection) < latest():
        migrate(connection, now(), seal=lambda each: write_about(each, {}))


def _write_new(draft: Path, about: About) -> None:
    with contextlib.closing(connect(draft)) as connection:
        migrate(connection, about.begun or now())
        write_about(
            connection,
            {
                "name": about.name,
                "edition": about.edition,
                "units": about.units,
                "begun": about.begun or now(),
                **kept(about.project),
            },
        )


def _about_of(connection: sqlite3.Connection) -> About:
    """What an open file says of its job. Raises Damaged where that is not what was written."""
    found = read_about(connection)
    if found is None:
        raise Damaged("it does not say what job it is")
    if not about_holds(connection):
        raise Damaged("what it says of its job is not what was written")
    return found


__all__ = ["About", "JobFile", "Standing", "log_of"]
