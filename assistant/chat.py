"""`boxaloud chat`: a line in, a reply out; for a person, a screen reader or a pipe."""

from __future__ import annotations

import sys
from typing import TextIO

from assistant.conversation import Conversation, Reply
from assistant.conversation.saying import say
from assistant.front import begin, put, put_json
from assistant.showing import full_lines

LEAVE = frozenset({"quit", "exit", "bye", "goodbye"})


def run(lines: TextIO, edition: str, as_json: bool) -> int:
    """Answer each line until the input ends. Gives 0."""
    conversation = begin(edition)
    if not as_json:
        put(say("chat.welcome"))
    for line in _read(lines):
        if line.strip().lower() in LEAVE:
            break
        reply = conversation.hear(line)
        if as_json:
            put_json(reply)
        else:
            _show(conversation, reply)
    return 0


def _read(lines: TextIO) -> list[str] | TextIO:
    if sys.stdin.isatty() and lines is sys.stdin:
        import contextlib

        with contextlib.suppress(ImportError):
            import readline  # noqa: F401  line editing and history at a terminal
    return lines


def _show(conversation: Conversation, reply: Reply) -> None:
    """The reply; with a complete verdict or a read-back, the worksheet and cautions too."""
    settled = reply.verdict != "incomplete" and reply.asks is None and reply.changed
    for text in full_lines(reply) if settled else [reply.said]:
        put(text)
