"""The search of the learnt ear, with letters made up for the purpose.

What it finds is held against every sentence of a small language, each worked out by the forward
recursion of Graves and others (2006, section 4.1), written here from its equations.
"""

from __future__ import annotations

import itertools
import math
from pathlib import Path

import numpy as np
import pytest
from boxaloud.assistant.asr.engines.ctc import prefix_beam_search
from boxaloud.assistant.asr.engines.ctc.alphabet import ALPHABET
from boxaloud.assistant.asr.engines.ctc.forced_alignment import align
from boxaloud.assistant.asr.engines.ctc.letter_tree import LetterTree, is_spelled
from boxaloud.assistant.asr.engines.ctc.prefix_beam_search import (
    LM_WEIGHT,
    WORD_BONUS,
    PrefixBeamSearch,
)
from boxaloud.assistant.asr.lm.trigram_scorer import SENTENCE_START, TrigramScorer

WORDS = ("a", "to", "two", "too", "toe", "~tow", "~two", "tee")
ARPA = """\
\\data\\
ngram 1=10
ngram 2=2

\\1-grams:
-1.0 </s>
-99.0 <s> -0.1
-0.9 a -0.1
-1.1 to -0.1
-0.7 two -0.1
-1.6 too -0.1
-1.7 toe -0.1
-1.5 ~tow -0.1
-1.9 ~two -0.1
-1.4 tee -0.1

\\2-grams:
-0.2 two two
-0.5 <s> two

\\end\\
"""


@pytest.fixture
def scorer(tmp_path: Path) -> TrigramScorer:
    path = tmp_path / "some.lm"
    path.write_text(ARPA, encoding="utf-8")
    return TrigramScorer(path, LetterTree(WORDS).words)


@pytest.fixture
def search(monkeypatch: pytest.MonkeyPatch) -> PrefixBeamSearch:
    """So wide that nothing is left out."""
    monkeypatch.setattr(prefix_beam_search, "BEAM_WIDTH", 10_000)
    monkeypatch.setattr(prefix_beam_search, "BEAM_THRESHOLD", 1e9)
    monkeypatch.setattr(prefix_beam_search, "MIN_LETTER", -1e9)
    monkeypatch.setattr(prefix_beam_search, "SURELY_BLANK", 1.0)
    return PrefixBeamSearch(LetterTree(WORDS))


def random_letters(places: int, seed: int) -> np.ndarray:
    """Letters likely at random, those of the words more so."""
    dice = np.random.default_rng(seed)
    scores = dice.normal(0, 2, (places, 29))
    scores[:, [0, *(1 + ALPHABET.index(one) for one in "two ea")]] += 4
    found: np.ndarray = scores - np.log(np.exp(scores).sum(1, keepdims=True))
    return found.astype(np.float32)


def letters_of(text: str, blanks: int = 1, sure: float = 0.9) -> np.ndarray:
    """What a network gives that hears a text well, each letter once between blanks."""
    rows = []
    for letter in text:
        rows += [1 + ALPHABET.index(letter)] + [0] * blanks
    found = np.full((len(rows), 29), (1 - sure) / 28)
    found[np.arange(len(rows)), rows] = sure
    logarithms: np.ndarray = np.log(found)
    return logarithms.astype(np.float32)


def forward(letters: np.ndarray, text: str) -> float:
    """The logarithm of the sum over all ways to place the letters of a text."""
    labels = [0]
    for letter in text:
        labels += [1 + ALPHABET.index(letter), 0]
    likely = np.exp(letters.astype(float))
    alpha = [0.0] * len(labels)
    alpha[0], alpha[1] = likely[0][0], likely[0][labels[1]]
    for row in likely[1:]:
        new = []
        for s, label in enumerate(labels):
            whole = alpha[s] + (alpha[s - 1] if s else 0.0)
            if s > 1 and label not in (0, labels[s - 2]):
                whole += alpha[s - 2]
            new.append(whole * row[label])
        alpha = new
    whole = alpha[-1] + alpha[-2]
    return math.log(whole) if whole else -math.inf


@pytest.mark.parametrize("seed", range(4))
def test_it_finds_what_trying_every_sentence_finds(
    seed: int, search: PrefixBeamSearch, scorer: TrigramScorer
) -> None:
    letters = random_letters(9, seed)
    every = {}
    for length in (1, 2):
        for words in itertools.product(LetterTree(WORDS).words, repeat=length):
            text = " ".join(word.removeprefix("~") for word in words)
            liked = forward(letters, text) if len(text) <= 9 else -math.inf
            if liked == -math.inf:
                continue
            spoken = 0.0
            for at, word in enumerate((*words, "</s>")):
                before = (SENTENCE_START, *words[:at])[-2:]
                number = (*LetterTree(WORDS).words, "</s>").index(word)
                spoken += LM_WEIGHT * scorer.after(before)[number]
            every[words] = liked + spoken + WORD_BONUS * length
    found = search.search(letters.tolist(), scorer)
    short = {one.words: one.merit for one in found if len(one.words) < 3}
    wanted = sorted(every, key=lambda words: -every[words])
    # a space behind the last word is another way to the same words: the search counts it too
    for words in wanted[:5]:
        text = " ".join(word.removeprefix("~") for word in words)
        behind = forward(letters, text + " ") if len(text) < 9 else -math.inf
        both = np.logaddexp(forward(letters, text), behind)
        due = every[words] + float(both) - forward(letters, text)
        assert short[words] == pytest.approx(due, abs=1e-3)


def test_a_narrow_beam_finds_what_is_plainly_said(scorer: TrigramScorer) -> None:
    search = PrefixBeamSearch(LetterTree(WORDS))
    found = search.search(letters_of("two two a").tolist(), scorer)
    assert found[0].words == ("two", "two", "a")


def test_double_letters_need_a_blank_between_them(scorer: TrigramScorer) -> None:
    search = PrefixBeamSearch(LetterTree(WORDS))
    assert search.search(letters_of("tee").tolist(), scorer)[0].words == ("tee",)
    rows = letters_of("te", blanks=0)
    stretched = np.concatenate([rows[:1], rows[1:2], rows[1:2]])  # one long e is no two
    assert all(
        one.words != ("tee",) or one.liked < -3 for one in search.search(stretched.tolist(), scorer)
    )


def test_a_word_of_other_talk_is_told_from_the_same_one_of_the_trade(
    scorer: TrigramScorer,
) -> None:
    search = PrefixBeamSearch(LetterTree(WORDS))
    found = {one.words: one.merit for one in search.search(letters_of("two").tolist(), scorer)}
    # the trade says it oftener at the start of a sentence, by the bigram
    assert found["two",] > found["~two",]


def test_nothing_but_blanks_is_no_words(scorer: TrigramScorer) -> None:
    blank = np.full((20, 29), -30.0, np.float32)
    blank[:, 0] = 0.0
    assert PrefixBeamSearch(LetterTree(WORDS)).search(blank.tolist(), scorer) == ()


@pytest.mark.parametrize("before", [(), ("two",), (SENTENCE_START, "two"), ("a", "to")])
def test_the_likeliest_word_below_every_node(
    scorer: TrigramScorer, before: tuple[str, ...]
) -> None:
    tree = LetterTree(WORDS)
    likely = scorer.after(before)
    paths = {0: ""}
    for node, children in enumerate(tree.children):
        for letter, child in children.items():
            paths[child] = paths[node] + ALPHABET[letter - 1]
    for node, path in paths.items():
        below = [
            likely[number]
            for number, word in enumerate(tree.words)
            if word.removeprefix("~").startswith(path)
        ]
        assert likely.likeliest(*tree.below(node)) == max(below)


@pytest.mark.parametrize("word", ["", "14", "naïve", "no clamps"])
def test_what_cannot_be_written_is_no_word_of_the_tree(word: str) -> None:
    assert not is_spelled(word)
    assert is_spelled("o'clock")
    assert is_spelled("~tree")


def test_words_lie_where_they_were_said() -> None:
    found = align(letters_of("two a", blanks=1).tolist(), ["two", "a"])
    assert found is not None
    assert found.spans == ((0, 5), (8, 9))
    assert sum(found.margins) == pytest.approx(0.0, abs=1e-5)


def test_what_was_said_behind_the_words_shows_as_a_stretch_that_is_strange() -> None:
    letters = letters_of("two two a").tolist()
    whole, part = align(letters, ["two", "two", "a"]), align(letters, ["two"])
    assert whole is not None
    assert part is not None
    assert whole.worst(15) < 0.1
    assert part.worst(15) > 10
    assert whole.own(0) < 0.1


def test_too_little_sound_for_the_words_is_no_alignment() -> None:
    assert align(letters_of("a").tolist(), ["switches", "two"]) is None
