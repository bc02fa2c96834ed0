"""A worksheet line opened: how it was counted, its section, the reasoning and the source."""

from __future__ import annotations

from collections.abc import Iterator

from boxaloud.assistant.dialogue.nlg.sentences import marked, plain, volume
from boxaloud.assistant.tui.tui_messages import text
from boxaloud.rules import RuleNote, explain, is_canadian
from boxaloud.rules.worksheet import Line, VolumeLine


def explained(line: Line | VolumeLine, edition: str) -> list[str]:
    """The paragraphs for one line."""
    unit = "mL" if is_canadian(edition) else "in³"
    counted = _capacity(line, unit) if isinstance(line, VolumeLine) else _count(line, unit)
    return [counted, "", *_reasons(explain(line.rule), edition)]


def _count(line: Line, unit: str) -> str:
    if not line.allowances:
        return text("explain.zero", unit=unit)
    if line.awg is None:
        return text("explain.itself", subtotal=volume(line.subtotal), unit=unit)
    return text(
        "explain.count",
        allowances=plain(line.allowances),
        noun="allowance" if line.allowances == 1 else "allowances",
        each=volume(line.each),
        awg=line.awg,
        subtotal=volume(line.subtotal),
        unit=unit,
    )


def _capacity(line: VolumeLine, unit: str) -> str:
    return text("explain.capacity", volume=marked(line.volume), unit=unit)


def _reasons(note: RuleNote, edition: str) -> Iterator[str]:
    first, last = note.editions
    yield text("explain.section", section=note.section, first=first, last=last)
    yield text("explain.edition", edition=edition)
    yield ""
    yield text("explain.reason", says=note.says)
    if note.from_memory or note.mark == "from memory":
        yield text("explain.memory", text=note.from_memory or note.says)
    yield ""
    for source in note.sources:
        yield text("explain.source", source=source)
        if source.url:
            yield text("explain.url", url=source.url)
    yield text("explain.mark", mark=note.mark)
