"""What is supposed is told with all that it leaves open, and is never said to fit by the least.

Volumes: NEC 2023 Table 314.16(B)(1), 14 AWG 2.00 in³, 12 AWG 2.25 in³; a device takes two of the
largest wire landed on it, 314.16(B)(4), so that one that may land on 14 or 12 takes 4.00 to 4.50.
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from boxaloud import Conversation
from boxaloud.assistant.tui.presenters.box_comparison import compared, difference, suppose

#: 18.00 of 18.0: four 12 AWG 9.00, clamps 2.25, one device 4.50, grounds 2.25.
FULL = "two 12-2s and a GFCI, 18 cubic inches, clamps inside"


def talking(*said: str) -> Conversation:
    talk = Conversation()
    for words in said:
        talk.hear(words)
    return talk


@pytest.mark.parametrize(
    ("words", "least", "most"),
    [
        # and two 14 AWG 4.00; the device 4.00 or 4.50 as nobody says which it is on
        ("what if I add a 14-2", "21.50", "22.00"),
        # and three 14 AWG 6.00
        ("what if I add a 14-3", "23.50", "24.00"),
    ],
)
def test_a_device_whose_size_opens_is_counted_in_what_is_supposed(
    words: str, least: str, most: str
) -> None:
    talk = talking(FULL)
    said = talk.hear(words).said
    assert least in said
    assert most in said
    assert "over by at least" in said
    stands = talk.talk.assessment
    assert (stands.verdict, stands.low, stands.high) == ("fits", Decimal(18), Decimal(18))


def test_what_fits_however_it_comes_out_says_the_least_margin() -> None:
    """22.00 at the most of 22.5."""
    reply = talking(FULL, "22.5 cubic inch box").hear("what if I add a 14-2")
    assert "at least 0.50" in reply.said


def test_what_may_fit_or_not_is_said_to_hang_on_what_is_open() -> None:
    """21.50 to 22.00 of 21.75."""
    reply = talking(FULL, "the box is marked 21.75").hear("what if I add a 14-2")
    supposed = reply.said.partition("As it stands")[0]
    assert "fits with" not in supposed
    assert "over by" not in supposed


@pytest.mark.parametrize(
    "words",
    ["add a 14-2", "what if I add a 14-2", "what if I add a 14-2 to it", "if I add a 14-2"],
)
def test_the_comparison_tries_what_is_supposed_in_a_sentence(words: str) -> None:
    tried = suppose(talking(FULL), words)
    assert tried.tried
    assert tried.then.verdict == "over"
    # the device was told while all wires were 12s: it stays on them, 314.16(B)(4)
    assert (tried.then.low, tried.then.high) == (Decimal(22), Decimal(22))
    shown = {line.what: line.then for line in compared(tried.now, tried.then)}
    assert "22.00" in shown.values()
    assert not any("Still" in line for line in difference(tried.now, tried.then))


def test_the_comparison_names_the_margins_that_the_verdicts_rest_on() -> None:
    """Two 14-2 and a switch, 14.00 of 18.0 without clamps; with a 12-2 more, 18.75 to 19.25."""
    told = difference(*(lambda t: (t.now, t.then))(
        suppose(talking("two 14-2s and a switch, 18 cubic inches, no clamps"), "add a 12-2")
    ))  # fmt: skip
    assert any("4.00" in line and "−0.75" in line for line in told)


def test_a_question_is_compared_with_nothing() -> None:
    tried = suppose(talking(FULL), "why is it full")
    assert not tried.tried


def test_a_device_supposed_to_be_on_another_size_is_counted_by_it() -> None:
    """25.75 with the dimmer on 14 AWG 4.00, 26.25 with it on 12 AWG 4.50: 314.16(B)(4)."""
    talk = talking(
        "two 12-2s and one 14-3, 30.3 cubic inches, no clamps",
        "a receptacle on the twelves and a dimmer on the fourteen",
    )
    assert "26.25" in talk.hear("what if the dimmer was on the 12").said


@pytest.mark.parametrize(
    ("box", "words", "due"),
    [
        ("18", "would a 16 do if the clamps are outside", "14.00, fits with 2.00"),
        ("20", "would a 12 do if the clamps are outside", "14.00, over by 2.00"),
        ("20", "is a 12.5 enough if I take out the switch", "10.00, fits with 2.50"),
        ("20", "can I get a dimmer in an 18 if I take out the switch", "14.00, fits with 4.00"),
        ("20", "could I put two dimmers in a 22.5 if I remove the switch", "18.00, fits with 4.50"),
        ("20", "can I add another 14-2 if I take out the switch", "14.00, fits with 6.00"),
        ("20", "will a GFCI fit if I drop a 14-2", "14.00, fits with 6.00"),
        ("20", "would the switch fit if I took out a 14-2", "10.00, fits with 10.00"),
        ("20", "can I get two 14-2s into a 22 if the clamps are outside", "22.00, fits with 0"),
    ],
)
def test_the_box_and_what_goes_in_before_an_if_are_supposed_too(
    box: str, words: str, due: str
) -> None:
    """At 2.00 a 14 AWG conductor, 314.16(B)(1), (4), (5): two 14-2 and a switch are 14.00, without
    the switch 10.00, with two dimmers for it 18.00, with a cable less 10.00, two more 22.00."""
    talk = talking(f"two 14-2s and a switch, {box} cubic inches, no clamps")
    reply = talk.hear(words)
    assert due in reply.said.partition("As it stands")[0]
    assert str(reply.sheet.total) in ("14.00", "14")
