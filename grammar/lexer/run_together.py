"""What a phone's dictation writes in other pieces than it was said in: words in two, fractions run
into the figure before them. Mended where only one thing can have been meant."""

from __future__ import annotations

import re

from boxaloud.grammar import grammar_data
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer import odd_figures
from boxaloud.grammar.lexer.numbers import word_classes

_TIME = lazy_pattern(r"\d{1,2}:[0-5]\d(?![\d:/-]|\.\d)")
#: "x2/14-2": the count of one cable and the next cable, in notes without a space.
_COUNT_BEFORE_CABLE = lazy_pattern(r"(\d{1,3})/((?:14|12|10)[-/][2-4](?:'?s)?)")
_IMPROPER = lazy_pattern(r"(\d)(\d{1,2})/(2|4|8|16)")
_IN_TWO: frozenset[str] = frozenset(grammar_data.table("lexicon")["words"]["in_two"])
_IN_ONE: dict[str, str] = grammar_data.table("lexicon")["in_one"]
_PIECES: frozenset[str] = frozenset(word[:cut] for word in _IN_TWO for cut in range(1, len(word)))


def mixed_number(text: str) -> str:
    """ "411/16" as "4-11/16"; any other text as it is.

    Nobody writes a size as an improper fraction, and no cable ends in an odd number of wires that
    is less than a power of two: what is left is a whole number and a fraction run together.
    """
    found = _IMPROPER.fullmatch(text)
    if found is None:
        return text
    whole, over, under = found.groups()
    proper = int(over) < int(under) and int(over) % 2 and not over.startswith("0")
    return f"{whole}-{over}/{under}" if proper and int(whole + over) > int(under) else text


def mend(plain: str, texts: list[str], starts: list[int], ends: list[int]) -> None:
    """Put words written in two together ("G FCI", "in side"), part others, and make a time of
    day one figure that is asked about ("14:02" was "fourteen two"), in place."""
    at = 0
    while at < len(texts):
        text = texts[at]
        if "/" in text and (listed := _COUNT_BEFORE_CABLE.fullmatch(text)):
            _part(texts, starts, ends, at, listed)
        elif text == "/" and 0 < at < len(texts) - 1 and _lists(texts[at - 1], texts[at + 1]):
            texts[at] = ","  # "rec 1/sw 2/no clamps": an item each
        elif "/" in text:
            texts[at] = mixed_number(text)
        elif text in _IN_ONE:
            _cut(texts, starts, ends, at)
        elif text in _PIECES and at + 1 < len(texts):
            whole = text + texts[at + 1]
            if whole in _IN_TWO and plain[ends[at] : starts[at + 1]] == " ":
                _join(texts, starts, ends, at, 2, whole)
        elif text == ":" and 0 < at < len(texts) - 1 and _is_time(plain[starts[at - 1] :]):
            at -= 1
            _join(texts, starts, ends, at, 3, odd_figures.MARK)
        at += 1


def _is_time(rest: str) -> bool:
    return _TIME.match(rest) is not None


def _lists(before: str, after: str) -> bool:
    """Whether a slash between a figure and a word parts the items of a list."""
    return before.isdecimal() and len(after) > 1 and after.isalpha() and not word_classes(after)


def _cut(texts: list[str], starts: list[int], ends: list[int], at: int) -> None:
    """Make two tokens of two words that are written as one."""
    first, second = _IN_ONE[texts[at]].split()
    middle = starts[at] + len(first)
    texts[at : at + 1] = [first, second]
    starts[at : at + 1] = [starts[at], middle]
    ends[at : at + 1] = [middle, ends[at]]


def _part(
    texts: list[str], starts: list[int], ends: list[int], at: int, found: re.Match[str]
) -> None:
    """Make a count and the cable behind it of one token, the slash between them a break."""
    begin = starts[at]
    texts[at : at + 1] = [found[1], ",", found[2]]
    starts[at : at + 1] = [begin, begin + found.end(1), begin + found.start(2)]
    ends[at : at + 1] = [begin + found.end(1), begin + found.start(2), ends[at]]


def _join(
    texts: list[str], starts: list[int], ends: list[int], at: int, count: int, whole: str
) -> None:
    """Make so many tokens from `at` on one."""
    texts[at : at + count] = [whole]
    ends[at : at + count] = [ends[at + count - 1]]
    del starts[at + 1 : at + count]
