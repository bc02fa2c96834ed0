"""What is told of a pull box by 314.28(A), in one way for every form of a report. Inches."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import NamedTuple

from boxaloud.assistant.reports.report_messages import say
from boxaloud.assistant.reports.report_model import PullReport
from boxaloud.rules import PullSheet
from boxaloud.rules.pull import shown


class PullLine(NamedTuple):
    """One least distance: of what, inches as the trade writes them, its working and section."""

    what: str
    inches: str
    working: str
    section: str


HEADS = ("pull_what", "pull_inches", "pull_working", "section")
"""The names of its columns."""


def pull_lines(pull: PullReport) -> Iterator[PullLine]:
    """Each least distance; one that electricians dispute says so beside its section."""
    for line in pull.lines:
        section = say("pull.disputed", section=line.section) if line.disputed else line.section
        yield PullLine(line.what, shown(line.inches), line.working, section)


def pull_sides(sheet: PullSheet) -> str:
    """The sides that are set, in words."""
    return ", ".join(
        say(f"pull.side.{axis}", inches=shown(side))
        for axis, side in _sides(sheet).items()
        if side is not None
    )


def pull_verdict(pull: PullReport, under: str) -> str:
    """The least sides, or the box at hand held against them, side by side with its section."""
    under = under.replace("314.16", "314.28(A)", 1)
    if not (pull.enough or pull.too_small):
        return say("verdict_line.pull_box", sides=pull_sides(pull.sheet), under=under)
    held = [
        say("pull.held", axis=one.axis, have=shown(one.have), least=shown(one.least),
            section=one.section)
        for one in pull.compared
    ]  # fmt: skip
    key = "pull_enough" if pull.enough else "pull_small"
    return say(f"verdict_line.{key}", held="; ".join(held), under=under)


def pull_caption(pull: PullReport) -> str:
    """What the drawing shows, and which of its sides is nothing but drawn."""
    sheet = pull.sheet
    told = [say("pull.caption", sides=pull_sides(sheet))]
    told += [
        say("pull.caption_unset", axis=axis)
        for axis, side in _sides(sheet).items()
        if side is None and axis != "depth"
    ]
    return " ".join(told)


def _sides(sheet: PullSheet) -> dict[str, Fraction | None]:
    return {"width": sheet.width, "height": sheet.height, "depth": sheet.depth}
