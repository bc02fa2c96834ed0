"""One box's worksheet as plain text or Markdown, to be sent from the ladder."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from boxaloud.assistant.dialogue.nlg.sentences import marked, volume
from boxaloud.assistant.reports import number_format
from boxaloud.assistant.reports.body_lines import HEADS as BODY_HEADS
from boxaloud.assistant.reports.body_lines import body_rows
from boxaloud.assistant.reports.box_notes import Note, notes
from boxaloud.assistant.reports.job_facts import project_block, signatures
from boxaloud.assistant.reports.pull_lines import HEADS, pull_lines
from boxaloud.assistant.reports.report_messages import say
from boxaloud.assistant.reports.report_model import NO_PROJECT, BodyReport, BoxReport, Project
from boxaloud.rules import STANDING


def plain_text(box: BoxReport, project: Project = NO_PROJECT) -> Iterator[str]:
    """Lines that read well aloud and in a message: no table, no mark-up."""
    yield say("title.box", box=number_format.capital(box.name))
    for label, words in project_block(project):
        yield f"{label}: {_one_line(words)}"
    yield number_format.verdict_line(box)
    yield ""
    if box.pull is not None:
        yield box.pull.told
        for pulled in pull_lines(box.pull):
            what = number_format.capital(pulled.what)
            yield say("pull.line", **pulled._replace(what=what)._asdict())
    if box.body is not None:
        if not box.body.governs:
            yield box.body.told
        for row in body_rows(box.body):
            yield say("body.line", **row._asdict())
    if box.by_volume:
        yield from _counted(box)
    yield from _notes(box, "{}:", "- {}")
    yield from _signatures(project, str)


def _counted(box: BoxReport) -> Iterator[str]:
    unit = number_format.unit(box)
    for part in box.sheet.volumes:
        yield f"{number_format.capital(part.what)}: {marked(part.volume)} {unit}, {part.section}"
    for line in box.sheet.lines:
        what, counted = number_format.capital(line.what), number_format.allowances(line)
        yield f"{what}: {volume(line.subtotal)} {unit} ({counted}), {line.section}"
    yield f"{number_format.total_name(box)}: {number_format.lines_total(box)} {unit}"


def markdown(box: BoxReport, project: Project = NO_PROJECT) -> Iterator[str]:
    """The same with a table."""
    yield f"## {_escaped(say('title.box', box=number_format.capital(box.name)))}"
    yield ""
    told = list(project_block(project))
    for label, words in told:
        yield f"- {label}: {_escaped(words)}"
    if told:
        yield ""
    yield f"**{number_format.verdict(box)}.** {_escaped(number_format.verdict_line(box))}"
    yield ""
    if box.pull is not None:
        yield _escaped(box.pull.told)
        yield ""
        yield _cells([say(f"table.{name}") for name in HEADS])
        yield "| --- | ---: | --- | --- |"
        yield from (_cells(list(line)) for line in pull_lines(box.pull))
        yield ""
    if box.body is not None:
        yield from _body_table(box.body)
    if box.by_volume:
        yield from _counted_table(box)
    yield from _notes(box, "**{}**\n", "- {}")
    yield from _signatures(project, _escaped)


def _body_table(body: BodyReport) -> Iterator[str]:
    """What a conduit body goes by."""
    if not body.governs:
        yield _escaped(body.told)
        yield ""
    if body.lines:
        yield _cells([say(f"table.{name}") for name in BODY_HEADS])
        yield "| --- | --- | --- |"
        yield from (_cells(list(row)) for row in body_rows(body))
        yield ""


def _counted_table(box: BoxReport) -> Iterator[str]:
    names = ("number", "item", "allowances", "subtotal", "section")
    yield _cells([say(f"table.{name}", unit=number_format.unit(box)) for name in names])
    yield "| ---: | --- | --- | ---: | --- |"
    for number, line in enumerate(box.sheet.lines, 1):
        what, size = number_format.capital(line.what), number_format.allowances(line)
        yield _cells([str(number), what, size, volume(line.subtotal), line.section])
    yield _cells(["", number_format.total_name(box), "", number_format.lines_total(box), ""])
    for part in box.sheet.volumes:
        name = f"{say('table.capacity')}: {part.what}"
        yield _cells(["", name, "", marked(part.volume), part.section])


def _notes(box: BoxReport, head: str, item: str) -> Iterator[str]:
    """The notes, without what the worksheet lists already, and the cautions last."""
    found = {note.kind: note for note in notes(box) if note.kind != "contents"}
    standing = tuple(caution.says for caution in STANDING)
    found["cautions"] = Note("cautions", say("part.cautions"), (*box.cautions, *standing))
    for note in found.values():
        yield ""
        yield head.format(note.title)
        for told in note.items:
            yield item.format(told if head.endswith(":") else _escaped(told))


def _signatures(project: Project, shown: Callable[[str], str]) -> Iterator[str]:
    """Lines to sign on, under the worksheet of a project that was told."""
    if project != NO_PROJECT:
        for by in signatures():
            yield ""
            yield shown(say("signature.line", by=by))


def _cells(cells: list[str]) -> str:
    return "| " + " | ".join(_escaped(cell) for cell in cells) + " |"


def _one_line(words: str) -> str:
    return " ".join(words.split())


def _escaped(words: str) -> str:
    """Words that Markdown would take for mark-up, shown as they are."""
    out = _one_line(words)
    for sign in ("\\", "`", "*", "_", "|", "<", "[", "#"):
        out = out.replace(sign, "\\" + sign)
    return out
