"""Files of earlier and of later versions: brought up whole, or refused untouched."""

from __future__ import annotations

import os
import sqlite3
from pathlib import Path

import pytest
from boxaloud.assistant.storage import Session
from boxaloud.assistant.storage.sqlite import journal_file
from boxaloud.assistant.storage.sqlite.migration import latest, migrate
from boxaloud.assistant.storage.sqlite.storage_errors import TooNew
from kept_rows import heard, path


def test_a_file_of_a_later_version_is_refused_and_untouched(session: Session) -> None:
    session.close()
    connection = sqlite3.connect(path())
    for version in range(latest() + 1, 100):
        connection.execute(f"INSERT INTO schema_version VALUES ({version}, '2031-01-01T00:00:00Z')")
    connection.commit()
    connection.close()
    before = path().read_bytes()
    with pytest.raises(TooNew, match=f"form 99; this one reads up to {latest()}.*untouched"):
        Session.open("heron street")
    assert path().read_bytes() == before
    assert not list(path().parent.glob("*.damaged-*"))


def put_earlier_version_in_place(place: Path, version: int) -> None:
    old = place.with_name("old")
    connection = sqlite3.connect(old, isolation_level=None)
    migrate(connection, "2026-01-01T00:00:00Z", upto=version)
    connection.execute("ATTACH ? AS new", (str(place),))
    connection.execute("INSERT INTO about SELECT * FROM new.about WHERE key <> 'check'")
    connection.execute("INSERT INTO journal SELECT * FROM new.journal")
    connection.close()
    os.replace(old, place)


def test_a_file_is_sound_wherever_its_bringing_up_was_stopped(
    session: Session, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A file of form 3 without a check over what it says would be taken for a damaged one."""
    session.close()
    put_earlier_version_in_place(path(), 2)

    def stop(*_: object) -> None:
        raise KeyboardInterrupt

    with monkeypatch.context() as stopped:
        stopped.setattr(journal_file, "write_about", stop)
        with pytest.raises(KeyboardInterrupt):
            Session.open("heron street")
    again = Session.open("heron street")
    assert again.take_notes() == ()
    assert heard(again) == ["two 14-2 cables", "18 cubic inches"]
    assert not list(path().parent.glob("*.damaged-*"))


@pytest.mark.parametrize("version", range(1, latest()))
def test_a_file_of_an_earlier_version_is_brought_up_with_all_it_has(
    session: Session, version: int
) -> None:
    session.close()
    put_earlier_version_in_place(path(), version)
    again = Session.open("heron street")
    assert heard(again) == ["two 14-2 cables", "18 cubic inches"]
    again.hear("a switch")
    assert again.kept


def test_the_journal_cannot_be_changed_or_shortened(session: Session) -> None:
    session.close()
    connection = sqlite3.connect(path())
    for change in ("UPDATE journal SET entry = ''", "DELETE FROM journal"):
        with pytest.raises(sqlite3.IntegrityError, match="append-only"):
            connection.execute(change)
    connection.close()
