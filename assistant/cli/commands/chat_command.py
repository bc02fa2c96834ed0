"""`boxaloud chat`: a line in, a reply out; for a person, a screen reader or a pipe."""

from __future__ import annotations

import contextlib
import sys
from typing import TextIO

from boxaloud.assistant.cli.output import put, put_json, shown_in
from boxaloud.assistant.cli.worksheet_text import Showing
from boxaloud.assistant.dialogue.nlg.sentences import say
from boxaloud.assistant.storage.memory_session import listening

LEAVE = frozenset({"quit", "exit", "bye", "goodbye"})


def run(lines: TextIO, job: str, edition: str, as_json: bool, units: str = "in3") -> int:
    """Answer each line until the input ends. Gives 0.

    With a job, each line is kept before it is answered, and the talk goes on where it
    was left.
    """
    showing = Showing(shown_in(units))
    if lines.isatty():
        with contextlib.suppress(ImportError):
            import readline  # noqa: F401  line editing and history at a terminal
    with listening(job, edition) as (listener, first):
        if not as_json:
            put(first or say("chat.welcome"))
        while line := _next(lines):
            if line.strip().lower() in LEAVE:
                break
            reply = listener.hear(line)
            if as_json:
                put_json(reply)
                continue
            text, below = showing.shown(reply)
            for shown in (text, *below):
                put(shown)
        for shown in showing.at_the_end():
            put(shown)
    return 0


def _next(lines: TextIO) -> str:
    """The next line with its end, or nothing where the input is over."""
    if lines is sys.stdin and lines.isatty():
        try:
            return input("> ") + "\n"
        except EOFError:
            return ""
    return lines.readline()
