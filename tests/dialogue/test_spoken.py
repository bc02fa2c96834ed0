"""The spoken form: no figure is left to the voice, and teens are not to be heard as tens.

The words are common practice of reading numbers back: a sound-alike twice, a decimal point by
point (as controllers of air traffic do, FAA AIM 4-2-8 and Order 7110.65 2-4-18).
"""

from __future__ import annotations

import pytest
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
    ("by 314.16(B)(2)", "by three fourteen point sixteen B two"),
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
