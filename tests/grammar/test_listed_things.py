"""A plain list that is read thing by thing is read as it would be as a whole.

What is compared with is the reading of the whole list, word by word, which knows nothing of this.
"""

from __future__ import annotations

import random

import pytest
from boxaloud.grammar.utterance import listed_things
from boxaloud.grammar.utterance.act_recognizer import recognise
from boxaloud.grammar.utterance.listed_things import learn, parted, put_together

NUMBERS = (
    "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
    "twelve", "1", "2", "3", "4", "6", "9", "12",
)  # fmt: skip
FORMS = ("", "s", " cables", " cable", " cables with ground")
WAYS = ("", "", "single pole ", "single-pole ", "three way ", "3-way ", "four-way ")
DEVICES = (
    "switch", "switches", "dimmer", "gfci", "GFCIs", "receptacle", "receptacles", "duplex",
    "Switch",
)  # fmt: skip
UNITS = (" cubic inches", " cubic inch", " cu in", " cubic inch box")
VOLUMES = ("18", "20.3", "12.5", "14", "30.3", "42", "10", "22.25")
ASKED = (None, None, "box", "clamps", "contents")
EACH = ["two 14-2s", "a switch", "no clamps", "18 cubic inches"]
PLAIN = (
    "no clamps", "no clamps inside", "clamps inside", "clamps outside", "no devices", "no device",
)  # fmt: skip


def thing(dice: random.Random) -> str:
    """A thing as a list may hold it, right or a little wrong."""
    match dice.randrange(4):
        case 0:
            size = f"{dice.choice(['14', '12', '10'])}{dice.choice('-/')}{dice.choice('23')}"
            return f"{dice.choice(NUMBERS)} {size}{dice.choice(FORMS)}"
        case 1:
            count = dice.choice(["a", "an", *NUMBERS[:6]])
            return f"{count} {dice.choice(WAYS)}{dice.choice(DEVICES)}"
        case 2:
            return dice.choice(VOLUMES) + dice.choice(UNITS)
    return dice.choice(PLAIN)


def made_up(dice: random.Random) -> str:
    things = [thing(dice) for _ in range(dice.randint(2, 6))]
    text = things[0]
    for one in things[1:]:
        text += dice.choice([", ", ", ", " and ", ", and "]) + one
    return text + dice.choice(["", "", "."])


@pytest.fixture(autouse=True)
def nothing_known(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(listed_things, "_known", {})


def test_a_list_of_known_things_is_read_as_it_is_read_as_a_whole() -> None:
    """Whatever lists the things were met in."""
    dice = random.Random(11)
    taken = 0
    for _ in range(4000):
        words, asked = made_up(dice), dice.choice(ASKED)
        if things := parted(words, asked):
            found, read = put_together(words, things), recognise(words, asked)
            if found is not None:
                taken += 1
                assert found == read, words
            learn(things, read)
    assert taken > 300


@pytest.mark.parametrize(
    "words",
    [
        "two 14-2s, a switch, no clamps, 18 cubic inch box",
        "three 12/2 cables and a GFCI, clamps inside, 20.3 cubic inches",
        "six 12-2 cables, no devices, no clamps, 42 cubic inch box",
    ],
)
def test_what_is_most_often_said_is_such_a_list(words: str) -> None:
    things = parted(words, None)
    assert put_together(words, things) is None  # nothing is known of it
    learn(things, recognise(words))
    assert put_together(words, things) == recognise(words)


@pytest.mark.parametrize(
    "words",
    [
        "two 14-2s and one more 14-2",
        "two 14-2s, three 14-2s, a switch",
        "a switch, no devices",
        "two 14-2s, one of them a 14-3",
        "two 14-2s, a switch on the 14s",
        "two 14-2s, a switch, no clamps?",
        "not two 14-2s, three 12-2s",
        "two 14-2s, a switch, 18",
        "two 14-2 cables, one 12-2",
        "two 14-2s, the switch",
        "one 14-2, another switch",
        "two 14-2s,  a switch",
        "two 14-2s, a switch, 18 cubic inches, 20 cubic inches",
        "clamps inside, no clamps",
        "a switch",
    ],
)
def test_what_points_or_repeats_is_no_plain_list(words: str) -> None:
    """Not even where all of its things are known."""
    learn(EACH, recognise(", ".join(EACH)))
    assert parted(words, "confirm") == []
    things = parted(words, None)
    assert not things or put_together(words, things) is None


def test_a_thing_that_a_list_made_something_else_of_is_not_learnt() -> None:
    things = ["two 14-2s", "three 14-2s", "a switch"]
    learn(things, recognise(", ".join(things)))
    assert put_together("three 14-2s, a switch", ["three 14-2s", "a switch"]) is None
