"""What is said of a job at the head of its report, in one way for every form of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import asdict
from typing import NamedTuple

from boxaloud.assistant.reports import number_format
from boxaloud.assistant.reports.report_messages import say, words
from boxaloud.assistant.reports.report_model import JobReport, Project
from boxaloud.rules import is_canadian


def facts(report: JobReport) -> tuple[str, ...]:
    """Editions, units and dates, each in a sentence."""
    dates = (("begun", report.begun), ("written", report.written))
    return (
        say("fact.editions", editions=number_format.codes(report)),
        say("fact.units_cm3" if report.units == "cm3" else "fact.units"),
        *(say("fact.units_ml") for _ in filter(is_canadian, report.editions)),
        *(say(f"fact.{key}", date=date[:10]) for key, date in dates if date),
    )


class Told(NamedTuple):
    """Something told of the project: what it is, and the words."""

    label: str
    words: str


def project_block(project: Project) -> Iterator[Told]:
    """What was told of the project, in the order in which a report shows it."""
    for name, value in asdict(project).items():
        if value:
            yield Told(say(f"project.{name}"), value)


def signatures() -> tuple[str, ...]:
    """Who signs, each on a line of their own; nobody signs by having a report written."""
    return tuple(words()["signature"]["by"])
