"""`boxaloud check`: one or more statements in, worksheet and verdict out."""

from __future__ import annotations

from assistant.front import begin, exit_status, put, put_json, shown_in
from assistant.problems import UNUSABLE
from assistant.showing import full_lines


def run(statements: list[str], edition: str, as_json: bool, units: str = "in3") -> int:
    """Hear each statement, show the last reply, give the exit status."""
    conversation = begin(edition)
    reply, entered = None, False
    for statement in statements:
        reply = conversation.hear(statement)
        entered = entered or reply.changed
        if as_json:
            put_json(reply)
        elif statement is not statements[-1]:
            put(f"> {' '.join(statement.split())[:200]}")
            put(reply.said)
    if reply is None:
        return UNUSABLE
    if not as_json:
        for line in full_lines(reply, shown_in(units)):
            put(line)
    return exit_status(reply, entered)
