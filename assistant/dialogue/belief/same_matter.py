"""Whether what is said now may be what was said before and not understood, said another way."""

from __future__ import annotations

import re
import tomllib
from collections.abc import Iterable
from importlib.resources import files

from boxaloud.grammar.lexer.numbers import value

_PATH = files("boxaloud.assistant.dialogue.belief") / "data" / "saying_again.toml"
_TABLE = tomllib.loads(_PATH.read_text(encoding="utf-8"))
_EMPTY = frozenset(_TABLE["empty"])
_WORTH: dict[str, str] = _TABLE["worth"]
_AGAIN, _FURTHER = (
    re.compile(_TABLE[name], re.IGNORECASE | re.VERBOSE) for name in ("again", "further")
)
_WORD = re.compile(r"[a-z]+|\d+(?:[-/.]\d+)*")


def same_matter(unread: Iterable[str], heard: str) -> bool:
    """Whether an utterance shares a number or a word that says something with words that were
    not understood, or says of itself that it says them another way.

    >>> same_matter(("two thingamajigs",), "two 14-3s"), same_matter(("two whatsits",), "a switch")
    (True, False)
    """
    return _AGAIN.search(heard) is not None or bool(_telling(" ".join(unread)) & _telling(heard))


def goes_on(heard: str) -> bool:
    """Whether an utterance says of itself that it tells of something further.

    >>> goes_on("and a switch"), goes_on("a switch")
    (True, False)
    """
    return _FURTHER.search(heard) is not None


def has_number(unread: Iterable[str]) -> bool:
    """Whether a number is among the words that were not understood: so many of something."""
    return any(word.replace(".", "").isdigit() for word in _telling(" ".join(unread)))


def _telling(words: str) -> set[str]:
    """The words that say something, numbers by what they are worth, nouns without their s."""
    found = _WORD.findall(words.lower().replace("’", "'"))
    return {_plain(word) for word in found if word not in _EMPTY}


def _plain(word: str) -> str:
    worth = value((word,))
    if worth is not None:
        return str(worth.normalize())
    return _WORTH.get(word, word.removesuffix("s") if len(word) > 3 else word)
