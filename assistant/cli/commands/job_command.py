"""`boxaloud job …` and `boxaloud demo`: each a function that does it and gives the exit status."""

from __future__ import annotations

from collections import Counter
from pathlib import Path

from boxaloud.assistant.cli.exit_codes import FITS, INCOMPLETE, complain
from boxaloud.assistant.cli.output import put, shown_in
from boxaloud.assistant.dialogue.box_dialogue import Talk
from boxaloud.assistant.dialogue.nlg.sentences import in_unit, marked, volume
from boxaloud.assistant.reports.box_figures import figures
from boxaloud.assistant.reports.number_format import amount
from boxaloud.assistant.storage import backup, box_removal, demo_job, job_check, repository
from boxaloud.assistant.storage.data_folders import data_folder, jobs_folder, removed_folder
from boxaloud.assistant.storage.session import Session
from boxaloud.assistant.storage.sqlite.folder_scan import entries, place_of
from boxaloud.assistant.storage.sqlite.job_summary import Summary, summary
from boxaloud.assistant.storage.storage_messages import how_many, say
from boxaloud.assistant.text.output_file import output
from boxaloud.assistant.text.problem import Problem
from boxaloud.rules import edition_named


def start(name: str, edition: str, units: str) -> int:
    """Start a job."""
    session = Session.start(name, edition, shown_in(units))
    if not session.kept:
        raise Problem(session.resume().said)
    put(say("job.begun", job=session.name, edition=session.about.edition))
    session.close()
    return 0


def listed() -> int:
    """One line a job, the one last spoken to first; then what can be restored, and what is none."""
    known, odd = entries(jobs_folder())
    if not known:
        put(say("job.nothing"))
    for path in known:
        try:
            put(_line(summary(path) or _opened(place_of(path))))
        except Problem as problem:
            complain(str(problem))
    for each in odd:
        complain(str(each))
    removed = [place.name for place in repository.places(removed_folder())]
    if removed:
        put(say("job.list_removed", names=", ".join(removed)))
    return 0


def _opened(place: repository.Place) -> Summary:
    """How a job stands that has to be opened to be known; tells what there is to tell of it."""
    session = Session.open_at(place)
    for note in session.take_notes():
        complain(note)
    found = _summed(session)
    session.close()
    return found


def _summed(session: Session) -> Summary:
    names = session.conversation.boxes.names
    counts = Counter(session.conversation.boxes.verdict(name) for name in names)
    return Summary(
        session.name,
        session.about.edition,
        len(names),
        counts["fits"],
        counts["over"],
        counts["incomplete"],
    )


def _line(found: Summary) -> str:
    return say(
        "job.line",
        name=found.name,
        boxes=how_many(found.boxes, "box"),
        fits=found.fits,
        over=found.over,
        open=found.incomplete,
        edition=found.edition,
    )


def show(name: str) -> int:
    """A job box by box."""
    session = Session.open(name)
    for note in session.take_notes():
        complain(note)
    put(_line(_summed(session)))
    for box in session.conversation.boxes.names:
        put("  " + _box_line(session.conversation.boxes.talk(box)))
    session.close()
    return 0


def _box_line(talk: Talk) -> str:
    found, room = talk.assessment, talk.assessment.sheet.capacity
    figure = figures(found)
    left = figure.margin or figure.over_by
    standing = say(
        f"standing.{found.verdict}",
        total=amount(figure.total),
        described=volume(found.sheet.total),
        capacity="" if room is None else marked(room),
        margin="" if left is None else amount(left),
        unit=in_unit(found.sheet.unit),
        edition=edition_named(found.sheet.edition),
    )
    return say("job.box_line", name=talk.name, standing=standing)


def rename(name: str, new: str) -> int:
    """Give a job another name."""
    place = repository.find(name)
    put(say("job.renamed", old=place.name, new=repository.rename(place, new)))
    return 0


def copy(name: str, new: str) -> int:
    """Copy a job with all its boxes."""
    place = repository.find(name)
    put(say("job.copied", old=place.name, new=repository.copy(place, new)))
    return 0


def remove(name: str, box: str) -> int:
    """Remove a job, or one of its boxes, so that it can be restored."""
    place = repository.find(name)
    if box:
        put(say("job.removed_box", job=place.name, box=box_removal.remove(place, box)))
        return 0
    repository.remove(place)
    put(say("job.removed", name=place.name))
    return 0


def restore(name: str, box: str) -> int:
    """Bring back a removed job, or a removed box of a job."""
    if box:
        place = repository.find(name)
        put(say("job.restored_box", job=place.name, box=box_removal.restore(place, box)))
        return 0
    put(say("job.restored", name=repository.restore(name)))
    return 0


def check(name: str) -> int:
    """Say of every job, or of one, whether it is sound, and what is lost."""
    well = True
    for finding in job_check.check(name):
        (put if finding.well else complain)(finding.says)
        well = well and finding.well
    put(say("check.all_well" if well else "check.not_well"))
    return FITS if well else INCOMPLETE


def back_up(path: Path) -> int:
    """Put everything that is kept into one archive."""
    if path.suffix.lower() != backup.ENDING:
        raise Problem(say("backup.ending", name=path.name))
    with output(path) as draft:
        found = backup.back_up(draft)
    for each in found.as_they_lie:
        complain(say("backup.as_it_lies", path=each))
    put(say("backup.done", path=path, jobs=how_many(found.jobs, "job"), folder=data_folder()))
    return FITS


def build_demo(name: str) -> int:
    """Build the demonstration job."""
    session = demo_job.build(name)
    put(demo_job.summary(session))
    session.close()
    return 0
