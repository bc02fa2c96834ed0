"""How likely words are after others: against the engine's own reading of the same file."""

from __future__ import annotations

import math
from pathlib import Path

import numpy as np
import pytest
from boxaloud.assistant.asr import AsrError
from boxaloud.assistant.asr.lm.trigram_scorer import SENTENCE_START, TrigramScorer

#: A model of the form that ARPA files have; every way of backing off is in it.
ARPA = """\
\\data\\
ngram 1=5
ngram 2=4
ngram 3=2

\\1-grams:
-0.9 </s> -0.30
-99.0 <s> -0.20
-0.7 two -0.25
-0.8 switches -0.15
-1.2 clamps -0.10

\\2-grams:
-0.30 <s> two -0.12
-0.40 two switches -0.22
-0.60 switches </s> 0.0
-0.90 two clamps -0.05

\\3-grams:
-0.10 <s> two switches
-0.20 two switches </s>

\\end\\
"""
#: The base that the embedded engine's models count in.
LOG_BASE = 1.0001
WORDS = ("two", "switches", "clamps")


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "some.lm"
    path.write_text(ARPA, encoding="utf-8")
    return path


@pytest.mark.parametrize(
    "before",
    [
        (),
        (SENTENCE_START,),
        ("two",),
        ("clamps",),
        (SENTENCE_START, "two"),
        ("two", "switches"),
        ("clamps", "two"),
        ("switches", "clamps"),
    ],
)
def test_it_is_what_the_engine_reads_in_the_same_file(file: Path, before: tuple[str, ...]) -> None:
    from pocketsphinx import NGramModel

    theirs = NGramModel.readfile(str(file))
    wanted = [
        theirs.prob([word, *reversed(before)]) * math.log(LOG_BASE) for word in (*WORDS, "</s>")
    ]
    assert np.allclose([*TrigramScorer(file, WORDS).after(before)], wanted, atol=2e-3)


def test_backing_off_by_hand(file: Path) -> None:
    """Katz's rule: after “clamps two” nothing is known of “switches” but that it follows “two”."""
    got = TrigramScorer(file, WORDS).after(("clamps", "two"))
    assert got[1] == pytest.approx(-0.40 * math.log(10))
    unseen = TrigramScorer(file, WORDS).after((SENTENCE_START, "two"))
    assert unseen[2] == pytest.approx((-0.12 - 0.90) * math.log(10))


def test_a_word_that_the_model_has_not_is_as_good_as_impossible(file: Path) -> None:
    assert TrigramScorer(file, ("ladder",)).after(("two",))[0] < -20


def test_a_file_that_is_no_model_is_refused_in_a_sentence(tmp_path: Path) -> None:
    path = tmp_path / "none.lm"
    path.write_text("\\data\\\nngram 1=two\n", encoding="utf-8")
    with pytest.raises(AsrError, match="language model"):
        TrigramScorer(path, WORDS)
