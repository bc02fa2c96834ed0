"""Names of jobs and boxes: in every script, however they are written, one name is one thing."""

from __future__ import annotations

import os
import stat
import unicodedata
from pathlib import Path

import pytest
from boxaloud.assistant.storage import Session, repository
from boxaloud.assistant.storage.sqlite.journal_file import log_of
from boxaloud.assistant.text.problem import Problem

NAMES = ["Küche", "кухня", "台所", "المطبخ", "हिन्दी", "ห้องครัว", "می‌خواهم", "salle à manger"]


@pytest.mark.parametrize(
    ("one", "other"),
    [
        (unicodedata.normalize("NFC", "Küche"), unicodedata.normalize("NFD", "Küche")),
        ("Heron", "Ｈｅｒｏｎ"),
        ("ｶﾞﾚｰｼﾞ", "ガレージ"),
        ("Straße", "STRASSE"),
        ("Heron  Street ", "heron street"),
    ],
)
def test_one_name_however_it_is_written_is_one_job(one: str, other: str) -> None:
    session = Session.start(one)
    session.hear("two 14-2 cables")
    session.close()
    again = Session.open_or_start(other)
    assert again.talk.journal
    again.close()
    with pytest.raises(Problem, match="already is a job"):
        Session.start(other)
    assert len(repository.places()) == 1


@pytest.mark.parametrize("name", NAMES)
def test_a_name_keeps_its_letters(name: str) -> None:
    session = Session.start(name)
    session.hear(f"next box {name}")
    assert session.talk.name == name.lower()
    session.hear("two 14-2 cables")
    session.hear("next box porch")
    session.hear(f"go to {name}")
    assert session.talk.name == name.lower()
    session.close()
    again = Session.open(name)
    assert again.name == name
    assert again.talk.name == name.lower()


def test_a_name_that_steers_a_terminal_is_kept_without_that() -> None:
    session = Session.start("He\x1b[31mron\u202e\n Street")
    assert session.name == "He [31mron Street"


@pytest.mark.parametrize("name", ["", "  ", "\x1b\u202e", "x" * 121])
def test_no_name_and_too_much_of_one_are_refused(name: str) -> None:
    with pytest.raises(Problem):
        Session.start(name)
    assert repository.places() == ()


@pytest.mark.skipif(os.name != "posix", reason="modes of that system")
def test_all_that_is_kept_is_for_its_owner_alone(data: Path) -> None:
    before = os.umask(0)
    try:
        session = Session.start("Heron")
        session.hear("two 14-2 cables")
        session.hear("when I say blue box I mean 18 cubic inches")
        path = repository.find("heron").path
        assert log_of(path).exists()
        repository.copy(repository.find("heron"), "Egret")
        every = [data, *data.rglob("*")]
        session.close()
        repository.remove(repository.find("egret"))
        every += [data / "removed", *(data / "removed").iterdir()]
    finally:
        os.umask(before)
    for each in every:
        if each.exists():
            mode = stat.S_IMODE(each.stat().st_mode)
            assert mode == (0o700 if each.is_dir() else 0o600), each


def test_drafts_of_talks_that_were_killed_are_cleared_away(data: Path) -> None:
    Session.start("Heron").close()
    gone = data / "jobs" / ".barn.boxaloud.4194999.new"
    ours = data / "jobs" / f".mill.boxaloud.{os.getpid()}.new"
    gone.touch()
    ours.touch()
    Session.start("Mill").close()
    assert not gone.exists()
    assert ours.exists()
