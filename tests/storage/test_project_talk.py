"""What a talk tells of the project is in the job and in its report, and changes no box."""

from __future__ import annotations

from pathlib import Path

import pytest
from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.storage import Session, repository
from boxaloud.assistant.storage.project_details import ProjectDetails


@pytest.fixture(autouse=True)
def data(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("BOXALOUD_DATA", str(tmp_path))


def test_each_field_is_kept_as_it_was_said() -> None:
    session = Session.start("Heron")
    session.hear("two 14-2s and a switch, 18 cubic inches, no clamps")
    before = session.talk.state
    for said in (
        "the site name is Plot 7",
        "address: 7 Heron Street, Wexcombe",
        "permit number E-2041",
        "contractor: Дом Łódź Wiring",
        "prepared by Ada Quill.",
        "my license number is J-118",
        "seen on 2026-11-20",
    ):
        reply = session.hear(said)
        assert [act.act for act in reply.acts][:1] == ["report"]
        assert reply.verdict == "fits"
        assert "--job" not in reply.said
    assert session.talk.state == before
    session.close()
    assert repository.project_of(repository.find("Heron")) == ProjectDetails(
        "Plot 7", "7 Heron Street, Wexcombe", "E-2041", "Дом Łódź Wiring", "Ada Quill", "J-118",
        "2026-11-20",
    )  # fmt: skip


def test_a_later_word_takes_the_place_of_an_earlier_one_and_leaves_the_rest() -> None:
    session = Session.start("Heron")
    for said in ("permit number 1", "prepared by Ada", "permit number 2"):
        session.hear(said)
    assert (session.about.project.permit, session.about.project.prepared_by) == ("2", "Ada")
    session.close()


def test_no_day_is_kept_that_is_none() -> None:
    session = Session.start("Heron")
    session.hear("seen on 2026-02-30")
    assert session.about.project.date == ""
    session.close()


def test_words_of_a_box_are_never_taken_for_a_name() -> None:
    session = Session.start("Heron")
    session.hear("site: den, two 14-2s and a switch")
    assert session.about.project.site == ""
    session.close()


def test_a_talk_without_a_job_says_that_it_is_not_kept() -> None:
    reply = Conversation().hear("permit number E-2041")
    assert "E-2041" in reply.said
    assert "--job" in reply.said
