"""What is to be told once before a talk goes on: own words, and what could not be folded."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

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


def of_changed_verdicts(before: Mapping[str, str], now: Mapping[str, str]) -> Iterator[str]:
    """Which boxes stand otherwise than they were remembered to."""
    changed = [box for box in before if now[box] != before[box]]
    told = [
        say(
            "verdict.change",
            box=box,
            new=say(f"verdict.{now[box]}"),
            old=say(f"verdict.{before[box]}"),
        )
        for box in changed[:MOST_TOLD]
    ]
    if len(changed) > MOST_TOLD:
        told.append(say("verdict.more", count=how_many(len(changed) - MOST_TOLD, "box")))
    if told:
        yield say("verdict.changed", changes="; ".join(told))
