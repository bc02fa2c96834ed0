"""What a job's report says of the project: where, under which permit, by whom.

Told by a person and shown as told; nothing is worked out from it.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import asdict, dataclass, replace
from datetime import date

_PREFIX = "project."


@dataclass(frozen=True, slots=True)
class ProjectDetails:
    """Each a line of words, empty where it was not told. `date` is ISO 8601, YYYY-MM-DD."""

    site: str = ""
    address: str = ""
    permit: str = ""
    contractor: str = ""
    prepared_by: str = ""
    licence: str = ""
    date: str = ""

    def for_a_copy(self) -> ProjectDetails:
        """What holds for another job of the same people: no other job has this one's permit."""
        return replace(self, site="", address="", permit="", date="")


def is_date(text: str) -> bool:
    """Whether the words are a day as ISO 8601 writes it, YYYY-MM-DD."""
    try:
        return date.fromisoformat(text).isoformat() == text
    except ValueError:
        return False


def kept(details: ProjectDetails) -> dict[str, str]:
    """The details as keys and values of a job's file."""
    return {_PREFIX + name: value for name, value in asdict(details).items()}


def kept_one(name: str, text: str) -> dict[str, str]:
    """One of the details so; the others stay as they are."""
    return {_PREFIX + name: text}


def read(found: Mapping[str, str]) -> ProjectDetails:
    """The details among the keys and values of a job's file, which may be an earlier one's."""
    names = asdict(ProjectDetails())
    return ProjectDetails(**{name: found.get(_PREFIX + name, "") for name in names})
