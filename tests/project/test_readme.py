"""The README tells the truth: set-up lines of the promised shape, a talk that is what is said."""

from __future__ import annotations

import re
from pathlib import Path

from boxaloud.assistant.cli.worksheet_text import Showing
from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.dialogue.nlg.sentences import say

README = (Path(__file__).parents[2] / "README.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"^```(\w*)\n(.*?)^```$", README, flags=re.M | re.S)


def test_the_first_two_blocks_are_the_set_up_commands_of_one_line_each() -> None:
    for language, text in BLOCKS[:2]:
        assert language == "sh"
        assert len(text.splitlines()) == 1
        assert text.startswith("python3 -m venv .venv && .venv/bin/pip install")
    assert "boxaloud hear" in BLOCKS[0][1]
    assert "pytest" in BLOCKS[1][1]


def test_the_recordings_of_the_first_command_are_there() -> None:
    pattern = BLOCKS[0][1].split()[-1]
    assert list(Path(__file__).parents[2].glob(pattern))


def test_the_talk_in_the_readme_is_what_is_said() -> None:
    talks = [text for language, text in BLOCKS if text.startswith("$ boxaloud chat")]
    assert talks
    for talk in talks:
        lines = talk.splitlines()
        assert lines[1] == say("chat.welcome")
        conversation, showing = Conversation(), Showing()
        at = lines.index(next(line for line in lines if line.startswith("Worksheet, NEC")))
        for user, reply in zip(lines[2:at:2], lines[3:at:2], strict=True):
            assert showing.shown(conversation.hear(user)) == (reply, [])
        assert lines[at:] == showing.at_the_end()
