"""`boxaloud chat`: a line in, a reply out; for a person, a screen reader or a pipe."""

from __future__ import annotations

import contextlib
import io
import sys
from typing import TextIO

from boxaloud.assistant.cli.output import one_utterance, put, put_json, shown_in, with_report
from boxaloud.assistant.cli.worksheet_text import Showing
from boxaloud.assistant.dialogue import Reply
from boxaloud.assistant.dialogue.nlg.sentences import say
from boxaloud.assistant.storage.memory_session import listening

LEAVE = frozenset({"quit", "exit", "bye", "goodbye"})


def run(lines: TextIO, job: str, edition: str, as_json: bool, units: str = "in3") -> int:
    """Answer each line until the input ends. Gives 0.

    With a job, each line is kept before it is answered, and the talk goes on where it
    was left.
    """
    showing = Showing(shown_in(units))
    if isinstance(lines, io.TextIOWrapper):
        lines.reconfigure(errors="replace")  # a byte that is no letter ends no talk
    if lines.isatty():
        with contextlib.suppress(ImportError):
            import readline  # noqa: F401  line editing and history at a terminal
    with listening(job, edition) as (listener, first):
        if not as_json:
            put(first or say("chat.welcome"))
        while line := _next(lines):
            if line.strip().lower() in LEAVE:
                break
            with one_utterance():
                _answer(with_report(listener.hear(line), listener), showing, as_json)
        for shown in showing.at_the_end():
            put(shown)
    return 0


def _answer(reply: Reply, showing: Showing, as_json: bool) -> None:
    if as_json:
        put_json(reply)
        return
    text, below = showing.shown(reply)
    for shown in (text, *below):
        put(shown)


def _next(lines: TextIO) -> str:
    """The next line with its end, or nothing where the input is over."""
    if lines is sys.stdin and lines.isatty():
        try:
            return input("> ") + "\n"
        except EOFError:
            return ""
    return lines.readline()
