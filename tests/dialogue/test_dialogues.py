"""Dialogues as readable transcripts: numbers from their source, and every word that is said."""

from __future__ import annotations

import pytest
from talks import Dialogue, dialogues, found, played

DIALOGUES = list(dialogues())


@pytest.mark.parametrize("dialogue", DIALOGUES, ids=lambda d: f"{d.file}: {d.name}")
def test_a_dialogue_goes_as_written(dialogue: Dialogue) -> None:
    assert dialogue.source
    for said, reply in played(dialogue):
        got = found(reply)
        wanted = {key: got[key] for key in said.expected}
        assert wanted == said.expected, said.line
        assert reply.said == said.reply, said.line
        if said.spoken is not None:
            assert " / ".join(reply.spoken.splitlines()) == said.spoken, said.line


def test_there_are_sixty_dialogues_at_least_and_each_has_its_own_name() -> None:
    names = [(dialogue.file, dialogue.name) for dialogue in DIALOGUES]
    assert len(names) >= 60
    assert len(set(names)) == len(names)
