"""What the training voices say: the trade's sentences, short answers, and everything else.

The trade's come from the grammar's own sampler; general English from the examples in WordNet's
glosses (WordNet licence: free use with its notice). What a test statement says is left out.
"""

from __future__ import annotations

import random
import re
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path

from boxaloud.grammar import sample, vocabulary
from rapidfuzz.distance import Levenshtein

QUESTIONS = (None, "box", "clamps", "grounds", "device_size", "confirm")
SHORT = [
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
    "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen",
    "nineteen", "twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety",
    "hundred", "yes", "no", "yeah", "yep", "nope", "inside", "outside", "none", "both",
    "right", "wrong",
]  # fmt: skip
#: Those that answer most questions: half of what is drawn of `SHORT`.
ANSWERS = [*SHORT[:13], "yes", "no", "none", "right"]
#: Shares of a training set, by kind of text: `near` are words that sound like a short one.
SHARES = {
    "trade": 0.30, "short": 0.28, "numbers": 0.06, "near": 0.13, "word": 0.09, "words": 0.04,
    "other": 0.10,
}  # fmt: skip
GLOSS_FILES = ("data.noun", "data.verb", "data.adj", "data.adv")
LONGEST = 22


def plain(sentence: str) -> list[str]:
    """The words of a sentence in small letters, everything else left out."""
    return re.sub(r"[^a-z' ]", " ", sentence.lower()).split()


def wordnet_examples(folder: Path) -> list[str]:
    """The quoted examples of WordNet's glosses, of 2 to 12 words, letters only."""
    found: list[str] = []
    for name in GLOSS_FILES:
        for line in (folder / name).read_text(encoding="latin-1").splitlines():
            for example in re.findall(r'"([^"]+)"', line.partition("|")[2]):
                if re.fullmatch(r"[A-Za-z',;\- ]+", example) and not re.search("[A-Z]{2}", example):
                    words = plain(example)
                    if 2 <= len(words) <= 12:
                        found.append(" ".join(words))
    return found


def trade_sentences(many: int, seed: int, questions: tuple[str | None, ...]) -> list[str]:
    """Sentences of the trade, half of them with no question open."""
    share = many // (2 * max(1, len(questions)))
    found = list(sample(many - share * len(questions), seed, None))
    for place, question in enumerate(questions):
        found += list(sample(share, seed + 1 + place, question))
    return [said for said in found if said.strip() and len(said.split()) <= LONGEST]


def unstressed(sounds: str | None) -> str:
    """Phonemes without the marks of stress; empty where there are none."""
    return re.sub("[ˈˌ]", "", sounds or "")


def near(words: Iterable[str], sounds: Callable[[str], str | None]) -> list[str]:
    """The words that `sounds` tells from one of `SHORT` by one phoneme, stress left out."""
    short = {said for word in SHORT if (said := unstressed(sounds(word)))}
    return [
        word
        for word in words
        if (said := unstressed(sounds(word)))
        and said not in short
        and any(Levenshtein.distance(said, one, score_cutoff=1) <= 1 for one in short)
    ]


def alike(words: Iterable[str], sounds: Callable[[str], str | None]) -> frozenset[str]:
    """The words that sound like one of `SHORT` and are written otherwise: said alone, no ear can
    tell which was meant, and one that is taught both ways is sure of neither."""
    short = {said for word in SHORT if (said := unstressed(sounds(word)))}
    return frozenset(
        word for word in words if word not in SHORT and unstressed(sounds(word)) in short
    )


def texts(
    many: int,
    seed: int,
    wordnet: Path,
    held: frozenset[str],
    questions: tuple[str | None, ...],
    sounds: Callable[[str], str | None],
) -> Iterator[str]:
    """`many` sentences to speak, the same for the same seed; none of three words or more in
    `held`, and no word alone that is in it and no short answer. `sounds` tells a word's
    phonemes."""
    chance = random.Random(seed)
    trade = [
        said
        for said in trade_sentences(many, seed, questions)
        if said not in held or len(said.split()) < 3
    ]
    other = [said for said in wordnet_examples(wordnet) if said not in held]
    chance.shuffle(trade)
    chance.shuffle(other)
    every = {word for said in other for word in said.split() if len(word) > 1}
    general = sorted(every - alike(every, sounds) - held)
    known = sorted(vocabulary() - alike(vocabulary(), sounds))
    confusable = near(general, sounds) or general
    kinds, shares = list(SHARES), list(SHARES.values())
    for place in range(many):
        (kind,) = chance.choices(kinds, shares)
        if kind == "trade":
            yield trade[place % len(trade)]
        elif kind == "other":
            yield other[place % len(other)]
        elif kind == "short":
            yield chance.choice(chance.choices((ANSWERS, SHORT, known), (45, 30, 25))[0])
        elif kind == "numbers":
            yield " ".join(chance.choices(SHORT[:28], k=chance.randint(2, 3)))
        elif kind == "near":
            yield chance.choice(confusable)
        elif kind == "word":
            yield chance.choice(general)
        else:
            yield " ".join(chance.choices(general, k=chance.randint(2, 5)))
