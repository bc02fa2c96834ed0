"""`boxaloud check`: one or more statements in, worksheet and verdict out."""

from __future__ import annotations

from boxaloud.assistant.cli.exit_codes import UNUSABLE, exit_status
from boxaloud.assistant.cli.output import put, put_json, shown_in
from boxaloud.assistant.cli.worksheet_text import Showing
from boxaloud.assistant.storage.memory_session import begin


def run(statements: list[str], edition: str, as_json: bool, units: str = "in3") -> int:
    """Hear each statement, show the last reply, give the exit status."""
    conversation = begin(edition)
    showing = Showing(shown_in(units))
    reply, entered = None, False
    for number, statement in enumerate(statements, 1):
        reply = conversation.hear(statement)
        entered = entered or reply.changed
        if as_json:
            put_json(reply)
            continue
        last = number == len(statements)
        if not last:
            put(f"> {' '.join(statement.split())[:200]}")
        text, lines = showing.shown(reply, at_the_end=last)
        for line in (text, *lines):
            put(line)
    return UNUSABLE if reply is None else exit_status(reply, entered)
