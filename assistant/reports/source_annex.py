"""What the lines of a report rest on: rules by section, and an annex of where each was read."""

from __future__ import annotations

from boxaloud.assistant.reports.report_messages import say, words
from boxaloud.assistant.reports.report_model import JobReport, References, RuleUse, SourceUse
from boxaloud.rules import Source, explain


def references(report: JobReport) -> References:
    """Every rule that a line of the report rests on, by section, and every source of these.

    Sources are numbered by their kind, what weighs most first.
    """
    names = {line.rule for box in report.boxes for line in box.sheet.lines}
    names |= {line.rule for box in report.boxes for line in box.sheet.volumes}
    names |= {line.rule for box in report.boxes if box.pull for line in box.pull.lines}
    names |= {line.rule for box in report.boxes if box.body for line in box.body.lines}
    names |= {rule for box in report.boxes for of in (box.pull, box.body) if of for rule in of.also}
    notes = sorted(map(explain, names - {""}), key=lambda note: (note.section, note.rule))
    order = list(words()["source_kind"])
    found = {source for note in notes for source in note.sources}
    ranked = sorted(found, key=lambda s: (order.index(_key(s)), s.publisher, s.title))
    number = {source: place for place, source in enumerate(ranked, 1)}
    sections = {
        source: tuple(dict.fromkeys(note.section for note in notes if source in note.sources))
        for source in ranked
    }
    return References(
        tuple(
            RuleUse(note.section, note, tuple(sorted(number[s] for s in note.sources)))
            for note in notes
        ),
        tuple(SourceUse(number[source], source, sections[source]) for source in ranked),
    )


def source_kind(source: Source) -> str:
    """What may be thought of a source, in words."""
    return say(f"source_kind.{_key(source)}")


def _key(source: Source) -> str:
    return source.kind.replace(" ", "_")
