"""`boxaloud report` and `boxaloud share`."""

from __future__ import annotations

from pathlib import Path

from boxaloud.assistant.cli.exit_codes import FITS, complain
from boxaloud.assistant.cli.output import put
from boxaloud.assistant.reports.report_builder import box_report, job_report
from boxaloud.assistant.reports.report_delivery import pictures_of, project_of
from boxaloud.assistant.reports.report_export import check_form, write
from boxaloud.assistant.reports.text_renderer import markdown, plain_text
from boxaloud.assistant.storage import Session
from boxaloud.assistant.storage.box_removal import find
from boxaloud.assistant.storage.clock import now
from boxaloud.assistant.text.progress import progress


def report(name: str, path: Path) -> int:
    """Write the report of a job."""
    check_form(path)
    session = Session.open(name)
    for note in session.take_notes():
        complain(note)
    about = session.about
    project = project_of(about.project)
    talk = session.conversation
    with progress(path.name, 2 * len(talk.boxes.names)) as bar:
        found = job_report(
            talk, about.name, about.units, about.begun, now(), project,
            pictures=pictures_of(session), step=bar.step,
        )  # fmt: skip
        session.close()
        write(found, path, bar.step)
    put(f"{path}: {len(found.boxes)} boxes of job {about.name}, {found.count('over')} over.")
    return FITS


def share(name: str, box: str, as_markdown: bool) -> int:
    """Print the worksheet of one box, the one at hand where none is named."""
    session = Session.open(name)
    for note in session.take_notes():
        complain(note)
    talk = session.conversation.boxes.talk(find(session.job, session.name, box))
    project = project_of(session.about.project)
    session.close()
    for line in (markdown if as_markdown else plain_text)(box_report(talk), project):
        put(line)
    return FITS
