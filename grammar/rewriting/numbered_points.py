"""The numbers of points that are told one after the other: "1) plastic, 18 cu in 2) two 14-2"."""

from __future__ import annotations

from boxaloud.grammar.lazy_patterns import lazy_pattern

_WORDS = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")
_MARK = lazy_pattern(
    rf"(?i)(?:(?<=[\s,;.:])|^)(?:(?P<n>\d{{1,2}})[.)]|(?P<word>{'|'.join(_WORDS)})\))(?=\s|$)"
)
_SOUND = lazy_pattern(r"[,;:.!?\n]\s*$|^\s*$")


def without_point_numbers(text: str) -> str:
    """The text with the numbers of its points blanked, each character in its place, and a break
    where a point begins. Where they do not run from one, at the head, they are no points; nor
    between two brackets: "(1) switch, (2) 14/2" counts.

    >>> without_point_numbers("1) two 14-2 2) one switch")
    '   two 14-2;   one switch'
    """
    marks = list(_MARK.finditer(text))
    if len(marks) < 2 or not _SOUND.search(text[: marks[0].start()]):
        return text
    if [_number(mark["n"], mark["word"]) for mark in marks] != list(range(1, len(marks) + 1)):
        return text
    if any(text[: mark.start()].rstrip().endswith(":") for mark in marks[1:]):
        return text  # "switch: 1. 12-2: 2." counts
    letters = list(text)
    for mark in marks:
        start, end = mark.span()
        letters[start:end] = " " * (end - start)
        if not _SOUND.search("".join(letters[:start])):
            letters[start - 1 if letters[start - 1].isspace() else start] = ";"
    return "".join(letters)


def _number(digits: str | None, word: str | None) -> int:
    """The number of a mark, in digits or as a word."""
    return int(digits) if digits else _WORDS.index((word or "").lower()) + 1
