"""One row of a job's journal, and the chain of checks that binds the rows together.

Each row's check is a CRC-32 over the row and the check before it. A row changed, missing or
out of place is therefore seen when a file is read, and two front ends can tell by the last
check alone whether they hold the same history.
"""

from __future__ import annotations

import contextlib
import json
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from typing import NamedTuple
from zlib import crc32

from boxaloud.assistant.dialogue import Entry, Record, legacy_entries
from boxaloud.assistant.storage.storage_messages import say
from boxaloud.grammar.acts import Unread


class Mark(NamedTuple):
    """A place in a journal: how many rows, and the check of the last."""

    position: int
    check: int


START = Mark(0, 0)


@dataclass(frozen=True, slots=True)
class Row:
    """A record at its place. `at` is UTC, ISO 8601; `entry` is JSON text or empty."""

    position: int
    at: str
    action: str
    box: str
    other: str
    edition: str
    entry: str
    check: int

    @property
    def mark(self) -> Mark:
        """The place just after this row."""
        return Mark(self.position, self.check)


def check_of(row: Row, before: int) -> int:
    """The check that a row must carry after a row whose check is `before`; -1, which no row
    has, where a part of it is no text."""
    parts = (
        str(row.position), row.at, row.action, row.box, row.other, row.edition, row.entry
    )  # fmt: skip
    try:
        said = "\x1f".join(parts)
    except TypeError:
        return -1
    return crc32(said.encode("utf-8", "surrogatepass"), before)


def follow(rows: Iterable[Row], mark: Mark) -> Iterator[Row]:
    """The rows as long as each follows on from `mark`; ends at the first that does not."""
    for row in rows:
        if row.position != mark.position + 1 or row.check != check_of(row, mark.check):
            return
        mark = row.mark
        yield row


def rows_of(records: Iterable[Record], mark: Mark, at: str) -> list[Row]:
    """Records as the rows that come after `mark`."""
    return renumbered((_unplaced(record, at) for record in records), mark)


def renumbered(rows: Iterable[Row], mark: Mark) -> list[Row]:
    """The same rows, put in after `mark`."""
    placed: list[Row] = []
    for row in rows:
        content = (row.at, row.action, row.box, row.other, row.edition, row.entry)
        bare = Row(mark.position + 1, *content, 0)
        mark = Mark(bare.position, check_of(bare, mark.check))
        placed.append(Row(bare.position, *content, mark.check))
    return placed


def _unplaced(record: Record, at: str) -> Row:
    entry = ""
    if record.entry is not None:
        entry = json.dumps(record.entry.to_json(), ensure_ascii=True, separators=(",", ":"))
    return Row(0, at, record.action, record.box, record.other, record.edition, entry, 0)


def entry_of(text: str) -> Entry:
    """The entry that a row's JSON text holds.

    One that cannot be read, such as of a later form, is set aside: its words are left as not
    understood, so that no verdict stands over them.
    """
    if (found := entry_in(text)) is not None:
        return found
    words = None
    with contextlib.suppress(ValueError, AttributeError, RecursionError):
        words = json.loads(text).get("heard")
    heard = words if isinstance(words, str) and words else say("keeping.unreadable")
    return Entry(heard, (), (Unread(heard, (0, len(heard)), weighty=True),))


def entry_in(text: str) -> Entry | None:
    """The entry that a row's JSON text holds, or None where it cannot be read."""
    try:
        return legacy_entries.entry_of(json.loads(text))
    except Exception:  # whatever a strange row raises, the rest of the job is folded
        return None
