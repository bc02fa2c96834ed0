"""What a file says of its job, with a check over it."""

from __future__ import annotations

import sqlite3
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import cast, get_args
from zlib import crc32

from boxaloud.assistant.storage.project_details import ProjectDetails, read
from boxaloud.rules.units import VolumeUnit

KEYS = ("name", "edition", "units", "begun")
CHECK = "check"
"""The row that holds a CRC-32 over the rest, in decimal figures. Forms before 3 have none."""


@dataclass(frozen=True, slots=True)
class About:
    """What a job is: its name, the edition its boxes begin under, the units shown, when begun,
    and what its report says of the project."""

    name: str
    edition: str
    units: VolumeUnit = "in3"
    begun: str = ""
    project: ProjectDetails = field(default_factory=ProjectDetails)


def read_about(connection: sqlite3.Connection) -> About | None:
    """What the file says, whether or not its check holds; None where it does not say it all."""
    found = {key: value for key, value in _rows(connection).items() if isinstance(value, str)}
    if not all(key in found for key in KEYS):
        return None
    return About(
        found["name"], found["edition"], _unit(found["units"]), found["begun"], read(found)
    )


def _unit(text: str) -> VolumeUnit:
    """The unit a file names; one that is not known here leaves cubic inches, which rule."""
    return cast("VolumeUnit", text) if text in get_args(VolumeUnit) else "in3"


def about_holds(connection: sqlite3.Connection) -> bool:
    """Whether what the file says is what was written into it."""
    found = _rows(connection)
    return CHECK in found and found[CHECK] == _check(found)


def write_about(connection: sqlite3.Connection, about: Mapping[str, str]) -> None:
    """Change what the file says, and the check over it with it."""
    put = "INSERT OR REPLACE INTO about VALUES (?, ?)"
    connection.executemany(put, list(about.items()))
    connection.execute(put, (CHECK, _check(_rows(connection))))


def _rows(connection: sqlite3.Connection) -> dict[str, str]:
    return dict(connection.execute("SELECT key, value FROM about").fetchall())


def _check(found: Mapping[str, str]) -> str:
    told = sorted((str(key), str(value)) for key, value in found.items() if key != CHECK)
    said = "\x1f".join(f"{key}\x1f{value}" for key, value in told)
    return str(crc32(said.encode("utf-8", "surrogatepass")))
