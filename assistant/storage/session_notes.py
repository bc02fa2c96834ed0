"""What is to be told once before a talk goes on: own words, and what could not be folded."""

from __future__ import annotations

from collections.abc import Iterator

from boxaloud.assistant.dialogue.box_dialogue import Talk
from boxaloud.assistant.dialogue.input_check import printable
from boxaloud.assistant.dialogue.refused_own_words import left_alone
from boxaloud.assistant.storage import alias_file
from boxaloud.assistant.storage.storage_messages import how_many, say

MOST_TOLD = 5
"""Statements or boxes that are named one by one."""


def of_own_words() -> Iterator[str]:
    """What is wrong with the person's own words."""
    if told := alias_file.trouble() or left_alone(alias_file.read()):
        yield told


def of_set_aside(talk: Talk) -> Iterator[str]:
    """What of a box could not be folded; it is told once."""
    if talk.aside:
        said = [printable(str(entry.heard), 60) for entry in talk.aside[:MOST_TOLD]]
        words = "; ".join(f"“{words}”" for words in said)
        count = how_many(len(talk.aside), "statement")
        talk.aside = []
        yield say("keeping.aside", box=talk.name, count=count, words=words)
