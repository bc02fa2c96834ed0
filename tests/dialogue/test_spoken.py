"""The spoken form: no figure is left to the voice, and teens are not to be heard as tens.

The words are common practice of reading numbers back: a sound-alike twice, a decimal point by
point (as controllers of air traffic do, FAA AIM 4-2-8 and Order 7110.65 2-4-18).
"""

from __future__ import annotations

import re

import pytest
from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.dialogue.nlg.sentences import sentences
from boxaloud.assistant.dialogue.nlg.spoken_form import slowly, spoken

CASES = [
    ("margin 14.00", "margin fourteen, one four"),
    ("margin 40.00", "margin forty, four zero"),
    ("margin 15.", "margin fifteen, one five."),
    ("margin 50.", "margin fifty, five zero."),
    ("margin 4.25.", "margin four point two five."),
    ("Total 30.375 cubic inches", "Total thirty, three zero, point three seven five cubic inches"),
    ("Total 14.00 cubic inches, capacity 18.0",
     "Total fourteen, one four, cubic inches, capacity eighteen, one eight"),
    ("two cables of 14-2 with ground", "two cables of fourteen two with ground"),
    ("two conductors of 14 AWG", "two conductors of fourteen gauge"),
    ("a 10 AWG ground", "a ten gauge ground"),
    ("4 by 1-1/2 octagon", "four by one and one half octagon"),
    ("4-11/16 by 2-1/8", "four and eleven sixteenths by two and one eighth"),
    ("by 314.16(B)(2)", "by three fourteen sixteen B two"),
    ("edition 2020", "edition twenty twenty"),
    ("18.0 in³", "eighteen, one eight, cubic inches"),
    ("“undo” takes it back", "undo takes it back"),
]  # fmt: skip


@pytest.mark.parametrize(("shown", "said"), CASES)
def test_a_text_is_spoken_as_people_say_it(shown: str, said: str) -> None:
    assert spoken(shown) == said


def test_slowly_is_a_short_line_at_a_time() -> None:
    text = "Total 14.00 cubic inches, capacity 18.0, margin 4.00. It fits."
    assert slowly(text).splitlines() == [
        "Total fourteen,",
        "one four,",
        "cubic inches,",
        "capacity eighteen,",
        "one eight,",
        "margin four.",
        "It fits.",
    ]


def every_sentence(node: object) -> list[str]:
    if isinstance(node, str):
        return [node]
    inner = node.values() if isinstance(node, dict) else node if isinstance(node, list) else ()
    return [text for each in inner for text in every_sentence(each)]


def test_no_sentence_says_safe_or_legal_or_has_a_dash_to_read() -> None:
    for text in every_sentence(sentences()):
        assert "safe" not in text.lower(), text
        assert "legal" not in text.lower(), text
        assert " - " not in text, text
        assert "—" not in text, text


FOR_EAR = sentences()["for_ear"]


@pytest.mark.parametrize("key", sorted(FOR_EAR))
def test_what_is_said_shorter_stands_for_a_sentence_and_brings_no_value_of_its_own(
    key: str,
) -> None:
    node: object = sentences()
    for step in key.split("."):
        assert isinstance(node, dict), key
        node = node[step]
    eye = node[0] if isinstance(node, list) else node
    assert isinstance(eye, str), key
    values = re.compile(r"{(\w+)}")
    assert set(values.findall(FOR_EAR[key])) <= {*values.findall(eye), "s", "edition"}
    assert len(FOR_EAR[key].split()) <= len(eye.split())


# The volumes by 314.16(B): two 14-2 and a switch are 4 + 1 + 2 allowances of 2.00.
FITS = ("two 14-2s, a switch, no clamps, 18 cubic inches", "fourteen of eighteen, margin four")
OVER = ("two 14-2s, a switch, no clamps, 12.5 cubic inches", "fourteen of twelve point five")


@pytest.mark.parametrize(("said", "volumes"), [FITS, OVER])
def test_a_verdict_comes_first_and_is_said_with_its_volumes(said: str, volumes: str) -> None:
    reply = Conversation().hear(said)
    assert reply.spoken.lower().startswith(reply.verdict)
    assert volumes in reply.spoken
    assert "Two fourteen twos" in reply.spoken
    assert "One switch" in reply.spoken
    assert "314.16, 2023" in reply.said


def test_a_box_is_said_twice_over_where_no_margin_proves_it() -> None:
    talk = Conversation()
    talk.hear("two 14-2s and a switch")
    assert "sixteen, one six" in talk.hear("16").spoken


@pytest.mark.parametrize(
    ("shown", "said"),
    [("two #12s", "two number twelves"), ("six #6s", "six number sixes"),
     ("on the 12s", "on the twelves"), ("the 14-2s", "the fourteen twos"),
     ("one #14 ground", "one number fourteen ground"), ("a 1900 box", "a nineteen hundred box")],
)  # fmt: skip
def test_a_size_is_said_by_its_number_and_once(shown: str, said: str) -> None:
    assert spoken(shown) == said


def test_of_many_doubts_two_are_said_at_once_and_all_are_shown() -> None:
    reply = Conversation().hear("two 14-2s, three flurbs, four gribbles, seven wombats, nine zorks")
    assert "I did not use three, flurbs and six more." in reply.spoken
    assert "“nine” and “zorks”" in reply.said
    assert "zorks" not in reply.spoken
