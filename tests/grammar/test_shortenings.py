"""Words of the trade that are written short. The short forms are common practice of estimators."""

from __future__ import annotations

import pytest
from boxaloud.grammar.lexer.heard_words import Word
from boxaloud.grammar.phrases.statement_parser import understand
from boxaloud.grammar.phrases.vocabulary import written_out


@pytest.mark.parametrize(
    ("short", "full"),
    [
        ("pigtls", "pigtails"), ("octgn", "octagon"), ("swtchs", "switches"),
        ("rcptcl", "receptacle"), ("hndy", "handy"), ("plstc", "plastic"), ("fxt", "fixture"),
        ("cndctrs", "conductors"), ("trmnl", "terminal"), ("wrnts", "wirenuts"),
        ("wthrprf", "weatherproof"), ("blnk", "blank"), ("dmr", "dimmer"),
    ],
)  # fmt: skip
def test_what_is_written_short_is_the_word_that_it_is_short_for(short: str, full: str) -> None:
    assert written_out(short) == full


@pytest.mark.parametrize(
    "word",
    [
        "stand", "hands", "sports", "comb", "cpr", "weather", "stan", "dry", "clam", "insulted",
        "tmr", "brb", "hvac", "vfd", "mdp", "lunch", "ham", "con", "st", "xyz", "hrs",
    ],
)  # fmt: skip
def test_an_ordinary_word_and_initials_are_short_for_nothing(word: str) -> None:
    assert written_out(word) == word


@pytest.mark.parametrize("word", ["strp", "cn", "rn", "cvrd", "smplst"])
def test_what_may_be_short_for_several_words_or_none_is_left(word: str) -> None:
    assert written_out(word) in (word, "strip")


def test_a_slip_in_a_word_is_mended_and_told() -> None:
    """Where all but one letter is there, nobody wrote it short."""
    assert written_out("recptacle") == "recptacle"
    assert any(
        doubt.reason == "repaired" for doubt in understand("one recptacle").statements[0].doubts
    )


def test_an_ear_writes_nothing_short() -> None:
    assert understand("one rcptcl").statements
    assert not any(
        one.kind == "device" for one in understand([Word("one"), Word("rcptcl")]).statements
    )
