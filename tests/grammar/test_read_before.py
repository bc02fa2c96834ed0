"""An utterance that was read before is read as it was the first time.

Past defect this prevents: an answer to one question taken for the same words under another.
"""

from __future__ import annotations

import pytest
from boxaloud.grammar import acts, recognise
from boxaloud.grammar.utterance import act_recognizer
from boxaloud.grammar.utterance.read_before import LONGEST

SAID = ("two 14-2s and a switch", "twelve", "no", "18 cubic inches", "what if the clamps go")


@pytest.mark.parametrize("expect", [None, "device_size", "confirm", "box"])
@pytest.mark.parametrize("said", SAID)
def test_it_is_read_as_the_first_time_under_every_question(said: str, expect: str | None) -> None:
    due = act_recognizer.recognise(said, expect)
    assert recognise(said, expect) == recognise(said, expect) == due


def test_own_words_are_read_anew() -> None:
    assert recognise("a widget").acts == ()
    taken = recognise("a widget", aliases={"widget": "dimmer"}).acts
    assert [type(act) for act in taken] == [acts.AddDevice]
    assert recognise("a widget").acts == ()


def test_a_long_utterance_is_not_remembered() -> None:
    said = "two 14-2s, " * LONGEST
    assert recognise(said) is not recognise(said)
