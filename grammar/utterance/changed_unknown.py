"""What nobody knows, told to be another: "change the frobnicator to 20 cubic inches". What is read
behind it may be of something else than the box, so that it weighs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer.numbers import value
from boxaloud.grammar.phrases.vocabulary import known_words
from boxaloud.grammar.utterance.headings import ROOM_WORDS, ROOMS

_CHANGES = lazy_pattern(
    r"(?i)\b(?:change|switch|set|make|turn|swap|move) (?:the|that|this|my) (?P<what>[a-z]{3,})"
    r"(?= (?:to|into|for) )"
)


def changed_unknown(made: Sequence[Act], heard: str, left: Sequence[Unread]) -> Iterator[Unread]:
    """Words of no thing that is known, where an order to change them is told with what is."""
    if not made:
        return
    for found in _CHANGES.finditer(heard):
        what = found["what"].lower()
        if _is_known(what):
            continue
        if not any(run.span[0] < found.end() and found.start() < run.span[1] for run in left):
            yield Unread(found[0], found.span(), True)


def _is_known(what: str) -> bool:
    """Whether a word is one of the trade's, of a place, or a size: "the fourteens"."""
    singles = (what, what.removesuffix("s"), what.removesuffix("es"))
    if any(one in known_words() or one in ROOMS or one in ROOM_WORDS for one in singles):
        return True
    return any(value((one,)) is not None for one in singles)


__all__ = ["changed_unknown"]
