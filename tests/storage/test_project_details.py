"""What is told of a job's project is kept with the job, and goes where the job goes."""

from __future__ import annotations

import sqlite3
from dataclasses import asdict
from pathlib import Path

import pytest
from boxaloud.assistant.storage import Session, repository
from boxaloud.assistant.storage.project_details import ProjectDetails, is_date

TOLD = ProjectDetails(
    site="Heron Street, plot 7",
    address="7 Heron Street, Wexcombe",
    permit="E-2041",
    contractor="Дом & Łódź Wiring",
    prepared_by="Ada Quill",
    licence="J-118",
    date="2026-11-20",
)


@pytest.fixture
def place() -> repository.Place:
    session = Session.start("Heron")
    session.hear("two 14-2 cables")
    session.close()
    return repository.find("Heron")


def opened(name: str) -> ProjectDetails:
    session = Session.open(name)
    session.close()
    return session.about.project


def test_they_are_kept_with_the_job(place: repository.Place) -> None:
    assert repository.project_of(place) == ProjectDetails()
    repository.describe(place, TOLD)
    assert opened("Heron") == TOLD == repository.project_of(place)
    repository.rename(place, "Barn")
    assert opened("Barn") == TOLD
    repository.describe(repository.find("Barn"), ProjectDetails(permit="E-1"))
    assert opened("Barn") == ProjectDetails(permit="E-1")


def test_a_copy_has_no_site_and_no_permit(place: repository.Place) -> None:
    """A permit is of one job; the same people may do both."""
    repository.describe(place, TOLD)
    repository.copy(place, "Barn")
    assert opened("Barn") == ProjectDetails(
        contractor=TOLD.contractor, prepared_by=TOLD.prepared_by, licence=TOLD.licence
    )
    assert opened("Heron") == TOLD


def test_they_are_carried_over_from_a_damaged_file(place: repository.Place) -> None:
    repository.describe(place, TOLD)
    with sqlite3.connect(place.path) as connection:
        connection.execute("DROP TRIGGER journal_is_not_changed")
        connection.execute("UPDATE journal SET box = 'other'")
    connection.close()
    assert opened("Heron") == TOLD
    assert list(Path(place.path.parent).glob("*.damaged-*"))


def test_a_job_of_before_has_none(place: repository.Place) -> None:
    with sqlite3.connect(place.path) as connection:
        connection.execute("DELETE FROM about WHERE key LIKE 'project.%'")
    connection.close()
    assert not any(asdict(opened("Heron")).values())


@pytest.mark.parametrize(
    ("text", "good"),
    [("2026-11-20", True), ("2026-02-30", False), ("20261120", False), ("20/11/2026", False),
     ("2026-W47-5", False), ("", False)],
)  # fmt: skip
def test_a_day_is_written_as_the_standard_does(text: str, good: bool) -> None:
    """ISO 8601-1:2019, 5.2.2.1: the extended format of a calendar date."""
    assert is_date(text) is good
