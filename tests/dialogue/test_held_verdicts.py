"""What may not stand over a doubt does not; what is meant is asked.

Totals by Table 314.16(B)(1) and 314.16(B)(1) to (6), NEC 2023: a 14-2 with its ground brings two
conductors of 2.00 in³, all grounds one allowance, a switch or a receptacle two.
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from boxaloud.assistant.dialogue import Conversation, Reply
from boxaloud.assistant.tui.presenters.box_comparison import suppose

FITS = ("two 14-2s and a switch", "18 cubic inches", "no clamps")
OVER = ("two 14-2s, a switch and a receptacle", "16", "no clamps")


def talk(*said: str) -> Reply:
    """The last reply of a talk."""
    conversation = Conversation()
    return [conversation.hear(one) for one in said][-1]


@pytest.mark.parametrize("denial", ["there is no dimmer", "there aren't any dimmers"])
def test_a_denial_answers_no_question_about_another_thing(denial: str) -> None:
    assert talk("two 14-2 cables", "two hundred", denial).asks == "confirm"
    grounds = talk("four number 14 wires", "13 cubic inches", "no clamps", denial)
    assert (grounds.asks, grounds.sheet.total) == ("grounds", Decimal("8.00"))
    assert talk("two 14-2 cables", "18 cubic inches", denial).asks == "clamps"


@pytest.mark.parametrize(
    ("was", "said", "total"),
    [
        (("two 14-2s, a switch and a receptacle",), "no GFCI", "18.00"),
        (("two 14-2s, a switch and a receptacle",), "no receptacle", "14.00"),
        (("two 14-2s, a switch and a GFCI receptacle",), "no receptacle", "14.00"),
    ],
)
def test_a_denial_acts_on_its_own_name(was: tuple[str, ...], said: str, total: str) -> None:
    assert talk(*was, "16", "no clamps", said).sheet.total == Decimal(total)


@pytest.mark.parametrize(
    ("then", "verdict"),
    [
        (("no luminaire stud",), "incomplete"),
        (("use 2020",), "incomplete"),
        (("a dimmer",), "fits"),
        (("and a dimmer",), "incomplete"),
        (("and three travellers, 14",), "over"),
        (("I mean a dimmer",), "fits"),
        (("skip",), "fits"),
    ],
)
def test_unread_words_are_settled_by_what_says_them_again(
    then: tuple[str, ...], verdict: str
) -> None:
    assert talk(*FITS, "3 zorbs", *then).verdict == verdict


@pytest.mark.parametrize(
    ("unread", "then", "total"),
    [
        ("two hoozits", "I mean two 14-3s", "18.00 + 8.00"),
        ("3 zorbs", "I meant a dimmer", "14.00 + 4.00"),
        ("two hoozits", "sorry, one 14-2", "14.00 + 4.00"),
        ("make those two hoozits", "I mean two 14-3s", "18.00"),
        ("thanks", "I mean two 14-3s", "18.00"),
    ],
)
def test_what_puts_unread_words_right_corrects_nothing_before_them(
    unread: str, then: str, total: str
) -> None:
    """ "Two hoozits", "I mean two 14-3s": four cables, and not two in place of two."""
    assert talk(*FITS, unread, then).sheet.total == sum(map(Decimal, total.split(" + ")))


@pytest.mark.parametrize(
    ("then", "verdict", "total"),
    [
        ((), "incomplete", "14.00"),
        (("three",), "fits", "18.00"),
        (("three 14-2s",), "fits", "18.00"),
        (("a dimmer",), "fits", "14.00"),
        (("skip",), "fits", "14.00"),
        (("that's all",), "incomplete", "14.00"),
    ],
)
def test_nothing_fits_while_something_is_said_to_be_wrong(
    then: tuple[str, ...], verdict: str, total: str
) -> None:
    reply = talk(*FITS, "no no no", *then)
    assert (reply.verdict, reply.sheet.total) == (verdict, Decimal(total))


def test_undo_takes_back_what_was_wrong() -> None:
    reply = talk(*FITS, "a dimmer", "no no no", "undo")
    assert (reply.verdict, reply.sheet.total) == ("fits", Decimal("14.00"))


@pytest.mark.parametrize("order", ["take out one of them", "take out the other one"])
def test_what_may_be_several_things_is_asked(order: str) -> None:
    asked = talk(*OVER, order)
    assert (asked.verdict, asked.asks, asked.sheet.total) == (
        "incomplete",
        "confirm",
        Decimal("18.00"),
    )
    named = talk(*OVER, order, "the switch")
    assert (named.sheet.total, named.asks) == (Decimal("14.00"), None)


@pytest.mark.parametrize(
    "said", ["18 or 20", "it's 18 or 20", "either 18 or 20", "the box is 18 or 20", "18.0 or 20.3"]
)
def test_a_bare_volume_or_another_is_asked_by_both(said: str) -> None:
    """Two 14-2s and a switch are 14.00 by Table 314.16(B)(1); the answer is the volume marked."""
    before = ("two 14-2s and a switch", "no clamps")
    asked = talk(*before, said)
    assert (asked.verdict, asked.asks, asked.left_over) == ("incomplete", "confirm", ())
    assert asked.sheet.capacity is None
    last = "20.3" if "20.3" in said else "20"
    question = asked.said.rpartition(". ")[2]
    assert "18" in question
    assert last in question
    for answer in ("18", last, f"{last} cubic inches"):
        got = talk(*before, said, answer)
        assert got.sheet.capacity == Decimal(answer.split()[0])
        assert (got.verdict, got.asks) == ("fits", None)
    assert talk(*before, said, "yes").asks == "confirm"
    assert talk(*before, said, "neither, 12.5 cubic inches").verdict == "over"


@pytest.mark.parametrize(
    ("said", "answer", "total", "capacity"),
    [
        ("18 or 20 cubic inches, no clamps", "20", "14.00", "20"),
        ("18 cubic inches, 12.5 cubic inches, no clamps", "18 cubic inches", "14.00", "18"),
        ("18 cubic inches, clamps inside, clamps outside", "outside", "14.00", "18"),
    ],
)
def test_two_values_in_one_breath_are_asked(
    said: str, answer: str, total: str, capacity: str
) -> None:
    asked = talk("two 14-2s and a switch", said)
    assert (asked.verdict, asked.asks) == ("incomplete", "confirm")
    got = talk("two 14-2s and a switch", said, answer)
    assert (got.verdict, got.sheet.total, got.sheet.capacity) == (
        "fits",
        Decimal(total),
        Decimal(capacity),
    )


def test_nothing_is_supposed_or_asked_away_of_the_boxes_of_a_job() -> None:
    conversation = Conversation()
    for said in ("two 14-2s", "next box den", "what if I delete box one?"):
        reply = conversation.hear(said)
    assert "only suppose" in reply.said
    conversation.hear("should I delete box one?")
    assert conversation.boxes.names == ("box 1", "den")


def test_the_end_of_a_description_says_the_verdict_again() -> None:
    for said in ("that's it", "that's all", "done"):
        assert "14.00 of 18.0, margin 4.00" in talk(*FITS, "that's it", said).said


def test_a_box_taken_up_again_says_its_caution_again() -> None:
    first = Conversation()
    for said in FITS:
        first.hear(said)
    again = Conversation(boxes={"box 1": first.talk.journal})
    assert any(act.act == "caution" for act in again.hear("what's the total").acts)
    assert not any(act.act == "caution" for act in again.hear("what's the total").acts)


def test_unread_words_behind_a_box_event_are_kept() -> None:
    conversation = Conversation()
    conversation.hear("next box den, 3 zorbs")
    kept = [record.entry for record in conversation.take_records() if record.entry]
    assert any(run.words == "zorbs" for entry in kept for run in entry.unread)


def test_an_answer_behind_a_number_left_alone_is_asked_back() -> None:
    reply = talk("two 14-2s and a switch", "18 cubic inches", "a wire nut seven none")
    assert (reply.verdict, reply.asks) == ("incomplete", "unread")


def test_nothing_supposed_fits_while_words_are_unread() -> None:
    """A cable of a size nobody said takes two or three allowances, 314.16(B)(1)."""
    talk = Conversation()
    talk.hear("two 12-2s and a receptacle, 18 cubic inches, no clamps")
    assert talk.hear("and a home run").verdict == "incomplete"
    held = talk.hear("what if I used a 42 cubic inch box")
    assert "15.75" in held.said
    assert "fits" not in held.said
    talk.hear("skip")
    assert "fits" in talk.hear("what if I used a 42 cubic inch box").said


def test_nothing_tried_beside_the_box_fits_while_words_are_unread() -> None:
    talk = Conversation()
    talk.hear("two 12-2s and a receptacle, 18 cubic inches, no clamps")
    assert suppose(talk, "a 42 cubic inch box").then.verdict == "fits"
    talk.hear("and a home run")
    assert suppose(talk, "a 42 cubic inch box").then.verdict == "incomplete"


@pytest.mark.parametrize(
    "said",
    [
        ("two 14-2s, 3 zorbs, what's the smallest box?",),
        ("min volume for two 14-2s and 3 zorbs, what box do I need?",),
        ("two 14-2s, no clamps, 20 cubic inches, 3 zorbs", "how many more 14-2s fit?"),
        ("two 14-2s, 3 zorbs", "how many allowances is that?"),
        ("two 14-2s and some switches", "what's the smallest box?"),
    ],
)
def test_no_figure_is_given_past_what_was_not_understood(said: tuple[str, ...]) -> None:
    """Of what is in the box, 314.16(B), a figure without all of it would be too small."""
    reply = talk(*said)
    assert "I give no figure" in reply.said
    assert not any(act.figures for act in reply.acts)
    assert not any(name in reply.said for name in ("It takes", "Smallest standard", " more "))


def test_a_figure_is_given_once_it_is_understood() -> None:
    """Two 14-2s and a dimmer: 4, 2 and 1 allowances of 2.00, 314.16(B)(1), (4) and (5)."""
    heard = "I mean a dimmer, no clamps, what's the smallest box?"
    assert "It takes 14.00" in talk("two 14-2s, 3 zorbs", heard).said
    assert "It takes 10.00" in talk("two 14-2s, no clamps, what's the smallest box?").said


def test_what_is_asked_about_holds_nothing_back() -> None:
    """Table 314.16(A): a 4 by 2-1/8 square box of 30.3 holds fifteen conductors of 14."""
    assert "15 conductors" in talk("how many 14s in a 4 square deep box?").said
