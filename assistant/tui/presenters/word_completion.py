"""The rest of a word that is being typed: a box of the job, or a word of the trade."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from functools import cache
from itertools import chain

from boxaloud.assistant.tui.tui_messages import table
from boxaloud.grammar import help_topics, vocabulary

_WORD = re.compile(r"[a-z]+")
LEAST = 3
"""Letters that must be there before anything is offered."""


@cache
def trade_words() -> tuple[str, ...]:
    """The words that the grammar knows. Slow the first time: 0.4 s.

    What is in boxes comes first, so that "rec" is a receptacle rather than a recap; then what
    the examples of the help use; the shorter before the longer.
    """
    first = table("completion")["first"]
    used = set(_WORD.findall(" ".join(chain.from_iterable(help_topics().values())).lower()))
    known = {*vocabulary(), *used} - set(first)
    long_enough = (word for word in known if len(word) > LEAST and word.isalpha())
    others = sorted(long_enough, key=lambda word: (word not in used, len(word), word))
    return (*first, *others)


def completed(typed: str, boxes: Iterable[str], words: Sequence[str]) -> str | None:
    """The line with its last word, or the name of a box, completed; None where nothing is known.

    A word that is whole already is left as it is.
    """
    for name in boxes:
        for start in _starts(typed):
            begun = typed[start:]
            if len(begun) >= LEAST and len(begun) < len(name) and name.lower().startswith(
                begun.lower()
            ):  # fmt: skip
                return typed + name[len(begun) :]
    last = typed[typed.rfind(" ") + 1 :].lower()
    if len(last) < LEAST or last in words:
        return None
    found = next((word for word in words if word.startswith(last)), None)
    return typed + found[len(last) :] if found else None


def _starts(typed: str) -> Iterable[int]:
    """Where each word of a line begins, from the first."""
    yield 0
    yield from (at + 1 for at, character in enumerate(typed) if character == " ")
