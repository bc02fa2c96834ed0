"""Utterances at random: what people say, said wrongly, and what nobody would say.

The same seed gives the same utterances on every machine.
"""

from __future__ import annotations

import random
import tomllib
from functools import cache
from pathlib import Path

from boxaloud.grammar import vocabulary
from spoken_cases import cases

PIECES = tomllib.loads(Path(__file__).with_name("pieces.toml").read_text(encoding="utf-8"))
ODD: list[str] = PIECES["odd"]
OPEN = (None, "box", "clamps", "device_size", "gangs", "grounds", "confirm", "box_depth", "canopy",
        "contents", "unread")  # fmt: skip


@cache
def said() -> list[str]:
    """What people say: the corpus of the grammar."""
    return list(dict.fromkeys(case.say for case in cases()))


@cache
def words() -> list[str]:
    """The words of the trade, in one order."""
    return sorted(vocabulary())


def utterance(chance: random.Random) -> str:
    """One utterance, of any kind."""
    return _WAYS[_bisect(chance.random())](chance)


def asked(chance: random.Random) -> str | None:
    """An open question, or none."""
    return chance.choice(OPEN)


def _as_said(chance: random.Random) -> str:
    return chance.choice(said())


def _spliced(chance: random.Random) -> str:
    first, last = _as_said(chance), _as_said(chance)
    return first[: chance.randrange(len(first) + 1)] + last[chance.randrange(len(last) + 1) :]


def _slipped(chance: random.Random) -> str:
    """Words left out, said twice, exchanged, or odd ones among them."""
    parts = _as_said(chance).split(" ")
    for _ in range(chance.randrange(1, 5)):
        place = chance.randrange(len(parts) + 1)
        match chance.randrange(4):
            case 0:
                parts[place : place + 1] = []
            case 1:
                parts[place:place] = parts[place : place + 3]
            case 2:
                parts[place:place] = [chance.choice(ODD)]
            case 3:
                parts[place : place + 2] = reversed(parts[place : place + 2])
    return " ".join(parts)


def _misspelt(chance: random.Random) -> str:
    letters = list(_as_said(chance))
    for _ in range(chance.randrange(1, 6)):
        place = chance.randrange(len(letters) + 1)
        letters[place : place + chance.randrange(2)] = chance.choice(ODD)[:1]
    return "".join(letters)


def _shuffled(chance: random.Random) -> str:
    return " ".join(chance.choice(words()) for _ in range(chance.randrange(25)))


def _odd(chance: random.Random) -> str:
    among = (chance.choice(ODD if chance.random() < 0.6 else words()) for _ in range(12))
    return chance.choice(["", " "]).join(list(among)[: chance.randrange(13)])


def _over_and_over(chance: random.Random) -> str:
    piece = chance.choice(ODD) if chance.random() < 0.5 else _as_said(chance)[:30]
    return chance.choice(["", " ", ", "]).join([piece] * chance.choice([2, 3, 8, 40]))


def _letters(chance: random.Random) -> str:
    tops = (0x7F, 0x250, 0x3000, 0x110000)
    return "".join(chr(chance.randrange(chance.choice(tops))) for _ in range(chance.randrange(50)))


_SHARES = (0.30, 0.15, 0.17, 0.08, 0.12, 0.09, 0.03, 0.06)
_WAYS = (_as_said, _spliced, _slipped, _misspelt, _shuffled, _odd, _over_and_over, _letters)


def _bisect(share: float) -> int:
    for place, part in enumerate(_SHARES):
        share -= part
        if share < 0:
            return place
    return len(_SHARES) - 1
