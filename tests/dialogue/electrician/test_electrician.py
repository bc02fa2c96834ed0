"""The main job talked through by somebody with a box in mind, in the quiet and in noise.

The truth is the electrician's own arithmetic (truth.py, from 314.16 as published); the product
is only heard. `python -m electrician.thousand` in tests/dialogue runs a thousand boxes a level.
"""

from __future__ import annotations

import random
from fractions import Fraction

import pytest
from boxaloud.assistant.dialogue import Conversation, Reply
from boxaloud.grammar.lexer.heard_words import Word

from electrician import reply_reading, truth
from electrician.agenda import Part
from electrician.measures import one_talk, report
from electrician.mind import Mind
from electrician.talking import Electrician

SEEDS = range(10_000, 10_040)


#: With the ear that only swaps words, and with nothing said but what is in the box, as before
#: there were questions, slips and lost words: what a change must not make worse.
LEVELS = (0.0, 0.05, 0.1, 0.2)


@pytest.mark.parametrize("plain", [False, True], ids=["lively", "plain"])
@pytest.mark.parametrize("errors", LEVELS)
def test_no_verdict_is_wrong_unheard(errors: float, plain: bool) -> None:
    found, talks = report(errors, SEEDS, plain)
    wrong = [talk.log for talk in talks if talk.accepted and not talk.right]
    assert wrong == []
    assert found.silently_wrong == 0


@pytest.mark.parametrize(("errors", "success"), [(0.0, 0.99), (0.05, 0.95), (0.1, 0.9), (0.2, 0.7)])
def test_the_electrician_gets_the_right_verdict(errors: float, success: float) -> None:
    found, _ = report(errors, SEEDS)
    assert found.success >= success, found


@pytest.mark.parametrize("plain", [False, True], ids=["lively", "plain"])
def test_a_talk_without_noise_takes_hardly_more_turns_than_it_must(plain: bool) -> None:
    found, _ = report(0.0, SEEDS, plain)
    assert found.turns_over_least < (1.25 if plain else 1.5), found


def test_no_question_and_no_remark_changes_a_box() -> None:
    """Heard as they were said: misheard, a question may be anything."""
    found, _ = report(0.0, range(20_000, 20_120))
    assert found.meddled == 0, found


def test_the_same_seed_is_the_same_talk() -> None:
    assert one_talk(7, 0.1).log == one_talk(7, 0.1).log


def test_the_electrician_counts_as_published() -> None:
    """Three 14-2 with ground, one receptacle, no clamps: 18.00 (DIY Chatroom thread 102858)."""
    mind = Mind(volume="18")
    mind.things["cable", 14, 2, True] = 3
    mind.things["device", "receptacle", 14] = 1
    assert truth.count(mind).total == Fraction(18)
    assert truth.count(mind).verdict == "fits"


def test_the_electrician_counts_six_grounds_as_published() -> None:
    """Six 12-2: 29.25 under 2017 (DIY Chatroom thread 373905), two quarters more from 2020."""
    mind = Mind(edition="2017")
    mind.things["cable", 12, 2, True] = 6
    assert truth.count(mind).total == Fraction("29.25")
    mind.edition = "2020"
    assert truth.count(mind).total == Fraction("29.25") + Fraction(2, 4) * Fraction("2.25")


def test_the_electrician_would_notice_a_wrong_read_back() -> None:
    """The simulated listener can fail: a wrong count, size, clamp or box is read as such."""
    things = "Two cables of 14-2 with ground and one switch."
    right = f"{things} No clamps inside and box marked 18.0 cubic inches."
    for old, new in (
        ("Two cables", "Three cables"),
        ("14-2", "12-2"),
        ("with ground", "without ground"),
        ("one switch", "one dimmer"),
        ("No clamps inside", "Clamps inside"),
        ("18.0", "80.0"),
        ("one switch", "one switch, twelve conductors of 10 AWG passing through"),
        ("one switch", "one switch, two somethings of ground wire"),
    ):
        assert reply_reading.read(right) != reply_reading.read(right.replace(old, new)), new


def listening(last: str, *parts: Part) -> Electrician:
    """Somebody who has just said `last`, by which `parts` were told: a receptacle on the 14 beside
    a 12, in a 4 by 1-1/2 octagon."""
    mind = Mind(volume="15.5", standard=("octagon", "one and a half"))
    mind.things["cable", 14, 2, True] = mind.things["cable", 12, 2, True] = 1
    mind.things["device", "receptacle", 14] = 1
    somebody = Electrician(mind, random.Random(1), lively=False)
    somebody._last, somebody._parts, somebody._move = last, list(parts), "tell"
    return somebody


def asked_back(*said: str, doubtful: str) -> Reply:
    """The reply to the last of these, of which the ear was unsure."""
    talk = Conversation()
    for words in said:
        talk.hear(words)
    reply = talk.hear([Word(word, 0.5) for word in doubtful.split()])
    assert reply.asks == "confirm"
    return reply


BOTH_SIZES = ("a receptacle", "a 14-2 and a 12-2", "clamps inside", "a box of 30 cubic inches")


@pytest.mark.parametrize(("size", "right"), [("the fourteens", True), ("the twelves", False)])
def test_the_electrician_knows_what_a_device_is_on_when_that_is_asked_back(
    size: str, right: bool
) -> None:
    said = listening(size).say(asked_back(*BOTH_SIZES, doubtful=size)) or ""
    assert (said in ("yes", "correct", "that's right")) is right, said


def test_the_electrician_takes_words_of_his_own_that_are_quoted_for_his() -> None:
    own = "a four inch octagon one and a half deep"
    said = listening(f"{own} one receptacle", Part("box")).say(asked_back(doubtful=own))
    assert said in ("yes", "correct", "that's right")
    other = "a four inch octagon two and an eighth deep"
    assert listening(f"{own} one receptacle", Part("box")).say(asked_back(doubtful=other)) == "no"
