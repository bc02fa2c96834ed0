"""A job's report as one HTML page that stands by itself: no network, no script.

The page is the templates in `data/templates`; what is said in it is escaped by them, all of it.
"""

from __future__ import annotations

import os
from base64 import b64encode
from collections.abc import Iterator
from dataclasses import replace
from functools import lru_cache
from types import SimpleNamespace
from typing import TYPE_CHECKING

from boxaloud.assistant.dialogue.nlg.sentences import marked, volume
from boxaloud.assistant.reports import number_format
from boxaloud.assistant.reports.bar_layout import gauge
from boxaloud.assistant.reports.body_lines import body_rows
from boxaloud.assistant.reports.box_notes import notes
from boxaloud.assistant.reports.job_facts import facts, project_block, signatures
from boxaloud.assistant.reports.margin_chart import WIDTH, margin_chart
from boxaloud.assistant.reports.pull_drawing import plan
from boxaloud.assistant.reports.pull_lines import pull_caption, pull_lines
from boxaloud.assistant.reports.report_messages import say, words
from boxaloud.assistant.reports.report_model import BoxReport, JobReport, Picture
from boxaloud.assistant.reports.source_annex import references, source_kind
from boxaloud.rules.pull import shown
from boxaloud.rules.units import VolumeUnit
from markupsafe import Markup, escape

if TYPE_CHECKING:
    from jinja2 import Environment, Template


def pieces(report: JobReport) -> Iterator[str]:
    """The page, piece by piece, so that a large job is never held whole."""
    return _page().generate(
        report=report,
        facts=facts(report),
        project=list(project_block(report.project)),
        signatures=signatures(),
        rests_on=references(report),
    )


def article(box: BoxReport, number: int, units: VolumeUnit) -> Markup:
    """One box of the page, as mark-up."""
    made = _article(replace(box, name=_NAME), units)
    name = str(_printable(box.name))
    put = {
        _NAME: escape(name),
        number_format.capital(_NAME): escape(number_format.capital(name)),
        _NUMBER: str(number),
    }
    for sign, instead in put.items():
        made = made.replace(sign, instead)
    return Markup(made)


_NAME, _NUMBER = (f"{sign}{os.urandom(12).hex()}" for sign in "nb")
"""What stands in a box's mark-up for its name and its number: nobody can have said these."""


@lru_cache(maxsize=4096)
def _article(box: BoxReport, units: VolumeUnit) -> str:
    """The mark-up of a box without its name. In a job of thousands many are alike; it is equal
    for boxes that are, since numbers are written by their value."""
    made = _environment().get_template("box.html.jinja")
    return made.render(box=box, number=_NUMBER, units=units).strip()


@lru_cache(maxsize=1)
def _page() -> Template:
    return _environment().get_template("report.html.jinja")


@lru_cache(maxsize=1)
def _environment() -> Environment:
    from jinja2 import Environment, PackageLoader, StrictUndefined

    environment = Environment(
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
        finalize=_printable,
        loader=PackageLoader("boxaloud.assistant.reports", "data/templates"),
    )
    show = SimpleNamespace(
        allowances=number_format.allowances,
        capacity=number_format.capacity,
        capital=number_format.capital,
        counted=number_format.counted,
        each=number_format.each,
        inches=shown,
        margin=number_format.margin,
        marked=marked,
        lines_total=number_format.lines_total,
        picture=_embedded,
        pictured=number_format.pictured,
        body_rows=body_rows,
        pull_caption=pull_caption,
        pull_lines=pull_lines,
        total=number_format.total,
        total_name=number_format.total_name,
        unit=number_format.unit,
        verdict=number_format.verdict,
        verdict_line=number_format.verdict_line,
        source_kind=source_kind,
        volume=volume,
    )
    environment.globals.update(
        say=say,
        show=show,
        gauge=gauge,
        margin_chart=margin_chart,
        drawn_width=WIDTH,
        pull_plan=plan,
        notes=notes,
        column=words()["table"],
        article=article,
    )
    return environment


def _embedded(picture: Picture) -> str:
    """A picture as an address that holds it whole."""
    return f"data:image/{picture.kind};base64,{b64encode(picture.data).decode('ascii')}"


def _printable(value: object) -> object:
    """Words without the characters that no document may hold; a blank of any kind is a blank.

    Mark-up of ours stays as it is.
    """
    if type(value) is not str or value.isprintable():
        return value
    return "".join(_kept(c) for c in value)


def _kept(letter: str) -> str:
    if letter in "\n\t" or letter.isprintable():
        return letter
    return " " if letter.isspace() else ""
