"""All the jobs there are: finding one, starting, copying, renaming, removing and restoring."""

from __future__ import annotations

import os
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

from boxaloud.assistant.storage import job_names
from boxaloud.assistant.storage.data_folders import SUFFIX, jobs_folder, removed_folder
from boxaloud.assistant.storage.project_details import ProjectDetails, kept
from boxaloud.assistant.storage.sqlite.journal_file import About, JobFile, log_of
from boxaloud.assistant.storage.sqlite.recovery import readable_about, readable_rows, renewed
from boxaloud.assistant.storage.sqlite.storage_errors import Damaged, NotKept, TooNew, told_os
from boxaloud.assistant.storage.storage_messages import say
from boxaloud.assistant.text.problem import Problem


@dataclass(frozen=True, slots=True)
class Place:
    """A job on the shelf: its name, where its file is, when it was last written."""

    name: str
    path: Path
    written: float


def places(folder: Path | None = None) -> tuple[Place, ...]:
    """Every job of a folder, the one last written first. Files of no known form are left out."""
    return tuple(sorted(_look(folder or jobs_folder()), key=lambda place: -place.written))


def _look(folder: Path) -> Iterator[Place]:
    if not folder.is_dir():
        return
    for path in sorted(folder.glob(f"*{SUFFIX}")):
        about = readable_about(path)
        yield Place(about.name if about else path.stem, path, _written(path))


def _written(path: Path) -> float:
    """When a job was last written: its file, or the log beside it."""
    log = log_of(path)
    times = [each.stat().st_mtime for each in (path, log) if each.exists()]
    return max(times, default=0.0)


def find(name: str, folder: Path | None = None) -> Place:
    """The job meant: by its whole name, else by the only one whose name holds it.

    An empty name means the job last written. Raises Problem where there is none, or several.
    """
    known = places(folder)
    if not job_names.tidy(name):
        if not known:
            raise Problem(say("job.no_jobs"))
        return known[0]
    exact = [place for place in known if _is_called(place, name)]
    wanted = job_names.tidy(name).casefold()
    close = exact or [place for place in known if wanted in place.name.casefold()]
    if len(close) == 1 or exact:
        return close[0]
    if not close:
        key = "job.none" if folder is None else "job.no_removed"
        raise Problem(say(key, name=job_names.tidy(name)))
    raise Problem(
        say("job.several", name=job_names.tidy(name), names=", ".join(p.name for p in close[:5]))
    )


def _is_called(place: Place, name: str) -> bool:
    """By its name or, where the file is too damaged to say it, by the name of the file."""
    unnamed = place.name == place.path.stem
    return job_names.same(place.name, name) or (unnamed and job_names.file_stem(name) == place.name)


def is_taken(name: str) -> bool:
    """Whether a job at hand has this name."""
    return any(_is_called(place, name) for place in places())


def unused_name(name: str) -> str:
    """The name, or the name with a number that no job has."""
    return job_names.unused(job_names.tidy(name), {place.name.casefold() for place in places()})


def open_file(place: Place) -> tuple[JobFile, str]:
    """Open a job. A damaged file is set aside, and what can be read is carried over.

    Gives the file and, where it was damaged, a sentence about it. Raises TooNew or NotKept.
    """
    try:
        file = JobFile.open(place.path)
        file.rows()
        return file, ""
    except Damaged:
        about = readable_about(place.path) or About(place.name, "2023")
        rows = readable_rows(place.path)
        file, aside = renewed(place.path, about, rows)
        said = say("keeping.damaged", job=about.name, path=aside, count=len(rows))
        return file, said


def start(about: About) -> JobFile:
    """A new job. Raises Problem for a name that is taken or empty, NotKept where there is
    no place to keep it."""
    name = job_names.tidy(about.name)
    if not name:
        raise Problem(say("job.nameless"))
    if is_taken(name):
        raise Problem(say("job.taken", name=name))
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
    new = job_names.tidy(name)
    if not new:
        raise Problem(say("job.nameless"))
    if is_taken(new) and not job_names.same(place.name, new):
        raise Problem(say("job.taken", name=new))
    file, _ = open_file(place)
    file.tell({"name": new})
    file.close()
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


def copy(place: Place, name: str) -> str:
    """Copy a job with all its boxes; gives the copy's name."""
    new = job_names.tidy(name) or unused_name(place.name)
    if is_taken(new):
        raise Problem(say("job.taken", name=new))
    file, _ = open_file(place)

    def make(path: Path) -> JobFile:
        file.copy_to(path, new)
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
    path = _move(place.path, jobs_folder())
    new = place.name
    if sum(job_names.same(known.name, new) for known in places()) > 1:
        new = unused_name(new)
        rename(Place(place.name, path, 0), new)
    return new


def _move(path: Path, folder: Path) -> Path:
    try:
        folder.mkdir(parents=True, exist_ok=True)
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
    "NotKept", "Place", "TooNew", "copy", "describe", "find", "is_taken", "open_file", "path_for",
    "places", "project_of", "remove", "rename", "restore", "start", "unused_name",
]  # fmt: skip
