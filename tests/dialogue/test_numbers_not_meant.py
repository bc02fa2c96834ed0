"""Numbers that nobody meant are asked about or refused, and never taken: no verdict rests on them.

Two 14-2 and a switch are 4 conductors (1), 2 for the device (4) and a ground (5), each of 2.00 in³
by NEC 2023 Table 314.16(B)(1): 14.00. A box of 18 holds them, so that a number taken for 18 shows.
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from boxaloud.assistant.dialogue import Conversation, Reply
from boxaloud.assistant.dialogue.input_check import (
    MOST_CHARACTERS,
    MOST_DIGITS,
    MOST_THINGS,
    MOST_WORDS,
)
from boxaloud.grammar import recognise

TALK = ("two 14-2 cables and a switch", "clamps outside")
#: A point written otherwise, figures with something between them, raised and circled figures.
FIGURES = [
    "18,5", "1_8", "1٫8", "1\u200b8", "1\u20608", "1'8", "1·8", "18²", "1⁸", "①⑧", "⑱", "1e3",
    "1.8e1", "18..5", "18.5.2", "18-18-18-18", "<18", "≤ 18", "> 18", "±18", "18+", "18 %", "18л",
    "十八", "Ⅹ", "½½", "18½½",
]  # fmt: skip
#: Units that are no cubic inch and no cubic centimetre.
UNITS = [
    "millimeters", "cm", "meters", "feet", "ft", "yards", "liters", "litres", "l", "gallons",
    "quarts", "pints", "ounces", "square inches", "cubic feet", "cubic foot", "cubic yards",
    "cubic meters", "cubic millimeters", "ft3", "ft³", "m3", "m³", "mm³", "k",
]  # fmt: skip
RANGES = [
    "less than 18", "more than 18", "at least 18", "at most 18", "up to 18", "under 18",
    "between 18 and 20", "18 or 20", "18 to 20", "no more than 18",
]  # fmt: skip


def asked(said: str) -> Reply:
    talking = Conversation()
    for line in TALK:
        reply = talking.hear(line)
    assert reply.asks == "box"
    return talking.hear(said)


def not_taken(reply: Reply) -> None:
    assert reply.sheet.capacity is None, reply.said
    assert reply.verdict == "incomplete"
    assert reply.sheet.total == Decimal("14.00")
    assert reply.asks


@pytest.mark.parametrize("said", FIGURES)
@pytest.mark.parametrize(
    "around", ["{}", "the box is {}", "{} cubic inches", "a {} box", "it is {}, please", "{}."]
)
def test_a_figure_that_is_no_plain_number_is_asked(around: str, said: str) -> None:
    reply = asked(around.format(said))
    not_taken(reply)
    assert any(said.strip() in words for words in reply.left_over)


@pytest.mark.parametrize("unit", UNITS)
@pytest.mark.parametrize("around", ["18 {}", "the box is 18 {}", "an eighteen {} box"])
def test_a_unit_that_no_box_is_marked_in_is_never_taken(around: str, unit: str) -> None:
    not_taken(asked(around.format(unit)))


@pytest.mark.parametrize("said", ["18 mm", "18mm", "the box is 18 mm", "an 18 mm box", "18'"])
def test_a_unit_that_is_also_a_sound_or_a_sign_is_none_behind_a_figure(said: str) -> None:
    not_taken(asked(said))


@pytest.mark.parametrize("said", RANGES)
@pytest.mark.parametrize("around", ["{}", "the box is {}", "a box {}"])
def test_a_range_is_asked(around: str, said: str) -> None:
    not_taken(asked(around.format(said)))


@pytest.mark.parametrize("said", ["over 18 cubic inches", "between 18 and 20 cubic inches"])
def test_a_range_with_its_unit_is_asked(said: str) -> None:
    not_taken(asked(said))


@pytest.mark.parametrize(
    "said",
    ["18", "18.0", "18 cu in", "18 in³", "１８", "about 18",
     "295 ml", "295 mL", "295 cc", "295 cm³", "295 cm3", "295 milliliters", "295 cubic cm"],
)  # fmt: skip
def test_what_is_plain_stays_understood(said: str) -> None:
    """295 cm³ over 16.387064 cm³ to the cubic inch (NIST SP 811, B.8) is 18.002, marked 18.0."""
    reply = asked(said)
    assert reply.verdict == "fits"
    assert round(reply.sheet.capacity or 0, 1) == Decimal("18.0")


@pytest.mark.parametrize("said", ["① two 14-2", "⓿ two 14-2", "two 14-2 cables, 二 dimmers"])
def test_a_strange_numeral_beside_a_thing_counts_nothing(said: str) -> None:
    reply = Conversation().hear(said)
    assert reply.sheet.total in (Decimal("10.00"), Decimal("14.00"))
    assert any(mark in "".join(reply.left_over) for mark in "①⓿二")


@pytest.mark.parametrize("say", ["a 4² box", "①", "⓿", "B²", "²"])
def test_a_strange_numeral_alone_ends_nothing(say: str) -> None:
    talking = Conversation()
    reply = talking.hear(say)
    assert (reply.verdict, reply.sheet.capacity) == ("incomplete", None)
    kept = [record.entry for record in talking.take_records() if record.entry]
    again = Conversation(boxes={"box 1": kept})
    assert again.talk.state == talking.talk.state


@pytest.mark.parametrize(
    ("said", "why"),
    [
        ("9" * 4301, "digits"),
        ("two 14-2, " + "1" * (MOST_DIGITS + 1) + " switches", "digits"),
        ("14-" + "9" * 5000, "digits"),
        ("1." + "9" * 5000, "digits"),
        ("what if " * MOST_WORDS, "words"),
        ("14-" * MOST_CHARACTERS, "characters"),
        ("14-" * 3000, "characters"),
        ("½" * 2000, "characters"),
        ("1, " * (MOST_WORDS + 1), "words"),
        ("a switch. " * (MOST_THINGS + 1), "things"),
        ("z" * (MOST_CHARACTERS + 1), "characters"),
    ],
)
def test_more_than_a_breath_holds_is_refused_in_a_sentence(said: str, why: str) -> None:
    reply = Conversation().hear(said)
    assert reply.refused
    assert why in reply.said
    assert len(reply.said) < 400


@pytest.mark.parametrize("words", ["assume", "say", "what if", "suppose", "make it", "no", "undo"])
@pytest.mark.parametrize("behind", ["", "two 14-2 cables"])
def test_a_word_said_over_and_over_is_answered(words: str, behind: str) -> None:
    for times in (200, MOST_WORDS // len(words.split()) - 3):
        assert Conversation().hear(f"{words} " * times + behind).said


def test_a_clause_that_goes_on_and_on_is_read_to_its_end() -> None:
    """One clause after the other without a break: each a pattern, and the rest behind it."""
    read = recognise("make it two 14-2s " * 497)
    assert len(read.acts) == 497
