"""What sort of single wires are counted: "four knob and tube wires", "two single fourteens". How
they are run or how old they are counts nothing; each of them does, 314.16(B)(1)."""

from __future__ import annotations

from boxaloud.grammar.lazy_patterns import lazy_pattern

_NUMBER = (
    r"(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|a couple(?: of)?|\d{1,2})"
)
_SIZE = (
    r"(?:(?:number|no\.?|#) ?)?(?:14|12|10|8|6|fourteen|twelve|ten|eight|six)"
    r"(?:['’]?s|es)?(?: gauge| ga\.?| awg)?"
    r"(?![-/ ](?:[234]\b|twos?\b|threes?\b)|\.\d| by\b| in\b| inch)"
)
_WIRES = r"(?:wires?|conductors?|leads?|hots?|neutrals?)"
_KNOB_AND_TUBE = r"(?:knob[ x-]*(?:and|&|n)[ x-]*tube|k ?& ?t|k and t)"
_OLD = r"(?:old|original|existing|cloth|cloth covered|rag|loose|separate|individual|single)"
#: "Four knob and tube wires", "two old number 14 wires", "three single twelves".
_SORT = lazy_pattern(
    rf"(?i)\b(?P<n>{_NUMBER})(?P<sort>(?: {_OLD})*(?:[ -]{_KNOB_AND_TUBE})?)"
    rf"(?= (?:{_SIZE}(?: {_WIRES})?|{_WIRES})(?:\W|$))"
)
_NAMED = lazy_pattern(rf"(?i)\b{_OLD}|{_KNOB_AND_TUBE}\b")


def without_sorts(text: str) -> str:
    """The text without words that only tell what sort of single wires are counted, each character
    in its place.

    >>> without_sorts("four knob and tube wires")
    'four               wires'
    """
    if _NAMED.search(text) is None:
        return text
    for found in tuple(_SORT.finditer(text)):
        start, end = found.span("sort")
        text = text[:start] + " " * (end - start) + text[end:]
    return text


_ACROSS = lazy_pattern(
    r"(?i)(?P<face>\b(?:octagon|square|round|pancake)(?: box)?,? (?:about |is |that['’]s )?"
    r"(?:four|4|three and a half|3[- ]1/2|3\.5|four and eleven[- ]sixteenths|4[- ]11/16)"
    r"[- ]?(?:inch(?:es)?|in\.?|\"))(?P<across> (?:across|in diameter|wide|on a side))\b"
)


def without_across(text: str) -> str:
    """ "An octagon four inches across": the text without the word for how its face is measured.

    >>> without_across("an octagon four inches across, 1-1/4 deep")
    'an octagon four inches       , 1-1/4 deep'
    """
    return _ACROSS.sub(lambda found: found["face"].ljust(len(found[0])), text)
