"""Is every job sound? Each is opened as a talk would open it, and what was set aside is read again.

A finding is a line for the person and whether all is well with it.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from boxaloud.assistant.storage import repository
from boxaloud.assistant.storage.data_folders import jobs_folder, removed_folder
from boxaloud.assistant.storage.sqlite.journal_rows import Row, entry_in
from boxaloud.assistant.storage.sqlite.recovery import ASIDE, COMPANIONS, quoted
from boxaloud.assistant.storage.sqlite.salvage import left_behind, readable_rows
from boxaloud.assistant.storage.storage_messages import how_many, say
from boxaloud.assistant.text.problem import Problem


@dataclass(frozen=True, slots=True)
class Finding:
    """What was found of one file."""

    says: str
    well: bool


def check(name: str = "") -> Iterator[Finding]:
    """Look at the job of a name; else at every job, at those removed, and at what lies beside."""
    if name:
        yield from _job(repository.find(name))
        return
    kept: list[Row] = []
    for folder in (jobs_folder(), removed_folder()):
        found, odd = repository.look(folder)
        for place in found:
            yield from _job(place, kept)
        yield from (Finding(str(each), False) for each in odd)
    for folder in (jobs_folder(), removed_folder()):
        for path in set_aside_in(folder):
            yield _aside(path, kept)


def set_aside_in(folder: Path) -> list[Path]:
    """The damaged files of a folder that were set aside, without those that belong to them."""
    every = sorted(folder.glob(f"*{ASIDE}*")) if folder.is_dir() else []
    return [path for path in every if not path.name.endswith(COMPANIONS)]


def _job(place: repository.Place, kept: list[Row] | None = None) -> Iterator[Finding]:
    try:
        file, damage = repository.open_file(place)
        try:
            rows = file.rows()
        finally:
            file.close()
    except Problem as problem:
        yield Finding(say("check.closed", job=place.name, why=problem), False)
        return
    if kept is not None:
        kept += rows
    if damage:
        yield Finding(damage, False)
    bad = [row for row in rows if row.action == "entry" and entry_in(row.entry) is None]
    for row in bad:
        told = say("check.row", job=file.about.name, row=row.position, box=row.box, at=row.at)
        yield Finding(told, False)
    if not damage and not bad:
        yield Finding(say("check.sound", job=file.about.name, count=_statements(rows)), True)


def _aside(path: Path, kept: Iterable[Row]) -> Finding:
    """A file set aside earlier: how much of it can be read, and what of that no job has."""
    rows = readable_rows(path)
    lost = left_behind(path, list(kept))
    if not lost:
        return Finding(say("check.aside_whole", path=path, count=_statements(rows)), True)
    words = quoted(lost)
    return Finding(say("check.aside", path=path, count=_statements(rows), words=words), False)


def _statements(rows: list[Row]) -> str:
    return how_many(sum(row.action == "entry" for row in rows), "statement")
