"""What stands in the data folder: the job's file, what was heard in a session, the rows kept."""

from __future__ import annotations

import sqlite3
from pathlib import Path

from boxaloud.assistant.storage import Session, repository


def path() -> Path:
    return repository.find("heron street").path


def heard(session: Session) -> list[str]:
    return [entry.heard for entry in session.talk.journal]


def rows_on_disk(file: Path) -> int:
    connection = sqlite3.connect(f"{file.as_uri()}?mode=ro", uri=True)
    count = connection.execute("SELECT count(*) FROM journal").fetchone()[0]
    connection.close()
    assert isinstance(count, int)
    return count
