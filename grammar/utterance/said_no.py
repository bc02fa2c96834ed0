"""Words that say no, of radio talk and of the street, as the plain one that they stand for:
"clamps? negative", "negative on the clamps", "grounds: zilch"."""

from __future__ import annotations

import re

from boxaloud.grammar.lazy_patterns import lazy_pattern

_NEGATIVE = lazy_pattern(
    r"(?i)(?P<on>\bnegative on (?:the |any |those |that )?)"
    r"|(?P<first>^\W*(?:(?:uh|um|er|oh|well|so)\W+)*)?\b(?:that['’]s (?:a )?)?negative"
    r"(?=,? (?:there|sir|boss|in there|in here|none)\b|\s*(?:[.,;!?]|$))"
    r"|(?<=[?:,;] )(?:nada|zip|zilch|nary a one|nary one|not a one|nuttin)\b(?=\s*(?:[.,;!]|$))"
    r"|^(?:nada|zip|zilch)\b(?=\s*(?:[.,;!]|$))"
)


def plain_no(text: str) -> str:
    """The text with such words as "no" or "none", each character in its place.

    >>> plain_no("clamps? negative")
    'clamps? none    '
    """
    if not any(word in text.casefold() for word in _WORDS):
        return text
    return _NEGATIVE.sub(_said, text)


_WORDS = ("negative", "nada", "zip", "zilch", "nary", "not a one", "nuttin")


def _said(found: re.Match[str]) -> str:
    if found["first"] is not None:
        before = found["first"]
        return before + "no".ljust(len(found[0]) - len(before))
    return ("no" if found["on"] else "none").ljust(len(found[0]))
