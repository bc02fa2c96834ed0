"""Things counted aloud, on fingers: "a 12-2, that's one, a 12-2, that's two", "one, two, three of
the 14-2s", "eight number tens, four and four". What only keeps count is none of what is there."""

from __future__ import annotations

import re
from collections.abc import Iterator
from itertools import pairwise

from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.rewriting.spoken_values import SPOKEN_VALUE, spoken_value


def without_finger_counts(text: str) -> str:
    """The text with what keeps count blanked, each character in its place.

    >>> without_finger_counts("eight number tens spliced, four and four, no clamps")
    'eight number tens spliced,              , no clamps'
    """
    for found in _UP_TO.finditer(text):
        if _evenly(found):
            text = _blank(text, *found.span("run"))
    for found in _UP_TO_WHAT_WAS_SAID.finditer(text):
        said = SPOKEN_VALUE.finditer(text[: found.start()])
        if _evenly(found) and spoken_value(found["last"]) in [
            spoken_value(one["value"]) for one in said
        ]:
            text = _blank(text, *found.span())
    for found in _COUNTED_UP.finditer(text):
        text = _blank(text, *_before_the_last(found))
    pieces = [(found.start(), found.end()) for found in _PIECE.finditer(text)]
    for start, end in [*_tallies(text, pieces), *_splits(text, pieces)]:
        text = _blank(text, start, end)
    return text


def _blank(text: str, start: int, end: int) -> str:
    return text[:start] + " " * (end - start) + text[end:]


_PIECE = lazy_pattern(r"[^,;:.!?]+")
_NAMES = ("one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven")
_ALOUD = (
    "(?:one|1)[, ]+(?:two|2)[, ]+(?:three|3)"
    + "".join(f"(?:[, ]+(?:{name}|{value})" for value, name in enumerate(_NAMES[3:], 4))
    + ")?" * len(_NAMES[3:])
)
#: "One, two, three", and what of it is said once more: "… eight, nine, nine number fourteens".
_COUNTED_UP = lazy_pattern(
    rf"(?i)(?<!\w)(?P<run>{_ALOUD})\b(?P<again>[, ]+(?P=run))?"
    r"(?! (?:point|and (?:a|an|one|three)|by|inch|[a-z]+teen twos?|sixteenths?)\b)"
)
_NUMBER = rf"(?:\d{{1,2}}|{'|'.join(_NAMES)}|twelve|thirteen|fourteen|fifteen|sixteen)"
#: "Nine, ten, eleven number 12s", "two, four, six number twelves", "one two three four… eight 12s":
#: the last number is how many there are.
_UP_TO = lazy_pattern(
    rf"(?i)(?<![\w./-])(?<!number )(?<!no )(?<!# )(?P<run>(?:{_NUMBER}[, …]+)+)"
    rf"(?P<last>{_NUMBER}|\d{{1,2}}) (?:(?:[a-z]+ )?(?:number|no\.?|#) ?)?"
    r"(?:14|12|10|8|6|fourteen|twelve|ten|eight|six)(?:['’]?s|es)?(?: (?:thhn|wires?|conductors?)|"
    r"\b(?![-/ ](?:[234]|twos?|threes?)\b| (?:cubic|inch|by)))"
)
#: "Ten fourteens… eight, nine, ten, yep."
_UP_TO_WHAT_WAS_SAID = lazy_pattern(
    rf"(?i)(?<![\w./-])(?<!number )(?<!no )(?<!# )(?P<run>(?:{_NUMBER}[, …]+){{2,}})"
    rf"(?P<last>{_NUMBER}|\d{{1,2}})(?:[,. ]+(?:yep|yup|yeah|yes|right|ok|okay))*"
    r"(?=\s*(?:[.;!?…]|$))"
)
_FEWEST = 2
"""Numbers ahead of the last that show how it was counted."""


def _evenly(found: re.Match[str]) -> bool:
    """Whether the numbers go up by one or by two; the last may come a while later, behind a
    pause."""
    run = [spoken_value(one) for one in re.findall(r"\w+", found["run"])]
    last = spoken_value(found["last"])
    steps = {after - before for before, after in pairwise(run)}
    if len(run) < _FEWEST or len(steps) != 1 or not steps <= {1, 2}:
        return False
    paused = "…" in found["run"] or "..." in found["run"]
    return last - run[-1] in steps or (paused and last > run[-1])


_LAST = lazy_pattern(r"\w+$")
_ENDS_THERE = lazy_pattern(
    r"(?i)(?P<yes>(?:[, ]+(?:yep|yup|yeah|yes|right|ok|okay|there))*)(?=\s*(?:[.;!?…]|$))"
)


def _before_the_last(found: re.Match[str]) -> tuple[int, int]:
    """Where a count aloud stands without its last number, or whole where that is said again, or
    was said before."""
    last = next(_LAST.finditer(found["run"]))
    ends = _ENDS_THERE.match(found.string, found.end())
    said = SPOKEN_VALUE.finditer(found.string[: found.start()])
    if ends and spoken_value(last[0]) in [spoken_value(one["value"]) for one in said]:
        return found.start(), ends.end("yes")
    behind = found.string[found.end() :].lstrip(" ,").casefold()
    again = behind.startswith((last[0].casefold() + " ", f"{spoken_value(last[0])} "))
    return found.start(), found.end() if again else found.start("run") + last.start()


_TALLY = lazy_pattern(
    r"(?i)\s*(?:and |so |now )*(?:(?:that['’]?s|that is|that makes|makes|there['’]?s|number|finger)"
    rf" )?(?P<n>{'|'.join(_NAMES)}|\d)\s*"
)
#: What may be counted: it has a size, or a name.
_A_THING = lazy_pattern(
    r"(?i)\b(?:fourteen|twelve|ten|eight|six|14|12|10|8|6)[-/ ](?:twos?|threes?|[234])\b"
    r"|\b(?:switch|receptacle|dimmer|cable|plug|outlet)\b"
)


def _tallies(text: str, pieces: list[tuple[int, int]]) -> Iterator[tuple[int, int]]:
    """ "…, that's one, …, that's two": one, two … in order, each behind a thing."""
    found: list[tuple[int, int]] = []
    for before, piece in pairwise(pieces):
        tally = _TALLY.fullmatch(text[slice(*piece)])
        if tally is None or spoken_value(tally["n"]) != len(found) + 1:
            continue
        if text[piece[0] - 1] == ":" and tally["n"] == text[slice(*piece)].strip():
            continue  # "switch: 1. 12-2: 2": how many there are
        if _A_THING.search(text[slice(*before)]):
            found.append(piece)
    if len(found) > 1:
        yield from found


_SPLIT = lazy_pattern(
    r"(?i)\s*(?:(?:and|so|with|that['’]?s|in two lots|half and half|in groups) )*"
    r"(?:# (?:and|by|plus) #(?: and #)?|(?P<each># (?:on each (?:hand|side|end)|each way|from each"
    r" (?:side|pipe|end)|in each pipe))|# (?:in|from the [a-z]+) and # (?:out|from the [a-z]+))\s*"
)
_SO_MANY = lazy_pattern(r"(?i)\s*(?:(?:and|but|so|yes|ok|okay|then) )*#(?: it is)\s*")
_COUNTED_WIRES = lazy_pattern(
    rf"(?i)\b(?P<n>{'|'.join(_NAMES)}|twelve|\d{{1,2}}) (?:number |no\.? ?|#)?"
    r"(?:14|12|10|8|6|fourteen|twelve|ten|eight|six)(?:['’]?s|es)?\b"
)
_OF_WIRES = lazy_pattern(
    r"(?i)\b(?:(?:number |no\.? ?|#)?(?:14|12|10|8|6|fourteen|twelve|ten|eight|six)(?:['’]?s|es)"
    r"|wires|conductors|number (?:14|12|10|8|6|fourteen|twelve|ten|eight|six)s?)\b|\bit is\b"
)


def _splits(text: str, pieces: list[tuple[int, int]]) -> Iterator[tuple[int, int]]:
    """ "Eight number tens spliced, four and four": the eight, and no others."""
    for before, piece in pairwise(pieces):
        said = text[slice(*piece)].casefold()
        if _SO_MANY.fullmatch(SPOKEN_VALUE.sub("#", said)):
            value = spoken_value(SPOKEN_VALUE.search(said)["value"])  # type: ignore[index]
            counts = _COUNTED_WIRES.finditer(text[: piece[0]])
            if value in [spoken_value(found["n"]) for found in counts]:
                yield piece
            continue
        parts = [spoken_value(found["value"]) for found in SPOKEN_VALUE.finditer(said)]
        split = _SPLIT.fullmatch(SPOKEN_VALUE.sub("#", said))
        if split is None or not _OF_WIRES.search(text[slice(*before)]):
            continue
        total = 2 * parts[0] if split["each"] else sum(parts)
        counts = SPOKEN_VALUE.finditer(text[slice(*before)])
        if any(spoken_value(found["value"]) == total for found in counts):
            yield piece
