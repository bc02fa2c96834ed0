"""What the properties are tried on: the corpus, the matrix's sentences, and boxes to begin with."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import lru_cache

from boxaloud.assistant.dialogue import Conversation
from boxaloud.grammar.lexer.heard_words import Word
from matrix_rows import rows
from rewriting import spoken
from spoken_cases import cases
from standing import heard

FITS = ("two 14-2s and a switch", "18 cubic inches", "no clamps")
OVER = ("two 14-2s, a switch and a receptacle", "16 cubic inches", "no clamps")
"""4 (1) + 4 (4) + 1 (5) = 9 x 2.00 = 18.00 of 16.0: NEC 314.16(B), Table 314.16(B)(1)."""
OPEN = ("two 14-2s and a switch", "15 cubic inches")
"""14.00, or 16.00 with clamps inside: the question of the clamps is open."""
BASES = {"fits": FITS, "over": OVER, "open": OPEN}

Said = str | list[Word]
Voice = Callable[[str], Said]


def typed(said: str) -> str:
    """The words as a keyboard gives them."""
    return said


def by_ear(said: str) -> list[Word]:
    """The words as a sure ear gives them, without marks."""
    return heard(spoken(said).replace(",", ""))


VOICES: dict[str, Voice] = {"typed": typed, "heard": by_ear}


def begun(base: Sequence[str | list[Word]]) -> Conversation:
    """A conversation with a box described."""
    talk = Conversation()
    for said in base:
        talk.hear(said)
    return talk


@lru_cache(maxsize=1)
def corpus() -> tuple[str, ...]:
    """Every sentence of the grammar's corpus and of the matrix, each once."""
    said = [case.say for case in cases()] + [one for row in rows() for one in row.say]
    return tuple(dict.fromkeys(said))
