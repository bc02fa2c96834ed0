"""Dialogues as readable transcripts: numbers from their source, and what a reply does."""

from __future__ import annotations

import pytest
from talks import Dialogue, dialogues, found, played

DIALOGUES = list(dialogues())
MOST_WORDINGS = 30
"""Turns whose sentences are held: a change of wording breaks tens of tests, not hundreds."""


def _told(dialogue: Dialogue) -> object:
    """A dialogue; one that the program does not get right yet must go on failing."""
    mark = pytest.mark.xfail(reason=dialogue.fails, strict=True)
    name = f"{dialogue.file}: {dialogue.name}"
    return pytest.param(dialogue, marks=[mark] if dialogue.fails else [], id=name)


@pytest.mark.parametrize("dialogue", map(_told, DIALOGUES))
def test_a_dialogue_goes_as_written(dialogue: Dialogue) -> None:
    assert dialogue.source
    for said, reply in played(dialogue):
        got = found(reply)
        wanted = {key: got[key] for key in said.expected}
        assert wanted == said.expected, said.line
        if said.reply is not None:
            assert reply.said == said.reply, said.line
        if said.spoken is not None:
            assert " / ".join(reply.spoken.splitlines()) == said.spoken, said.line


def test_there_are_sixty_dialogues_at_least_and_each_has_its_own_name() -> None:
    names = [(dialogue.file, dialogue.name) for dialogue in DIALOGUES]
    assert len(names) >= 60
    assert len(set(names)) == len(names)


def test_only_one_file_holds_how_replies_sound() -> None:
    held = [
        dialogue.file
        for dialogue in DIALOGUES
        for said in dialogue.says
        if said.reply is not None or said.spoken is not None
    ]
    assert set(held) == {"wording"}
    assert 20 <= len(held) <= MOST_WORDINGS


def test_every_turn_expects_something() -> None:
    for dialogue in DIALOGUES:
        for said in dialogue.says:
            assert said.expected or said.reply is not None, (dialogue.name, said.line)
