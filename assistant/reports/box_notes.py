"""What stands under a box's worksheet, in one way for every form of a report."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from boxaloud.assistant.dialogue.nlg.sentences import in_unit, volume
from boxaloud.assistant.reports.number_format import capital
from boxaloud.assistant.reports.report_messages import say
from boxaloud.assistant.reports.report_model import BoxReport, Change


class Note(NamedTuple):
    """Some sentences of one kind: its name in the sentence file, its title, the sentences."""

    kind: str
    title: str
    items: tuple[str, ...]


def notes(box: BoxReport) -> Iterator[Note]:
    """The notes that there are."""
    every = (
        ("advice", _advice(box)),
        ("contents", map(capital, box.contents)),
        ("said", map(_quoted, box.said)),
        ("assumed", map(capital, box.assumed)),
        ("open", map(capital, box.open)),
        ("unused", map(_quoted, box.unused)),
        ("cautions", box.cautions),
    )
    for kind, found in every:
        items = tuple(found)
        if items:
            yield Note(kind, say(f"part.{kind}"), items)


def _advice(box: BoxReport) -> tuple[str, ...]:
    """What to do about a box that is over, or that nothing by itself would be enough."""
    if box.verdict != "over":
        return ()
    if box.body is not None and box.body.governs:
        return (box.body.remedy,)
    if not box.by_volume or box.small_alone:
        return ()
    return tuple(map(_change, box.advice)) or (say("part.no_advice"),)


def _change(change: Change) -> str:
    """One change in words, with what it leaves."""
    key = "enough" if change.enough else "not_enough"
    return say(
        f"part.{key}",
        what=change.what,
        margin=volume(abs(change.margin)),
        unit=in_unit(change.unit),
        section=change.section,
    )


def _quoted(words: str) -> str:
    return f"“{words}”"
