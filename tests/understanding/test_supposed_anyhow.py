"""No supposition is carried out, whatever is sighed, answered or remarked before it."""

from __future__ import annotations

import pytest
from boxaloud.assistant.dialogue import Conversation

BEFORE = (
    "", "oof", "ugh", "oh", "aw", "dang", "man", "hm", "eh", "huh", "oh come on", "hang on",
    "wait", "well shoot", "right", "yeah", "fine", "no", "nope", "and so", "just curious",
    "I wonder", "that's over huh", "that's over huh,", "that's no good then",
)  # fmt: skip
SUPPOSED = (
    "what if I go deep four square two and an eighth",
    "what if I took out a 14/2",
    "if I went to a deep four square would it fit",
    "suppose I add a 14/2",
    "say I pull one of those 14/2",
    "what about if there was a second switch",
    "what would a four eleven sixteenths do",
    "would it fit if I went to a twenty two cubic inch box",
    "how about if only one 14/2 came in",
    "if it was a dimmer instead would it go",
    "let's say the clamps came out",
    "what happens if I use two 12/2",
    "could I get away with a fourteen cubic inch box",
    "imagine it was a fourteen cubic inch box",
    "supposing we ran another 14/2",
)


@pytest.mark.parametrize("before", BEFORE)
def test_no_supposition_changes_the_box(before: str) -> None:
    # 14 AWG: 6 (314.16(B)(1)) + 2 (B)(4) + 1 (B)(5), 2.00 each: 18.00 (Table 314.16(B)(1))
    for supposed in SUPPOSED:
        talk = Conversation()
        talk.hear("three 14/2 and a switch in a twenty, no clamps")
        sheet = talk.hear(f"{before} {supposed}".strip()).sheet
        assert (str(sheet.total), str(sheet.capacity)) == ("18.00", "20"), (before, supposed)


@pytest.mark.parametrize("supposed", SUPPOSED)
def test_none_behind_a_description_in_one_breath_is_taken_in(supposed: str) -> None:
    if supposed.startswith(("what if", "what about", "how about", "what happens", "suppos")):
        said = f"three 14/2 and a switch in a twenty no clamps {supposed}"
        sheet = Conversation().hear(said).sheet
        assert (str(sheet.total), str(sheet.capacity)) == ("18.00", "20")
