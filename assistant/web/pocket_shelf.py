"""Jobs between the browser's storage, where they are kept, and files in memory, where they are
worked with: the same journal, row by row, so that a session runs unchanged.

What was said is kept once the browser has stored the rows of `unsaved`, and `saved` says so. Rows
that could not be stored wait here, behind what another page of the same browser stored meanwhile.
"""

from __future__ import annotations

import os
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from boxaloud.assistant.storage import alias_file
from boxaloud.assistant.storage.data_folders import SUFFIX, jobs_folder
from boxaloud.assistant.storage.project_details import kept, read
from boxaloud.assistant.storage.session import Session
from boxaloud.assistant.storage.sqlite.about_table import About
from boxaloud.assistant.storage.sqlite.journal_file import JobFile
from boxaloud.assistant.storage.sqlite.journal_rows import START, Mark, Row, renumbered


@dataclass(frozen=True, slots=True)
class StoredJob:
    """A job, or the rows of it behind those that are stored, as the browser keeps them."""

    file: str
    about: About
    rows: tuple[Row, ...]
    written: float = 0.0
    """When it was last written, seconds since 1970."""


class PocketShelf:
    """The jobs in memory, and how far the browser has stored each."""

    def __init__(self) -> None:
        self._stored: dict[str, Mark] = {}
        self._waiting: dict[str, StoredJob] = {}
        self._words_stored = ""

    def take_in(self, job: StoredJob) -> None:
        """Take in what the browser has stored of a job, with rows of ours that wait behind it.
        No session may have the job open."""
        path = jobs_folder() / job.file
        known = self._stored.get(job.file, START)
        try:
            file = JobFile.open(path) if path.exists() else JobFile.create(path, job.about)
            ours = file.rows(known)
            rows = renumbered((*job.rows, *ours), known) if ours else list(job.rows)
            if ours:
                before = file.rows()[: known.position]
                file.close()
                path.unlink()
                file = JobFile.create(path, job.about)
                file.append(before, START)
            file.append(rows, known)
            self._stored[job.file] = rows[len(job.rows) - 1].mark if job.rows else known
            if ours:
                self._waiting[job.file] = StoredJob(job.file, job.about, tuple(rows[-len(ours) :]))
        finally:
            file.close()
        if job.written:
            os.utime(path, (job.written, job.written))

    def take_in_words(self, text: str) -> None:
        """Take in the person's own words, as the browser has stored their file."""
        self._words_stored = text
        path = alias_file.own_words_file()
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")

    def note(self, session: Session) -> None:
        """Note what of a session is to be stored. Call it after each turn, and before another
        job is opened."""
        file = session.path.name
        stored = self._stored.get(file)
        rows = session.rows[(stored or START).position :]
        if rows or stored is None:
            self._waiting[file] = StoredJob(file, session.about, rows)

    def unsaved(self) -> tuple[StoredJob, ...]:
        """What is to be stored."""
        return tuple(self._waiting.values())

    def saved(self) -> None:
        """The browser has stored all of `unsaved`."""
        for file, job in self._waiting.items():
            self._stored[file] = job.rows[-1].mark if job.rows else self._stored.get(file, START)
        self._waiting.clear()
        self._words_stored = self.own_words()

    def own_words(self) -> str:
        """The file of the person's own words; empty where there is none."""
        path = alias_file.own_words_file()
        return path.read_text(encoding="utf-8") if path.is_file() else ""

    @property
    def words_changed(self) -> bool:
        """Whether own words are to be stored."""
        return self.own_words() != self._words_stored

    def unused_file(self, wanted: str) -> str:
        """A name for the file of a job taken in, which no job here has."""
        stem = wanted.removesuffix(SUFFIX) or "job"
        number, file = 2, f"{stem}{SUFFIX}"
        while (jobs_folder() / file).exists():
            file, number = f"{stem}-{number}{SUFFIX}", number + 1
        return file


def about_json(about: About) -> dict[str, str]:
    """What a job says of itself, as keys and values."""
    return {
        "name": about.name, "edition": about.edition, "units": about.units, "begun": about.begun,
        **kept(about.project),
    }  # fmt: skip


def about_of(found: Mapping[str, str]) -> About:
    """The same read back. Raises KeyError where it does not say it all."""
    units = found["units"]
    made = About(found["name"], found["edition"], "cm3" if units == "cm3" else "in3")
    return replace(made, begun=found["begun"], project=read(found))


def rows_json(rows: Sequence[Row]) -> list[list[str | int]]:
    """Rows as lists, in the order of their fields."""
    return [
        [row.position, row.at, row.action, row.box, row.other, row.edition, row.entry, row.check]
        for row in rows
    ]
