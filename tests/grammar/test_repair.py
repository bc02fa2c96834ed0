"""Words mended: looking first which words come into question changes no answer.

The distance is that of optimal string alignment as rapidfuzz measures it.
"""

from __future__ import annotations

import itertools
import subprocess
import sys

import pytest
from boxaloud.grammar.lexer import misspellings
from boxaloud.grammar.phrases.best_cover import engine
from hypothesis import given
from hypothesis import strategies as st
from rapidfuzz.distance import OSA

SHORT = [
    "".join(word) for length in range(1, 5) for word in itertools.product("abc", repeat=length)
]


@pytest.mark.parametrize("slips", [1, 2])
def test_no_word_is_left_out_that_is_close_enough(slips: int) -> None:
    for text, word in itertools.product(SHORT, SHORT):
        if text[0] == word[0] and OSA.distance(text, word) <= slips:
            assert misspellings._may_be(text, word, slips), (text, word)


def test_one_slip_is_one_slip() -> None:
    for text, word in itertools.product(SHORT, SHORT):
        assert misspellings._one_slip(text, word) == (OSA.distance(text, word) <= 1), (text, word)


@given(st.data())
def test_a_slip_is_mended_as_if_every_word_were_compared(data: st.DataObject) -> None:
    mender = engine().symbols._mender
    letters = list(data.draw(st.sampled_from(mender._words)))
    for _ in range(data.draw(st.integers(1, 3))):
        place = data.draw(st.integers(0, len(letters) - 1))
        letters[place] = data.draw(st.sampled_from(["", "a", "e", "s", letters[place] * 2, "th"]))
        if not "".join(letters):
            return
    text = "".join(letters)
    mended = mender.mend(text)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(misspellings, "_may_be", lambda *_: True)
        assert mended == mender.mend(text)


def test_a_word_like_no_other_is_not_compared() -> None:
    code = (
        "import sys; from boxaloud.grammar import understand\n"
        "understand('two switches in the bedroom')\n"
        "assert 'rapidfuzz' not in sys.modules\n"
        "understand('two swiches'); assert 'rapidfuzz' in sys.modules"
    )
    subprocess.run([sys.executable, "-c", code], check=True)
