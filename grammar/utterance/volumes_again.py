"""A box put back to a volume that it had: "put it back to the 18", "go back to the old 22.5"."""

from __future__ import annotations

import re

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer import numbers

_BACK = lazy_pattern(
    r"(?i)[\s,.]*(?:(?:no|nah|oh|ok|okay|well|wait|sorry|um|uh|actually|and|but|so|then|please"
    r"|alright|hello|hi|hey|you know what|on second thought|let'?s|let us|just|we|i|i'll|we'll"
    r"|gonna|hold on|i want to|i'd rather|better)[\s,.]+)*"
    r"(?:(?P<not>(?:please\s+)?(?:do not|don'?t|never|let'?s not|do nothing))\s+)?"
    r"(?:(?P<asks>should|could|can|would|shall|may|might|what if|suppose)\s+"
    r"(?:(?:i|we|you|it)\s+)?)?"
    r"(?:(?:put|set|change|make|switch|bring|take|move|turn|bump|swap|drop|dial|go|step|went)\s+)?"
    r"(?P<it>(?:it|that|this|(?:the|this|that|my)\s+(?:box|volume)(?:\s+size)?|everything)\s+)?"
    r"(?:right\s+|all the way\s+)?back\s+(?:down\s+|up\s+|over\s+)?(?:to|in|into)\s+(?:being\s+)?"
    r"(?:(?:the|a|an|my|our|that)\s+)?"
    r"(?:(?:old|first|original|earlier|smaller|bigger|other|same)\s+)?"
    r"(?P<n>\d{1,3}(?:\.\d+)?|[a-z]+(?:[\s-]+[a-z]+){0,4}?)"
    r"(?P<unit>[\s-]+(?:cubic(?:[\s-]+inch(?:es|er)?)?|cubes?|cu\.?(?:\s+in\.?)?|ci|inch(?:es|er)?))?"
    r"(?P<box>\s+(?:box|one))?"
    r"(?:[\s,]+(?:again|then|now|please|instead|before|i had|we had|it was|i said|like before))*"
    r"[\s.!]*(?P<mark>\?)?"
)
_LEAST = 8
"""The least number that is taken for cubic inches of a box, and for no box of the job."""
_SIZES = (8, 10, 12, 14)


def volume_again(heard: str) -> Act | None:
    """What puts the box back to a volume: where it is said of it, that volume; else the name of a
    box, which the talk may know for a volume that was. None for any other utterance."""
    if "back" not in heard.lower():
        return None
    said = _BACK.fullmatch(heard)
    if said is None:
        return None
    value = numbers.value(tuple(said["n"].lower().replace("-", " ").split()))
    if value is None or value < _LEAST:
        return None
    span, words = (0, len(heard)), heard.strip()
    if said["not"]:
        return acts.Keep(words=words, span=span)
    of_box = bool(said["unit"] or (said["it"] and value not in _SIZES))
    if of_box or _asks(said) or (said["box"] and value != int(value)):
        told = acts.SetVolume(volume=value, words=words, span=span, function="correction")
        return acts.Suppose(acts=(told,), words=words, span=span) if _asks(said) else told
    return acts.OpenBox(name=format(value, "f"), words=words, span=span)


def _asks(said: re.Match[str]) -> bool:
    """ "Should I put it back to the 18?", and not the order "can you put it back to the 18"."""
    order = said["asks"] and "you" in said[0].lower().split()
    return bool(said["mark"] or said["asks"]) and not order
