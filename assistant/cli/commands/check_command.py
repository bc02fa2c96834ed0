"""`boxaloud check`: one or more statements in, verdict and worksheet out."""

from __future__ import annotations

from collections.abc import Iterator

from boxaloud.assistant.cli import enclosure_text
from boxaloud.assistant.cli.exit_codes import UNUSABLE, complain, exit_status
from boxaloud.assistant.cli.output import one_utterance, put, put_json, shown_in
from boxaloud.assistant.cli.worksheet_text import cautions_line, verdict_line, worksheet_lines
from boxaloud.assistant.dialogue import Reply
from boxaloud.assistant.storage import alias_file
from boxaloud.assistant.storage.memory_session import begin
from boxaloud.rules.units import VolumeUnit

MOST_SHOWN = 200
"""Characters of a statement that are shown before its reply."""


def run(statements: list[str], edition: str, as_json: bool, units: str = "in3") -> int:
    """Hear each statement, show where the box stands, give the exit status."""
    if told := alias_file.trouble():
        complain(told)
    conversation, shown = begin(edition), shown_in(units)
    replies: list[Reply] = []
    for statement in statements:
        with one_utterance():
            replies.append(conversation.hear(statement))
            if as_json:
                put_json(replies[-1])
    if not replies:
        return UNUSABLE
    if not as_json:
        for line in _shown(statements, replies, shown):
            put(line)
    return exit_status(replies[-1], any(reply.changed for reply in replies))


def _shown(statements: list[str], replies: list[Reply], units: VolumeUnit) -> Iterator[str]:
    """Verdict and margin, what was answered to each statement, the worksheet, the cautions."""
    last = replies[-1]
    described = bool(last.sheet.lines or last.sheet.volumes or enclosure_text.governs(last))
    if described:
        yield verdict_line(last)
    for statement, reply in zip(statements, replies, strict=False):
        if len(replies) > 1:
            yield f"> {' '.join(statement.split())[:MOST_SHOWN]}"
        yield " ".join(act.says for act in reply.acts if act.act != "caution")
    if described:
        yield from worksheet_lines(last, units)
    if last.verdict != "incomplete" and last.cautions:
        yield cautions_line(last.cautions)
