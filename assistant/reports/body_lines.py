"""What is told of a conduit body by 314.16(C), in one way for every form of a report."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from boxaloud.assistant.dialogue.enclosures import body_telling
from boxaloud.assistant.reports.report_messages import say
from boxaloud.assistant.reports.report_model import BodyReport


class BodyRow(NamedTuple):
    """One limit: what it is of, how it comes about, and its section."""

    what: str
    working: str
    section: str


HEADS = ("body_what", "body_working", "section")
"""The names of its columns."""


def body_rows(body: BodyReport) -> Iterator[BodyRow]:
    """Each limit, with the tables that its figures are of."""
    for line in body.lines:
        what = body_telling.what(line, body.said)
        what = what[:1].upper() + what[1:]
        key = "conductors" if line.unit == "conductors" else "area"
        yield BodyRow(what, say(f"body.working.{key}", working=line.working), line.section)
