"""The spoken form: no figure is left to the voice, and teens are not to be heard as tens.

The words are common practice of reading numbers back: a sound-alike twice, a decimal point by
point (as controllers of air traffic do, FAA AIM 4-2-8 and Order 7110.65 2-4-18).
"""

from __future__ import annotations

import re
from decimal import Decimal

import pytest
from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.dialogue.nlg.sentences import sentences
from boxaloud.assistant.dialogue.nlg.spoken_form import slowly, spoken
from boxaloud.rules import table_boxes
from talks import dialogues, played

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
    # a volume of hundreds is no section, 314.16 is one
    ("864.0 cubic inches", "eight hundred sixty four cubic inches"),
    ("Total 229.4 cm³", "Total two hundred twenty nine point four cubic centimetres"),
    ("Section 314.28, 300.14", "Section three fourteen twenty eight, three hundred point fourteen"),
    ("from 2026-01-01 on", "from January one, twenty twenty six on"),
    ("the 1999 edition", "the nineteen ninety nine edition"),
    # a box by its kind and depth, as people ask for it
    ("a 4 by 1 and 1/2 octagon.", "an octagon, inch and a half."),
    ("two ganged 3 by 2 by 2 device box sections, 20.0",
     "two ganged device boxes, two inches deep, twenty"),
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
    assert set(values.findall(FOR_EAR[key])) <= {*values.findall(eye), "s", "edition", "all"}
    assert len(FOR_EAR[key].split()) <= len(eye.split())


NAMES = [row.name.removesuffix(" box") for row in table_boxes()]
REFUSED = (
    "the box is 12 by 14", "5 by 5 by 4 box", "two two-gang handy boxes", "use 1999", "use 2011",
    "the Canadian code, 4 square box, inch and a half deep",
)  # fmt: skip


def test_every_listed_box_has_a_name_for_the_ear() -> None:
    aloud = sentences()["part_aloud"]
    assert all(name in aloud for name in NAMES if "cover" not in name)
    said = [spoken(name) for name in NAMES]
    assert len(set(said)) == len(NAMES)


@pytest.mark.parametrize("words", REFUSED)
def test_a_refusal_is_said_shorter_than_it_is_shown(words: str) -> None:
    """The rules’ own sentences are met by the rows that say them, word for word."""
    reply = Conversation().hear(words)
    refused = next(act for act in reply.acts if act.act in ("refuse", "echo"))
    assert len(refused.spoken.split()) < len(refused.says.split())
    assert "say the marked" not in refused.spoken


def test_the_ear_is_told_an_edition_once() -> None:
    """The caution names it, so that the echo need not; the eye has both."""
    reply = Conversation().hear("two 14-2s, no clamps, 18 cubic inches, 2020 code")
    assert reply.said.count("2020") == 2
    assert reply.spoken.count("twenty twenty") == 1


def test_what_is_known_of_a_place_is_told_the_ear() -> None:
    talk = Conversation()
    talk.hear("two 14-2s, no clamps, 18 cubic inches")
    talk.hear("I'm in California")
    assert "its own amendments are not held" in talk.hear("the 2025 code").spoken


LONG = "a three-way, a dimmer, a GFCI, two 12-2s and a 12-3"


def test_a_long_first_verdict_is_said_with_fewer_numbers_and_none_is_lost() -> None:
    """Six conductors and a ground of 12 AWG and three yokes, 314.16(B)(1), (4), (5): 7 + 1 + 6
    allowances of 2.25 are 31.50. The margin is what the ear works out; a sound-alike is doubled."""
    reply = Conversation().hear(f"{LONG}, no clamps, 42 cubic inches")
    assert reply.sheet.total == Decimal("31.50")
    assert "margin 10.50" in reply.said
    assert reply.spoken.startswith("Fits: thirty one point five of forty two. One three-way.")
    assert "De-energise, test first" in reply.spoken
    open_ = Conversation().hear(f"{LONG}, 42 cubic inches")
    assert open_.spoken.startswith("Fits in forty two, whatever the clamps.")
    assert open_.spoken.endswith("And the clamps?")
    over = Conversation().hear(f"{LONG}, no clamps, 29.5 cubic inches")
    assert over.spoken.startswith("Over by two in twenty nine point five.")
    assert all(name in over.spoken for name in ("dimmer", "GFCI", "Two twelve twos", "No clamps"))


def test_a_short_verdict_is_said_with_all_its_numbers() -> None:
    talk = Conversation()
    talk.hear("two 12-2s, no clamps")
    assert "eleven point two five of twenty one, margin nine" in talk.hear("21").spoken


def test_what_was_only_supposed_is_put_as_not_done() -> None:
    talk = Conversation()
    talk.hear("two 14-2s, a switch, 18 cubic inches, clamps inside")
    assert talk.hear("what if I took out the switch").spoken.startswith(
        "Just supposing without one switch: fits with"
    )
    assert talk.hear("what if it was a 20.3 box").spoken.startswith(
        "Just supposing box twenty point three: fits with"
    )
    assert talk.asks is None


def test_editions_that_count_alike_are_told_together() -> None:
    """Six grounds: one allowance through 2017, one and two quarters from 2020, 314.16(B)(5)."""
    talk = Conversation()
    talk.hear("six 12-2s, no devices, no clamps, 42 cubic inches")
    said = talk.hear("so which is stricter").said
    assert "29.25 by 2014 and 2017; 30.375 by 2020, 2023 and 2026" in said


def test_replies_by_ear_are_short() -> None:
    """Words of a reply over the dialogues here: the design's median 15 and 90th percentile 30."""
    lengths = sorted(
        len(reply.spoken.split()) for dialogue in dialogues() for _, reply in played(dialogue)
    )
    assert lengths[len(lengths) // 2] <= 15
    assert lengths[len(lengths) * 9 // 10] <= 30


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
