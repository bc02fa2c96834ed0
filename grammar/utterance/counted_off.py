"""Counts that are said as a thumb types them: counted off aloud, begun wrongly, or behind the cable
with "times" or "pair". "One two.. three 12-2", "three no wait, four 14-2s", "14-2 three times"."""

from __future__ import annotations

import re

from boxaloud.grammar.lazy_patterns import lazy_pattern

_WORDS = (
    "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven",
    "twelve",
)  # fmt: skip
_WORTH = {word: place for place, word in enumerate(_WORDS, 1)}
_COUNT = rf"(?:{'|'.join(_WORDS)}|1[0-2]|[1-9])"
_SIZE = (
    r"(?:(?:1[024]|[68])(?:[-/ ][234]s?\b|s\b|/)|#\d|(?:fourteen|twelve|ten|eight)[- ](?:two|three"
    r"|four)s?\b|fourteens\b|twelves\b|cables?\b|wires?\b|conductors?\b|runs?\b)"
)
#: "Three yellow 12-2s".
_SORT = r"(?:(?!and\b|no\b|or\b|to\b|by\b|gang\b|in\b|of\b)[a-z]{3,} )?"
_BETWEEN = r"(?:[\s,.…-]+(?:(?:and|n|uh|um|ok|hm+) )?)"
#: "1 2 3 4 14-2s", "one two.. three 12-2": each number of the run, up to the thing.
_RUN = lazy_pattern(
    rf"(?i)(?<![\w.#/-])(?P<run>(?:{_COUNT}{_BETWEEN})+)(?P<last>{_COUNT})(?= {_SORT}{_SIZE})"
)
_ONE = lazy_pattern(rf"(?i)\b{_COUNT}\b")
#: Behind one of these a number is a name: "box one, two 14-2s".
_NAMED = lazy_pattern(
    r"(?i)\b(?:box|lot|unit|room|bed|bedroom|bath|number|no|house|plan|floor|building|apt|circuit"
    r"|gang|by|x|#)[\s,.:#]*$"
)
_BEGINS = lazy_pattern(r"(?i)(?:^|[,.;:] ?|\b(?:count\w*|got|has|have|ok|so|uh|um|see) )$")
#: "Three no wait, i can see the back, four 14-2s", "five? no wait count.. seven 14-2".
_BEGUN = lazy_pattern(
    rf"(?i)(?:^|(?<=[,.;:] )|(?<=^ )|(?<=^  ))(?P<first>{_COUNT}[?,.…]*)"
    r"(?P<turn> (?:no,? wait|wait,? no|wait"
    rf"|no,? hold on|hold on|hmm? no|no)\b[^;:]{{0,48}}?[\s,.])(?={_COUNT} {_SORT}{_SIZE})"
)
_CABLE = r"(?:(?:1[024]|[68])[-/][234]s?|(?:fourteen|twelve|ten)[- ](?:two|three)s?)"
#: "14-2 three times", "12-2 pair", "14-2 two of", "14-2 just one".
_BEHIND = lazy_pattern(
    rf"(?i)(?P<cable>\b{_CABLE})(?P<said> (?:(?P<times>{_COUNT}) times\b"
    rf"|(?P<pair>pair)\b(?! of| up)|(?P<of>{_COUNT}) of(?=\s*(?:$|[,.;]))"
    rf"|(?:just|only) (?P<just>{_COUNT})(?=\s*(?:$|[,.;]))))"
)
#: "12-2 one in one out", "14-2 two in, one out": all of them.
_IN_AND_OUT = lazy_pattern(
    rf"(?i)(?P<cable>\b{_CABLE}),? (?P<in>{_COUNT}) in,? (?:(?:and|n) )?(?P<out>{_COUNT}) out\b"
)
#: "14-2, 14-2, hm 14-2, ok thats three": the sum of what was listed.
_SUMMED = lazy_pattern(
    r"(?i)(?P<said>[,.]? ?(?:(?:ok|okay|so|and|yeah) )*(?:that['’]?s|that is|makes)"
    rf" (?P<sum>{_COUNT}))(?=\s*(?:$|[,.;]))"
)
_LISTED = lazy_pattern(rf"(?i)(?P<count>\b{_COUNT} (?:more )?)?\b{_CABLE}(?![\w/-])")
#: "9 #12s total, all end in it": so many, and no question of the total.
_TOTAL = lazy_pattern(
    r"(?i)(?P<said>\b\d{1,2} #?\d{1,2}['’]?s) (?P<total>total)(?=,? (?:all|they|that|each|with|w"
    r"|and|n|in)\b)"
)


def counted_off(text: str) -> str:
    """The text with such counts as one number each, each character in its place.

    >>> counted_off("one two.. three 12-2")
    '          three 12-2'
    """
    low = text.casefold()
    if not any(piece in low for piece in _PIECES):
        return text
    text = _RUN.sub(_last_of_run, text)
    text = _BEGUN.sub(lambda found: " " * len(found["first"]) + found["turn"], text)
    text = _BEHIND.sub(_counted_behind, text)
    text = _IN_AND_OUT.sub(_in_and_out, text)
    text = _SUMMED.sub(_without_sum, text)
    return _TOTAL.sub(lambda found: f"{found['said']}      ", text)


_PIECES = (
    "1 ", "1,", "1.", "one", " times", " pair", " of", "just", "only", "that", "makes", "total",
    " no", "wait", "hold", " out",
)  # fmt: skip


def _worth(word: str) -> int:
    return _WORTH.get(word.lower()) or int(word)


def _last_of_run(found: re.Match[str]) -> str:
    """The last number of a run that counts up from one; anything else as it is."""
    run = [_worth(one[0]) for one in _ONE.finditer(found["run"])]
    counted = [*run, _worth(found["last"])]
    if counted != list(range(1, len(counted) + 1)):
        return found[0]
    if _NAMED.search(found.string, 0, found.start()):
        return found[0]
    if len(run) == 1 and not _BEGINS.search(found.string, 0, found.start()):
        return found[0]  # "the shallow one, two 14-2s"
    return " " * len(found["run"]) + found["last"]


def _counted_behind(found: re.Match[str]) -> str:
    """ "14-2 x3" for "14-2 three times", unless a count stands before it."""
    if _COUNTED.search(found.string, 0, found.start()):
        return found[0]
    word = next((found[name] for name in ("times", "of", "just") if found[name]), "two")
    return _times(found, _worth(word))


def _in_and_out(found: re.Match[str]) -> str:
    """ "12-2 x2" for "12-2 one in one out", unless a count stands before it."""
    if _COUNTED.search(found.string, 0, found.start()):
        return found[0]
    return _times(found, _worth(found["in"]) + _worth(found["out"]))


def _times(found: re.Match[str], count: int) -> str:
    return f"{found['cable']} x{count}".ljust(len(found[0]))


_COUNTED = lazy_pattern(rf"(?i)(?:^|[\s,.])(?:{_COUNT}|an?|another|the|each)(?: [a-z]+){{0,2}} $")


def _without_sum(found: re.Match[str]) -> str:
    """Without a sum that is just what was listed before it, one by one."""
    listed = list(_LISTED.finditer(found.string, 0, found.start()))
    if len(listed) != _worth(found["sum"]) or any(one["count"] for one in listed):
        return found[0]
    return " " * len(found[0])
