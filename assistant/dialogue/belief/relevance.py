"""Whether words change the box at all, judged by what people say: a second opinion on the grammar.

A logistic regression on the words of an utterance, one to three in a row, with numbers, cables and
devices as signs of their kind. Its weights (`data/relevance.txt`) are fitted by
`tests/understanding/fit_relevance.py` on what outside authors said of boxes and beside them. It
reads nothing and brings nothing in: it only says how likely the words were meant for the box.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from importlib.resources import files
from itertools import chain
from math import isqrt

_DATA = files("boxaloud.assistant.dialogue.belief") / "data" / "relevance.txt"
_ONES = "one|two|three|four|five|six|seven|eight|nine"
_TEENS = "ten|eleven|twelve|thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen"
_TENS = "twenty|thirty|forty|fifty|sixty"
_NUMBER = rf"(?:{_ONES}|{_TEENS}|{_TENS}|\d+(?:\.\d+)?)"
#: Sizes of cables, names of devices and numbers, each as its sign.
_SIGNS = (
    (re.compile(r"\b(?:1[024]|[68])[-/ ][234](?:[-/ ][23])?(?:'?s)?\b"
                r"|\b(?:fourteen|twelve|ten|eight|six)[- ](?:twos?|threes?|fours?)\b"), " @ "),
    (re.compile(r"\b(?:receptacle|outlet|plug|switch|dimmer|gfci|gfi|duplex|three-way|3-way"
                r"|four-way|recep|toggle|timer|combo)(?:e?s)?\b"), " $ "),
    (re.compile(rf"\b{_NUMBER}(?:[- ](?:and a )?{_NUMBER})*\b"), " # "),
)  # fmt: skip
#: How somebody begins, hesitates or asks: it tells nothing of what he speaks of.
_EMPTY = re.compile(
    r"\b(?:um+|uh+|er+|hm+|hello|hi|hey|please|ok|okay|well|thanks|thank you|alright|now then)\b"
)
_WORDS = re.compile(r"[a-z'@#$]+")
_ENDS = "^"
_LONGEST = 3
SCALE = 20
"""A weight of so much is one in log odds."""


def features(heard: str) -> Iterator[str]:
    """The runs of one to three words of an utterance, each once.

    >>> sorted(features("two 14-2s"))
    ['#', '# @', '# @ ^', '@', '@ ^', '^ #', '^ # @']
    """
    text = _EMPTY.sub(" ", heard.lower().replace("’", "'"))
    for sign, kind in _SIGNS:
        text = sign.sub(kind, text)
    words = [_ENDS, *_WORDS.findall(text), _ENDS]
    runs = [words[1:-1]]  # the ends alone tell nothing
    runs += [
        [" ".join(run) for run in zip(*(words[at:] for at in range(length)), strict=False)]
        for length in range(2, _LONGEST + 1)
    ]
    yield from dict.fromkeys(chain(*runs))


def relevance(heard: str) -> int:
    """How likely the words change the box, in hundredths of log odds: above zero, more likely
    than not."""
    weights = _weights()
    found = [weight for run in features(heard) if (weight := weights.get(run)) is not None]
    bias = weights[""]
    if not found:
        return bias * 100 // SCALE
    root = isqrt(len(found) * 1_000_000)
    return (bias * 100 + sum(found) * 100_000 // root) // SCALE


@cache
def _weights() -> dict[str, int]:
    """The weight of each run of words; of none, the bias."""
    lines = _DATA.read_text(encoding="utf-8").splitlines()
    rows = (line.split("\t") for line in lines if not line.startswith("; "))
    return {words: int(weight) for weight, words in rows}
