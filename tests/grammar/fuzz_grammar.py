"""Random input at length: `python tests/grammar/fuzz_grammar.py [how many] [seed]`.

Bytes, Unicode and shuffled words of the trade. Prints how many were tried and the slowest.
"""

from __future__ import annotations

import random
import sys
import time

from boxaloud.grammar import recognise, understand, vocabulary
from boxaloud.grammar.acts import SetSize
from boxaloud.grammar.phrases.statements import KINDS
from boxaloud.grammar.rewriting.rewriter import rewritten_first
from boxaloud.grammar.utterance.layout import single_spaced

ASKED = (None, "box", "clamps", "device_size", "gangs", "grounds", "confirm", "box_depth", "canopy")
SIGNS = '14-2|14/2|12/3s|22.5|2-1/8|½|4-11/16|,|.|;|\n|(|)|#|"|x|w/|&|-3|1,000|0|99|²|é|٣|to|for'


def check(said: str, asked: str | None) -> None:
    """Raise AssertionError where an utterance breaks a promise of `understand`."""
    understanding = understand(said, asked)
    assert understanding.heard == said
    last = 0
    for statement in sorted(understanding.statements, key=lambda statement: statement.span):
        start, end = statement.span
        assert last <= start < end, (said, statement)
        assert said[start:end] == statement.words, (said, statement)
        assert set(statement.slots) <= set(KINDS[statement.kind]), (said, statement)
        assert None not in statement.slots.values(), (said, statement)
        last = end
    for run in understanding.left_over:
        assert run in said, (said, run)
    _check_acts(said, asked)


def _check_acts(said: str, asked: str | None) -> None:
    """Raise AssertionError where an utterance breaks a promise of `recognise`."""
    found = recognise(said, asked)
    spaced = single_spaced(said)
    # what is put in plain words before anything else stands so in `heard`, letter over letter
    assert found.heard in (spaced, rewritten_first(spaced, asked))
    assert len(found.heard) == len(spaced)
    said = found.heard
    for act in found.acts:
        start, end = act.span
        if isinstance(act, SetSize):  # see test_a_box_told_in_two_pieces_has_one_place
            start, end = sorted(act.span)
        assert 0 <= start <= end <= len(said), (said, act)
    for run in found.unread:
        assert said[run.span[0] : run.span[1]] == run.words, (said, run)


def said_at_random(chance: random.Random, words: list[str]) -> str:
    """Bytes, Unicode, or words of the trade in any order."""
    way = chance.random()
    if way < 0.25:
        return bytes(chance.randrange(256) for _ in range(chance.randrange(60))).decode("latin-1")
    if way < 0.5:
        tops = (0x7F, 0x3000, 0x110000)
        letters = (chr(chance.randrange(chance.choice(tops))) for _ in range(chance.randrange(50)))
        return "".join(letters)
    return " ".join(chance.choice(words) for _ in range(chance.randrange(25)))


def main(tries: int, seed: int) -> None:
    """Try `tries` random utterances."""
    chance = random.Random(seed)
    words = [*sorted(vocabulary()), *SIGNS.split("|")]
    slowest = 0.0
    understand("two 14-2 cables")
    for _ in range(tries):
        said, asked = said_at_random(chance, words), chance.choice(ASKED)
        began = time.perf_counter()
        check(said, asked)
        slowest = max(slowest, time.perf_counter() - began)
    slow = f"the slowest {slowest * 1000:.1f} ms"
    sys.stdout.write(f"{tries} utterances, no promise broken, {slow}\n")


if __name__ == "__main__":
    arguments = [int(argument) for argument in sys.argv[1:]]
    main(*(arguments + [100_000, 1][len(arguments) :]))
