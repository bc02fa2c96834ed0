"""What stands around a question of a pull box: the section and the quiz that it is from, and the
figures to choose among. None of it is a raceway, and no distance is taken from it."""

from __future__ import annotations

import re

from boxaloud.grammar.lazy_patterns import lazy_pattern

_TOLD = (
    "28",
    "or ",
    "also",
    "choices",
    "answers",
    "options",
    "key",
    "book",
    " b",
    "i read",
    "i saw",
)


def without_sources(text: str) -> str:
    """The text with those blanked, each character in its place.

    >>> without_sources("by 370-28: straight pull")
    '         : straight pull'
    """
    if not any(word in text for word in _TOLD):
        return text
    text = _SOURCE.sub(_blank, text)
    text = _OFFERED.sub(_blank, text)
    text = _CHOICES.sub(lambda found: found["asked"] + " " * len(found["choices"]), text)
    return _SAME_SIZE.sub(lambda found: found["kept"] + " " * len(found["again"]), text)


def _blank(found: re.Match[str]) -> str:
    return " " * len(found[0])


#: "From a quiz on the old 370-28", "using 370.28(A)(1)": the number of 314.28 before 2002.
_SOURCE = lazy_pattern(
    r"(?:(?:this|it|that)(?:'s| is) )?"
    r"(?:\b(?:from|under|using|per|by|according to|in|see|out of|an?|the|my|this|some|old|older"
    r"|former|earlier|quiz|test|exam|section|sec\.?|article|code|on|of|that|still|says|question|nec"
    r"|rule) )*"
    r"\b(?:370|314)[-. ]28\b(?: ?\([a-z0-9]\))*(?: (?:quiz|test|exam|question|problem|rule)\b)?"
    r"(?: (?:of|in|on) (?:(?:an?|the|my|old) )*(?:quiz|test|exam|book|paper)\b)?"
)
_INCHES = r"(?: ?(?:inch(?:es)?|in\.?|\"))?"
#: "The minimum length is 24, 36, 30 or 20 inches?": three figures or more to choose among.
_CHOICES = lazy_pattern(
    r"(?P<asked>\b(?:length|size|distance|width|depth|dimension)\b[^.;?!]{0,40}?"
    r"(?: is| are|:| (?:must|should|has to|shall) be(?: at least)?):? )"
    rf"(?P<choices>(?:\d+{_INCHES}(?:,? or|,) ){{2,}}\d+{_INCHES})(?= *\??\s*$)"
)
_TENS = (
    r"(?:twenty|thirty|forty|fifty|sixty)(?:[- ](?:one|two|three|four|five|six|seven|eight|nine))?"
)
_FIGURE = rf"(?:\d+(?:\.\d+)?|{_TENS}|[a-z]+teen|eight|nine|ten|eleven|twelve){_INCHES}"
#: "Choices are 24, 36, 30 and 20", "A 24 B 36 C 30", "the key says 36", "I read 21 x 21 x 6": what
#: somebody else has for an answer.
_OFFERED = lazy_pattern(
    rf"\b(?:the |my )?(?:choices|answers|options) (?:are|were):? {_FIGURE}"
    rf"(?:(?:,? (?:and|or)|,) {_FIGURE})+"
    rf"|(?<!\w)a[.):]? ?{_FIGURE},? b[.):]? ?{_FIGURE}(?:,? [cde][.):]? ?{_FIGURE})+"
    rf"|\b(?:the |my )?(?:(?:answer|published|book|exam) )*(?:key|book) (?:says|has|gives|shows|is)"
    rf" {_FIGURE}(?: ?(?:x|by) ?{_FIGURE})*"
    rf"|\bi (?:read|saw|was told)(?: that)? {_FIGURE}(?: ?(?:x|by) ?{_FIGURE})+"
)
#: "A 2 inch comes in and goes back out the same wall, also 2 inch": the way out is of that size.
_SAME_SIZE = lazy_pattern(
    r"(?P<kept>\b(?P<size>\d+(?:[ -]\d/\d|\.\d+)?|[a-z]+)[- ](?:inch(?:es)?|in\.?|\")"
    r"[^.;?!]*?\b(?:out|leaves?|leaving)\b[^.;?!]{0,20}?\bsame (?:wall|side))"
    r"(?P<again>,? also (?P=size)[- ](?:inch(?:es)?|in\b))"
)
