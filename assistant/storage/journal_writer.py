"""Keeping a job through trouble: what cannot be written is held and tried again.

A `Keeper` holds every row of the job in memory, in order. `kept` says how far the file has
them. Whatever goes wrong with the file, `keep` takes the rows, and `trouble` says in a clause
why they are not on the disk; `notes` are sentences to be told once.
"""

from __future__ import annotations

import contextlib
from collections.abc import Mapping, Sequence
from dataclasses import replace
from pathlib import Path

from boxaloud.assistant.storage import project_details
from boxaloud.assistant.storage.rules_fingerprint import works
from boxaloud.assistant.storage.sqlite.about_table import About
from boxaloud.assistant.storage.sqlite.journal_file import JobFile
from boxaloud.assistant.storage.sqlite.journal_rows import START, Mark, Row, follow, renumbered
from boxaloud.assistant.storage.sqlite.recovery import fresh_path, renewed
from boxaloud.assistant.storage.sqlite.remembered_verdicts import Standing
from boxaloud.assistant.storage.sqlite.salvage import readable_rows
from boxaloud.assistant.storage.sqlite.storage_errors import (
    Damaged,
    Moved,
    NotKept,
    Replaced,
    told_os,
)
from boxaloud.assistant.storage.storage_messages import say


class Keeper:
    """The rows of one job, and the file they are kept in."""

    def __init__(self, path: Path, about: About, file: JobFile | None, trouble: str = "") -> None:
        self.path = path
        self.about = about
        self.file = file
        self.trouble = trouble
        self.notes: list[str] = []
        self.rows: list[Row] = file.rows() if file else []
        self.kept: Mark = self.end

    @property
    def end(self) -> Mark:
        """The place after the last row held, kept or not."""
        return self.rows[-1].mark if self.rows else START

    @property
    def _waiting(self) -> list[Row]:
        return self.rows[self.kept.position :]

    def catch_up(self) -> bool:
        """Take in what other front ends wrote, and write what waits. True where there was news.

        Trouble is remembered, not raised. Rows of ours that waited come after theirs.
        """
        try:
            return self._catch_up()
        except NotKept as trouble:
            self._in_trouble(trouble)
        except Damaged:
            return self._renew()
        except Replaced:
            self._part()
        return False

    def keep(self, rows: Sequence[Row], standing: Standing | None) -> None:
        """Hold rows that come after `end` and, unless there is trouble, write them.

        Call `catch_up` first. Raises Moved, with the rows not held, where the rows were said
        to a job that has changed meanwhile: catch up, fold again, and hear the words again.
        """
        if list(follow(rows, self.end)) != list(rows):
            raise ValueError("these rows do not come after the last one")
        if not self.trouble:
            try:
                self._write(rows, standing)
                self.kept = rows[-1].mark if rows else self.kept
            except NotKept as trouble:
                self._in_trouble(trouble)
            except (Damaged, Replaced):
                raise Moved from None
        self.rows += rows

    def remembered(self) -> dict[str, tuple[int, str]]:
        """The verdicts remembered in the file; none where it cannot be asked."""
        if self.file is not None:
            with contextlib.suppress(NotKept, Damaged):
                return self.file.verdicts(works())
        return {}

    def remembered_before(self) -> dict[str, tuple[int, str]]:
        """The verdicts remembered under other rules; none where the file cannot be asked."""
        if self.file is not None:
            with contextlib.suppress(NotKept, Damaged):
                return self.file.verdicts(works(), other=True)
        return {}

    def remember(self, standing: Standing, last: Mapping[str, int]) -> None:
        """Remember verdicts at the last row of each box. A memory only: trouble is no matter."""
        if self.file is not None:
            with contextlib.suppress(NotKept, Damaged):
                self.file.remember(standing, last)

    def describe(self, project: Mapping[str, str]) -> None:
        """Keep what is told of the project, as keys and values of the file; in memory where there
        is none. Raises NotKept."""
        if self.file is not None:
            self.file.tell(project)
            self.about = self.file.about
            return
        known = project_details.kept(self.about.project)
        self.about = replace(self.about, project=project_details.read({**known, **project}))

    def close(self) -> None:
        """Try once more to write what waits, let go of the file, and see that it is whole."""
        if self._waiting:
            self.catch_up()
        if self.file is None:
            return
        self.file.close()
        self.file = None
        with contextlib.suppress(NotKept):
            try:
                JobFile.open(self.path).close()
            except Damaged:
                self._renew()
                if self.file is not None:
                    self.file.close()
                    self.file = None

    def _catch_up(self) -> bool:
        file = self._found_again() if self.file is None or self.trouble else self.file
        news = file.rows(self.kept) if file.mark() != self.kept else []
        if news:
            self._take_in(news)
        if self._waiting:
            self._write(self._waiting, None)
            self.kept = self.end
        self._out_of_trouble()
        return bool(news)

    def _take_in(self, news: list[Row]) -> None:
        """Put rows found in the file before ours that wait; one that is there already, once."""
        waiting = [row for row in self._waiting if row not in news]
        self.rows[self.kept.position :] = news
        self.kept = news[-1].mark
        self.rows += renumbered(waiting, self.kept)

    def _write(self, rows: Sequence[Row], standing: Standing | None) -> None:
        if not rows:
            return
        if self.file is None:
            raise NotKept(say("trouble.gone", path=self.path.parent))
        self.file.append(rows, self.kept, standing)

    def _found_again(self) -> JobFile:
        """Look for the file again; where it is gone from a folder that is there, begin anew."""
        if self.file is not None:
            self.file.close()
            self.file = None
        if self.path.exists():
            self.file = JobFile.open(self.path)
            return self.file
        if self.rows and not self.path.parent.is_dir():
            raise NotKept(say("trouble.gone", path=self.path.parent))
        if self.kept != START:
            self.path = fresh_path(self.path)
            self.notes.append(say("keeping.rewritten", job=self.about.name))
        self.file = self._new(self.path)
        return self.file

    def _new(self, path: Path) -> JobFile:
        try:
            file = JobFile.create(path, self.about)
        except FileExistsError:
            raise NotKept(say("trouble.busy", path=path)) from None
        self.kept = START
        return file

    def _renew(self) -> bool:
        """The file is damaged: set it aside, and write the whole job from memory, with what
        another front end wrote to it as far as that can be read. True where there was such."""
        if self.file is not None:
            self.file.close()
            self.file = None
        try:
            news = list(follow(readable_rows(self.path)[self.kept.position :], self.kept))
            if news:
                self._take_in(news)
            self.file, aside = renewed(self.path, self.about, self.rows)
        except NotKept as trouble:
            self._in_trouble(trouble)
            return False
        except OSError as fault:
            self._in_trouble(told_os(fault, self.path))
            return False
        self.path, self.kept, self.trouble = self.file.path, self.end, ""
        self.notes.append(say("keeping.damaged_now", job=self.about.name, path=aside))
        return bool(news)

    def _part(self) -> None:
        """Another history is in the file's place: leave it, keep ours beside it."""
        path = fresh_path(self.path)
        if self.file is not None:
            self.file.close()
            self.file = None
        try:
            self.file = self._new(path)
            self._write(self.rows, None)
        except NotKept as trouble:
            self._in_trouble(trouble)
            return
        self.path, self.kept, self.trouble = path, self.end, ""
        self.notes.append(say("keeping.replaced", job=self.about.name, path=path))

    def _in_trouble(self, trouble: NotKept) -> None:
        if not self.trouble:
            self.notes.append(say("keeping.stopped", trouble=trouble.clause, job=self.about.name))
        self.trouble = trouble.clause

    def _out_of_trouble(self) -> None:
        if self.trouble:
            self.notes.append(say("keeping.again", job=self.about.name))
        self.trouble = ""
