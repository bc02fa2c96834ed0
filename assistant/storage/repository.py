"""All the jobs there are: finding one, starting, copying, renaming, removing and restoring."""

from __future__ import annotations

import os
import re
from collections.abc import Callable
from pathlib import Path

from boxaloud.assistant.storage import job_names
from boxaloud.assistant.storage.data_folders import SUFFIX, jobs_folder, removed_folder
from boxaloud.assistant.storage.private_files import alone_in, private_folder
from boxaloud.assistant.storage.project_details import ProjectDetails, kept
from boxaloud.assistant.storage.sqlite.about_table import About
from boxaloud.assistant.storage.sqlite.folder_scan import Odd, Place, look
from boxaloud.assistant.storage.sqlite.journal_file import JobFile
from boxaloud.assistant.storage.sqlite.recovery import mended
from boxaloud.assistant.storage.sqlite.storage_errors import Damaged, NotKept, TooNew, told_os
from boxaloud.assistant.storage.storage_messages import say
from boxaloud.assistant.text.problem import Problem


class Taken(Problem):
    """There already is a job of this name."""

    def __init__(self, name: str) -> None:
        super().__init__(say("job.taken", name=name))


def places(folder: Path | None = None) -> tuple[Place, ...]:
    """Every job of a folder, the one last written first."""
    return tuple(look(folder or jobs_folder())[0])


def odd_entries(folder: Path | None = None) -> tuple[Odd, ...]:
    """What has the ending of a job in a folder and cannot be opened as one."""
    return tuple(look(folder or jobs_folder())[1])


def may_be(odd: Odd, name: str) -> bool:
    """Whether an odd entry may have been meant to be the job of this name."""
    return odd.path.stem == job_names.file_stem(name)


def find(name: str, folder: Path | None = None) -> Place:
    """The job meant: by its whole name, else by the only one whose name holds it.

    An empty name means the job last written. Raises Problem where there is none, or several.
    """
    known = places(folder)
    if not job_names.tidy(name):
        if not known:
            raise Problem(say("job.no_jobs"))
        return known[0]
    if by_file := [place for place in known if place.path.name == name]:
        return by_file[0]
    exact = [place for place in known if _is_called(place, name)]
    wanted = job_names.folded(name)
    close = exact or [place for place in known if wanted in job_names.folded(place.name)]
    if len(close) == 1 or (exact and folder is not None):
        return close[0]
    if not close:
        odd = [str(each) for each in odd_entries(folder) if may_be(each, name)]
        key = "job.none" if folder is None else "job.no_removed"
        raise Problem(" ".join([say(key, name=job_names.tidy(name)), *odd]))
    # two of one name are told apart by their files
    told = [place.path.name if exact else place.name for place in close]
    raise Problem(say("job.several", name=job_names.tidy(name), names=", ".join(told[:5])))


def _is_called(place: Place, name: str) -> bool:
    """By its name or, where the file is too damaged to say it, by the name of the file."""
    unnamed = place.name == place.path.stem
    return job_names.same(place.name, name) or (unnamed and job_names.file_stem(name) == place.name)


def is_taken(name: str) -> bool:
    """Whether a job at hand has this name."""
    return any(_is_called(place, name) for place in places())


def unused_name(name: str) -> str:
    """The name, or the name with a number that no job has."""
    return job_names.unused(
        job_names.tidy(name), {job_names.folded(place.name) for place in places()}
    )


def new_name(name: str) -> str:
    """A name as it is kept. Raises Problem where there is none, or too much of one."""
    tidy = job_names.tidy(name)
    if not tidy:
        raise Problem(say("job.nameless"))
    if len(tidy) > job_names.MOST_LETTERS:
        raise Problem(say("job.too_long", most=job_names.MOST_LETTERS))
    return tidy


def open_file(place: Place) -> tuple[JobFile, str]:
    """Open a job. A damaged file is set aside, and what can be read is carried over.

    Gives the file and, where it was damaged, a sentence about it. Raises TooNew or NotKept.
    """
    try:
        file = JobFile.open(place.path)
        file.rows()
        return file, ""
    except Damaged:
        return mended(place.path, place.name)


def start(about: About) -> JobFile:
    """A new job. Raises Problem for a name that is taken or empty, NotKept where there is
    no place to keep it."""
    name = new_name(about.name)
    with alone_in(jobs_folder()):
        if is_taken(name):
            raise Taken(name)
        return _create(job_names.file_stem(name), lambda path: JobFile.create(path, about))


def _create(stem: str, make: Callable[[Path], JobFile]) -> JobFile:
    """Make a file under the stem, or under the stem with the first free number."""
    number = 1
    while True:
        numbered = stem if number == 1 else f"{stem}-{number}"
        try:
            return make(jobs_folder() / f"{numbered}{SUFFIX}")
        except FileExistsError:
            number += 1


def path_for(name: str) -> Path:
    """Where a job of this name would be kept."""
    return jobs_folder() / f"{job_names.file_stem(name)}{SUFFIX}"


def rename(place: Place, name: str) -> str:
    """Give a job another name; gives the name as kept. Its file stays where it is."""
    new = new_name(name)
    with alone_in(jobs_folder()):
        if is_taken(new) and not job_names.same(place.name, new):
            raise Taken(new)
        _call(place, new)
    return new


def describe(place: Place, project: ProjectDetails) -> None:
    """Keep what a job's report says of the project, in place of what was told before."""
    file, _ = open_file(place)
    try:
        file.tell(kept(project))
    finally:
        file.close()


def project_of(place: Place) -> ProjectDetails:
    """What was told of a job's project."""
    file, _ = open_file(place)
    file.close()
    return file.about.project


def _call(place: Place, name: str) -> None:
    file, _ = open_file(place)
    file.tell({"name": name})
    file.close()


def copy(place: Place, name: str) -> str:
    """Copy a job with all its boxes; gives the copy's name."""
    file, _ = open_file(place)
    with alone_in(jobs_folder()):
        new = new_name(name) if name.strip() else unused_name(place.name)
        if is_taken(new):
            raise Taken(new)

        def make(path: Path) -> JobFile:
            file.copy_to(path, {"name": new, **kept(file.about.project.for_a_copy())})
            return JobFile.open(path)

        _create(job_names.file_stem(new), make).close()
    file.close()
    return new


def remove(place: Place) -> None:
    """Take a job off the shelf. It is not deleted: `restore` brings it back."""
    file, _ = open_file(place)
    settled = file.settle()
    file.close()
    if not settled:
        raise Problem(say("job.open_elsewhere", job=place.name))
    _move(file.path, removed_folder())


def restore(name: str) -> str:
    """Bring a removed job back, the one removed last where several had the name."""
    place = find(name, removed_folder())
    with alone_in(jobs_folder()):
        path = _move(place.path, jobs_folder())
        new = place.name
        if sum(job_names.same(known.name, new) for known in places()) > 1:
            new = unused_name(new)
            _call(Place(place.name, path, 0), new)
    return new


def _move(path: Path, folder: Path) -> Path:
    try:
        private_folder(folder)
        number, stem = 2, re.sub(r"-\d+$", "", path.stem)
        target = folder / path.name
        while target.exists():
            target = folder / f"{stem}-{number}{path.suffix}"
            number += 1
        os.rename(path, target)
        os.utime(target)
    except OSError as fault:
        raise told_os(fault, path) from None
    return target


__all__ = [
    "NotKept", "Odd", "Place", "Taken", "TooNew", "copy", "describe", "find", "is_taken", "look",
    "may_be", "new_name", "odd_entries", "open_file", "path_for", "places", "project_of", "remove",
    "rename", "restore", "start", "unused_name",
]  # fmt: skip
