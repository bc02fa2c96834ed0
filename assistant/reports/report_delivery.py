"""A report that was asked for in a talk: it is written, and the reply tells where.

The file is new, in the folder that the talk was begun in, or where that cannot be written to in
the folder `reports` of the data folder. No file that is there is ever written over.
"""

from __future__ import annotations

import os
import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import asdict, replace
from pathlib import Path
from typing import NamedTuple

from boxaloud.assistant.dialogue import Reply
from boxaloud.assistant.dialogue.nlg.sentences import Told
from boxaloud.assistant.dialogue.reply import SystemAct
from boxaloud.assistant.reports.report_builder import job_report
from boxaloud.assistant.reports.report_messages import say
from boxaloud.assistant.reports.report_model import JobReport, Picture, Project
from boxaloud.assistant.storage.clock import now
from boxaloud.assistant.storage.data_folders import data_folder
from boxaloud.assistant.storage.private_files import private_folder
from boxaloud.assistant.storage.project_details import ProjectDetails
from boxaloud.assistant.storage.session import Session
from boxaloud.assistant.storage.storage_messages import how_many
from boxaloud.assistant.text.problem import Problem
from boxaloud.grammar.acts import SendReport

_USUAL = "pdf"
"""The form where none was asked for: every phone shows it and every printer takes it."""
_LONGEST = 80
_NO_NAME = re.compile(r'[\\/:*?"<>|\x00-\x1f]+')
"""What some system takes in no name of a file."""


class _Done(NamedTuple):
    """What is said of a report that was asked for, and its file: empty where there is none."""

    says: str
    path: str


class Order(NamedTuple):
    """A report that was asked for, made up from the job as it then was and not yet written."""

    act: SendReport
    job: str
    report: JobReport | None
    why: str = ""
    """Why it could not be made up; empty where it was."""


def ordered(reply: Reply, session: Session) -> list[Order]:
    """Each report that a reply asks for. What is written from it needs the job no more."""
    return [_order(act, session) for act in reply.outside if isinstance(act, SendReport)]


def delivered(reply: Reply, session: Session) -> Reply:
    """The reply with each report that it asks for written, or why it could not be."""
    return written_out(reply, ordered(reply, session))


def written_out(
    reply: Reply, orders: Sequence[Order], step: Callable[[], None] = lambda: None
) -> Reply:
    """The reply with the reports written; `step` is called for each box of them."""
    done = [_deliver(order, step) for order in orders]
    if not done:
        return reply
    said = iter(done)
    acts = tuple(_in_place(act, said) for act in reply.acts)
    written = next((one.path for one in reversed(done) if one.path), "")
    return replace(reply.saying(acts), written=written)


def pictures_of(session: Session) -> dict[str, list[Picture]]:
    """The pictures of each box of a job, as a report shows them."""
    return {
        box: [Picture(one.says, one.kind, one.wide, one.high, one.data) for one in found]
        for box, found in session.pictures.items()
    }


def project_of(details: ProjectDetails) -> Project:
    """What was kept of the project, as a report shows it."""
    return Project(**asdict(details))


def _in_place(act: SystemAct, done: Iterator[_Done]) -> SystemAct:
    """What was done, in place of the sentence that a talk by itself has for it."""
    if act.act != "report":
        return act
    one = next(done, None)
    return act if one is None else SystemAct("report", one.says)


def _order(act: SendReport, session: Session) -> Order:
    try:
        return Order(act, session.name, _report(act, session))
    except (Problem, OSError) as fault:
        return Order(act, session.name, None, str(fault))


def _deliver(order: Order, step: Callable[[], None]) -> _Done:
    from boxaloud.assistant.reports.report_export import write

    act, report = order.act, order.report
    if report is None:
        return _Done(say("delivery.failed", why=order.why), "")
    if not report.boxes:
        return _Done(say("delivery.nothing"), "")
    box = report.boxes[0].name if act.of == "box" else ""
    try:
        path = _unused(_folder(), _stem(order.job, box), act.form or _USUAL)
        write(report, path, step)
    except (Problem, OSError) as fault:
        return _Done(say("delivery.failed", why=str(fault)), "")
    return _Done(_told(report, path, box), str(path))


def _report(act: SendReport, session: Session) -> JobReport:
    about, conversation = session.about, session.conversation
    project = project_of(about.project)
    only = session.talk.name if act.of == "box" else ""
    shown = pictures_of(session)
    return job_report(
        conversation, about.name, about.units, about.begun, now(), project, only, shown
    )


def _told(report: JobReport, path: Path, box: str) -> str:
    """Where the file is. Aloud its folder and name are enough."""
    values = {
        "job": report.name,
        "box": box,
        "count": how_many(len(report.boxes), "box"),
        "over": report.count("over"),
        "path": path,
        "name": path.stem,
        "folder": path.parent.name or "/",
    }
    key = "box" if box else "job"
    return Told(say(f"delivery.{key}", **values), say(f"delivery.{key}_aloud", **values))


def _folder() -> Path:
    """Where the talk was begun, or else the data folder's own place for reports."""
    try:
        here = Path.cwd()
        if os.access(here, os.W_OK):
            return here
    except OSError:  # the folder has gone
        pass
    other = data_folder() / "reports"
    private_folder(other)
    return other


def _stem(job: str, box: str) -> str:
    name = say("delivery.worksheet_name" if box else "delivery.report_name", job=job, box=box)
    return _NO_NAME.sub("-", name).strip(" .-")[:_LONGEST].strip() or "report"


def _unused(folder: Path, stem: str, form: str) -> Path:
    number, path = 2, folder / f"{stem}.{form}"
    while path.exists() or path.is_symlink():
        path = folder / f"{stem} {number}.{form}"
        number += 1
    return path
