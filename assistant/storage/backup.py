"""All that is kept, in one archive: every job as it stands at this moment, even one that is open.

A job that cannot be opened, and what was set aside, goes in as it lies. The archive has the
layout of the data folder, so that unpacking it there brings everything back.
"""

from __future__ import annotations

import contextlib
import tempfile
import zipfile
from dataclasses import dataclass
from pathlib import Path

from boxaloud.assistant.storage import repository
from boxaloud.assistant.storage.data_folders import data_folder, jobs_folder, removed_folder
from boxaloud.assistant.storage.job_check import set_aside_in
from boxaloud.assistant.storage.sqlite.journal_file import JobFile
from boxaloud.assistant.storage.sqlite.recovery import COMPANIONS
from boxaloud.assistant.storage.sqlite.storage_errors import NotKept
from boxaloud.assistant.text.problem import Problem

ENDING = ".zip"
OWN_WORDS = "own_words.toml"


@dataclass(frozen=True, slots=True)
class BackedUp:
    """How many jobs are in an archive, and the files that went in as they lie."""

    jobs: int
    as_they_lie: tuple[Path, ...]


def back_up(draft: Path) -> BackedUp:
    """Write the archive to a draft, and read it again. Raises OSError where it is not whole."""
    jobs, lying = 0, []
    with zipfile.ZipFile(draft, "w", zipfile.ZIP_DEFLATED) as archive:
        for folder in (jobs_folder(), removed_folder()):
            for place in repository.places(folder):
                if _add_job(archive, place, folder.name):
                    jobs += 1
                else:
                    lying += _add_as_it_lies(archive, place.path, folder.name)
            for path in set_aside_in(folder):
                lying += _add_as_it_lies(archive, path, folder.name)
        own = data_folder() / OWN_WORDS
        if own.is_file():
            archive.write(own, OWN_WORDS)
    with zipfile.ZipFile(draft) as archive:
        if (bad := archive.testzip()) is not None:
            raise OSError(f"{bad} in it is not what was written")
    return BackedUp(jobs, tuple(lying))


def _add_job(archive: zipfile.ZipFile, place: repository.Place, folder: str) -> bool:
    """Add a whole copy of a job. False where it cannot be opened as it is."""
    with tempfile.TemporaryDirectory() as room:
        copied = Path(room) / place.path.name
        try:
            file = JobFile.open(place.path)
            with contextlib.closing(file):
                file.rows()
                file.copy_to(copied, {})
        except (Problem, NotKept):
            return False
        archive.write(copied, f"{folder}/{place.path.name}")
    return True


def _add_as_it_lies(archive: zipfile.ZipFile, path: Path, folder: str) -> list[Path]:
    for each in (path, *(path.with_name(path.name + ending) for ending in COMPANIONS)):
        if each.is_file():
            archive.write(each, f"{folder}/{each.name}")
    return [path]
