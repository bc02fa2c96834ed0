"""Boxes of a kept job, removed and brought back from outside the talk."""

from __future__ import annotations

from collections.abc import Callable

from boxaloud.assistant.dialogue import Record
from boxaloud.assistant.storage import job_names, repository
from boxaloud.assistant.storage.clock import now
from boxaloud.assistant.storage.journal_writer import Keeper
from boxaloud.assistant.storage.replay import Job, replay
from boxaloud.assistant.storage.sqlite.journal_rows import rows_of
from boxaloud.assistant.storage.sqlite.storage_errors import Moved, NotKept
from boxaloud.assistant.storage.storage_messages import say
from boxaloud.assistant.text.problem import Problem

TRIES = 50


def remove(place: repository.Place, box: str) -> str:
    """Take a box out of a job; gives its whole name. `restore` brings it back."""

    def record(job: Job) -> Record:
        name = find(job, place.name, box)
        if len(job.texts) == 1:
            raise Problem(say("job.last_box", name=name, job=place.name))
        return Record("removed", name)

    return _add(place, record)


def restore(place: repository.Place, box: str) -> str:
    """Bring a removed box back, with all that was said of it; gives its whole name."""

    def record(job: Job) -> Record:
        found = [name for name in job.removed if job_names.same(name, box)]
        if not found:
            raise Problem(say("job.no_removed_box", name=box, job=place.name))
        if found[0] in job.texts:
            raise Problem(say("job.box_taken", name=found[0], job=place.name))
        return Record("restored", found[0])

    return _add(place, record)


def find(job: Job, job_name: str, box: str) -> str:
    """The box meant: by its whole name, else by the only one whose name holds it.

    An empty name means the box at hand. Raises Problem where there is none, or several.
    """
    wanted = job_names.tidy(box).casefold()
    if not wanted and job.current in job.texts:
        return job.current
    if wanted in job.texts:
        return wanted
    close = [name for name in job.texts if wanted and wanted in name.casefold()]
    if not close:
        raise Problem(say("job.no_box", job=job_name, name=box or job.current))
    if len(close) > 1:
        raise Problem(say("job.several", name=box, names=", ".join(close[:5])))
    return close[0]


def _add(place: repository.Place, record: Callable[[Job], Record]) -> str:
    """Add one record to a job; gives the box it is about."""
    file, _ = repository.open_file(place)
    keeper = Keeper(file.path, file.about, file)
    for _ in range(TRIES):
        found = record(replay(keeper.rows))
        try:
            keeper.keep(rows_of((found,), keeper.end, now()), None)
            break
        except Moved:
            keeper.catch_up()
    if keeper.trouble:
        raise NotKept(keeper.trouble)
    keeper.close()
    return found.box
