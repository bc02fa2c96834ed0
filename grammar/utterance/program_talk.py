"""What is said to the program itself, whoever else is named in it: "text the report to my boss"."""

from __future__ import annotations

from boxaloud.grammar.phrases.statement_parser import understand
from boxaloud.grammar.utterance.other_talk import small_talk
from boxaloud.grammar.utterance.project_talk import project_talk

_COMMANDS = frozenset(
    {
        "advice", "brief", "copy_box", "delete_box", "done", "full", "help", "list_boxes",
        "metric", "new_job", "read_back", "redo", "repeat", "report", "slower", "start_over",
        "total", "undo", "what_changes", "which_edition",
    }
)  # fmt: skip
"""Kinds of what nobody says to anybody but the program."""


def said_to_program(words: str) -> bool:
    """Whether words order or greet the program, or tell it of the project."""
    found = understand(words).statements
    said = words.strip(" .,;:!?")
    if any(one.kind in _COMMANDS and len(one.words) >= len(said) for one in found):
        return True
    if project_talk(words, found) is not None:
        return True
    return small_talk(words) is not None
