"""The main job talked through by somebody with a box in mind, in the quiet and in noise.

The truth is the electrician's own arithmetic (truth.py, from 314.16 as published); the product
is only heard. `python -m electrician.thousand` in tests/dialogue runs a thousand boxes a level.
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from electrician import reply_reading, truth
from electrician.measures import one_talk, report
from electrician.mind import Mind

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
