"""Cables counted by pointing: "this one, this one, and two more, four 14-2s". What a person then
says of them all, their number or their size, counts no others."""

from __future__ import annotations

import re

from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.rewriting.spoken_values import spoken_value


def without_pointing(text: str) -> str:
    """The text with the count itself in place of what was pointed at, or blanked where the count
    is said beside it. Where both differ, all stays as it is.

    >>> without_pointing("this one, that one, and two more, four 14-2s")
    '                                  four 14-2s'
    >>> without_pointing("this one, that one, and two more, all 14-3")
    'four                                  14-3'
    """
    for found in _POINTED.finditer(text):
        start, (end, kept) = found.start(), _told(found, _SIZE_AHEAD.search(text[: found.start()]))
        if len(kept) <= end - start:
            text = text[:start] + kept.ljust(end - start) + text[end:]
    return text


def _told(found: re.Match[str], ahead: re.Match[str] | None) -> tuple[int, str]:
    """Up to where the pointing goes, and what stands in its place; 0 where it stays."""
    pointing = list(_POINTING.finditer(found["run"]))
    count = sum(_worth(one) for one in pointing)
    if count >= len(_NAMES):
        return 0, "stays"
    said = found["sum"]
    if ahead and (said is None or spoken_value(said) != count):
        agree = ahead["n"] is None or spoken_value(ahead["n"]) == count
        return found.end("run") if agree else 0, "" if ahead["n"] else _NAMES[count]
    if said and spoken_value(said) != count:
        return 0, "stays"
    if found["bare"] is not None:
        return found.end("bare"), f"{_NAMES[count]} cables"
    if said:
        return found.start("sum"), ""
    if found["size"]:
        return found.start("size"), f"{_NAMES[count]} "
    several = len(pointing) > _TWO or any(one[3] for one in pointing)
    alone = several and _ENDS.match(found.string, found.end("run"))
    return found.end("run") if alone else 0, f"{_NAMES[count]} cables"


def _worth(pointing: re.Match[str]) -> int:
    said = pointing[1] or pointing[2] or pointing[3]
    return int(spoken_value(said)) if said else 1


_TWO = 2
_NAMES = (
    *("no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"),
    *("eleven", "twelve"),
)
_N = rf"(?:{'|'.join(_NAMES[1:])}|1[0-2]|[1-9])"
_CABLE = (
    r"(?:(?:1[024]|[68])[-/][234](?:[-/][234])?s?"
    r"|(?:fourteen|twelve|ten|eight|six)[- ](?:two|three)s?)\b"
)
_HERE = r"(?:(?:right |over |up |down |back )?(?:here|there))"
_NO_CABLE = (
    r"(?! (?:switch|recept|outlet|plug|dimmer|gfci|device|ground|clamp|box|gang|inch|cubic))"
)
#: "Here one", "one there", "and two more": how many stands in the brackets.
_SO_MANY_HERE = (
    rf"(?:{_HERE}(?:['’]s)?(?: is| are)? ({_N})|(?<![\w/.-])({_N}) {_HERE})(?: more)?"
    rf"(?: cables?)?\b(?![-/.]\d){_NO_CABLE}"
)
_SO_MANY_MORE = (
    rf"(?<![\w/.-])({_N}) (?:more|others?)(?: (?:cables?|ones?|wires?))?(?: {_HERE})?\b{_NO_CABLE}"
)
#: "This one here", "that other cable", "another one".
_SHOWN = (
    rf"(?:(?:this|that)(?: other)?|another|the other) (?:cable|wire|one|run|guy)(?: {_HERE})?\b"
)
_POINTING = lazy_pattern(rf"(?i)\b(?:{_SO_MANY_HERE}|{_SO_MANY_MORE}|{_SHOWN})")
_POINT = rf"(?:{_SHOWN}|{_SO_MANY_HERE}|{_SO_MANY_MORE})"
_FIRST = rf"(?:(?:this|that) (?:cable|wire|one|run|guy)(?: {_HERE})?\b|{_SO_MANY_HERE})"
_JOIN = r"[,;.]* (?:(?:and|plus|then|also) )*"
_MADE = (
    r"(?:(?:so|and|that['’]s|that is|that makes|makes?|which is|is|are|they['’]re|they are"
    r"|these are|of|in) )*"
)
_NO_COUNT = r"(?! ?(?:by\b|x\b|inch|in\b|gang|square|cubic|cu\b|number)|[-/.]?\d)"
_ALL = rf"(?:(?:all|both|each|every one|everything)(?: of (?:them|those))? {_MADE})?"
_ALONE = r"(?: cables?| of them| in all| total)*(?=\s*(?:[.!]|$))"
_OF_CABLES = rf"(?= (?:[a-z]+ )?(?:cables? )?(?:of )?(?:{_CABLE}|(?:cables?|wires?)\b))"
_POINTED = lazy_pattern(
    r"(?i)(?<!not )(?<!or )(?<!than )(?<!besides )(?<!beside )(?<!from )(?<!in addition to )"
    rf"(?<!on top of )(?<!counting )\b(?P<run>{_FIRST}(?:{_JOIN}{_POINT})+)(?:[,;:.–—-]* {_MADE}(?:"
    rf"{_ALL}(?P<size>{_CABLE})|(?P<sum>{_N})\b{_NO_COUNT}(?:(?P<bare>{_ALONE})|{_OF_CABLES})))?"
)
#: "14-2: …", "three 14-2s, …"
_SIZE_AHEAD = lazy_pattern(
    rf"(?i)(?:\b(?P<n>{_N}) )?(?<![\w-]){_CABLE}(?: cables?)?[,:]* (?:are )?$"
)
_ENDS = lazy_pattern(r"\s*(?:[.!;]|$)")
