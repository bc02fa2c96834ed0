"""What is said of a job at the head of its report, in one way for every form of it."""

from __future__ import annotations

from boxaloud.assistant.reports.report_messages import say
from boxaloud.assistant.reports.report_model import JobReport


def facts(report: JobReport) -> tuple[str, ...]:
    """Editions, units and dates, each in a sentence."""
    dates = (("begun", report.begun), ("written", report.written))
    return (
        say("fact.editions", editions=", ".join(report.editions) or say("fact.no_edition")),
        say("fact.units_cm3" if report.units == "cm3" else "fact.units"),
        *(say(f"fact.{key}", date=date[:10]) for key, date in dates if date),
    )
