"""A fault of ours, met while words are taken: the words are set aside, and the talk goes on.

`raised` hands faults through instead, so that a test or someone looking for a fault sees it.
"""

from __future__ import annotations

from boxaloud.assistant.dialogue.journal import Entry
from boxaloud.assistant.dialogue.nlg.sentences import say
from boxaloud.grammar.acts import Unread

raised = False
"""True where a fault is to end the program with its place."""


def set_aside(entry: Entry) -> Entry:
    """The entry with nothing made of its words: they weigh, so that no verdict stands over
    them, and it is told that they were not taken."""
    heard = str(entry.heard)
    whole = Unread(heard, (0, len(heard)), weighty=True)
    return Entry(heard, (), (whole,), _confidence(entry), say("unreadable.fault"))


def _confidence(entry: Entry) -> float | None:
    return entry.confidence if isinstance(entry.confidence, (int, float)) else None


def named(fault: Exception) -> str:
    """A fault by its kind and its words, in one line of no great length."""
    return " ".join(f"{type(fault).__name__}: {fault}".split())[:200]
