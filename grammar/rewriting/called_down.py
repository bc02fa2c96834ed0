"""What one man calls down and another repeats: "five 12-2s, he says, five", "I heard nine, he says
no, five, five 14-2s", "two 12-2s in it, two 12-2s". A thing said twice in one breath is one thing,
and who says it is none."""

from __future__ import annotations

import re

from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.rewriting.spoken_values import spoken_value


def without_relays(text: str) -> str:
    """The text without what is only repeated or said to be said, each character in its place.

    >>> without_relays("five 12-2s he says five and a dimmer")
    'five 12-2s              and a dimmer'
    """
    text = _last_of_named(text)
    if not _TAGGED.search(text):
        return _once(_once(text, _AN_AND_ONE), _ASSENTED)
    for found in tuple(_ASKED_AGAIN.finditer(text)):
        text = _blank(text, *found.span("again"))
    text = _put_right(text)
    text = _once(_once(text, _AN_AND_ONE), _AGAIN)
    text = _without_echoes(text)
    for found in tuple(_VOLUME_TWICE.finditer(text)):
        if spoken_value(found["first"]) == spoken_value(found["again"]):
            told = f"box says {found['first']}"
            text = text[: found.start()] + told.ljust(len(found[0])) + text[found.end() :]
    return text if _OTHERWISE.search(text) else _without_tags(text)


def _blank(text: str, start: int, end: int) -> str:
    return text[:start] + " " * (end - start) + text[end:]


_WHO = r"(?:he|she|they|(?:the|my) (?:helper|partner|apprentice|journeyman|guy|foreman|new guy))"
_TAG = (
    rf"{_WHO}(?: (?:just|then|now))? (?:(?:says|said|calls|called|reads|repeats|repeated|yells"
    r"|hollers|shouts)(?: (?:it|that|them|me))?(?: (?:again|down|out|back|up|over))*"
    r"|(?:counts|counted)(?: (?:it|them))? again)"
)
_TAGGED = lazy_pattern(rf"(?i)\b{_TAG}\b")
_NUMBER = (
    r"(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen|fifteen"
    r"|sixteen|\d{1,2})"
)
_SIZE = r"(?:fourteen|twelve|ten|eight|six|14|12|10|8|6)"
_DEVICE = (
    r"(?:(?!and\b|more\b|of\b)[a-z]+ )?(?:switch(?:es)?|receptacles?|outlets?|plugs?|dimmers?"
    r"|gfcis?|gfis?|duplex(?:es)?|timers?|sensors?|(?:three|four|3|4)[- ]?ways?)"
)
_NAME = (
    rf"(?:(?:number |#)?{_SIZE}[-/ ](?:twos?|threes?|[23]s?)\b(?: cables?)?"
    rf"|(?:number |#){_SIZE}(?:e?s)?\b(?: (?:thhn|wires?|conductors?|grounds?))?|{_DEVICE}\b)"
)
_BEFORE = r"(?i)(?<![\w./-])(?<!number )"
#: "14-2-2, he says, I said what, he says 14-2-2": asked, and said once more.
_ASKED_AGAIN = lazy_pattern(
    rf"(?i)(?P<said>\b(?:{_NUMBER} )?(?:{_SIZE}[-/ ](?:twos?|threes?|[23]s?)(?:[-/ ](?:twos?|2s?))?"
    rf"|{_DEVICE}))(?P<again>[, ]+{_TAG}[, ]+(?:i (?:said|say|go|ask|asked) )?"
    rf"(?:what|huh|pardon|sorry|again|come again)[, ]+{_TAG}[, ]+(?P=said))\b"
)
#: A number that is the count of something else, or a measure.
_ALONE = (
    r"\b(?!(?:,? ?and)? (?:an? )?(?:half|quarter|eighth|three quarters|tenths?)\b|[-/.]\d| point\b"
    rf"| (?:(?:of|more|other|inch|cubic|cubes|by|gang|number|wires?|conductors?|grounds?)\b|{_NAME}"
    r"|(?:twos?|threes?|[23]s?)\b))"
)
#: "I heard nine, he says no, five": each a number; the last is what was meant.
_MISHEARD = lazy_pattern(
    rf"{_BEFORE}(?P<run>(?:(?:{_TAG}|i (?:heard|hear|said|say|repeat|thought))[, ]+"
    rf"(?:(?:no|nope|not that|it['’]?s)[, ]+)*{_NUMBER}[, ]+(?:(?:no|okay|ok|so|yeah|and)[, ]+)*)"
    rf"{{2,4}})(?=(?P<n>{_NUMBER}) (?P<name>{_NAME}))"
)
_MY_OWN = lazy_pattern(r"(?i)\bi (?:heard|hear|said|say|repeat|thought)\b")
_ANY_NUMBER = lazy_pattern(rf"(?i)\b{_NUMBER}\b")
_ITS_SIZE = lazy_pattern(rf"(?i){_SIZE}")


def _put_right(text: str) -> str:
    for found in tuple(_MISHEARD.finditer(text)):
        last = _worth(_ANY_NUMBER.findall(found["run"])[-1])
        size = _ITS_SIZE.search(found["name"])
        meant = {_worth(found["n"]), _worth(size[0]) if size else None}
        if last in meant and _MY_OWN.search(found["run"]) and _TAGGED.search(found["run"]):
            text = _blank(text, *found.span("run"))
    return text


def _worth(said: str) -> int:
    return 1 if said.casefold() in ("a", "an") else int(spoken_value(said))


#: "A receptacle, one receptacle": nobody lists two so.
_AN_AND_ONE = lazy_pattern(
    rf"{_BEFORE}(?P<n>an?) (?:[a-z]+ )?(?P<name>{_NAME})(?P<again>,? (?P<m>one) (?P=name)\b)"
)
#: "Two 12-2s in it, two 12-2s": the man who calls, and the one who repeats it.
_AGAIN = lazy_pattern(
    rf"{_BEFORE}(?P<n>{_NUMBER}|an?) (?P<name>{_NAME})(?P<again>(?: (?:in it|in there|in the box))?"
    rf"(?:[, ]+(?:{_TAG}|yeah|yes|yep|right|so|okay|ok))*[, ]+(?P<m>{_NUMBER}) (?P=name)\b)"
)


#: "Two 12-2s, yeah, two 12-2s": who says yes to himself counts nothing more.
_ASSENTED = lazy_pattern(
    rf"{_BEFORE}(?P<n>{_NUMBER}|an?) (?P<name>{_NAME})"
    rf"(?P<again>[, ]+(?:yeah|yes|yep)[, ]+(?P<m>{_NUMBER}) (?P=name)\b)"
)
#: "One 12-2, two 12-2s, three of them": counted aloud, each by its name.
_NAMED_RUN = lazy_pattern(
    rf"{_BEFORE}(?P<run>one (?P<name>{_NAME})s?[, ]+two (?P=name)s?[, ]+"
    r"(?P<last>three)) (?P<of>of (?:them|those)|(?P=name)s?\b)"
    r"(?P<yeah>[, ]+(?:yeah|yes|yep|so)[, ]+three (?P=name)s?\b)?"
)


def _last_of_named(text: str) -> str:
    for found in tuple(_NAMED_RUN.finditer(text)):
        told = f"{found['last']} {found['name']}s"
        text = text[: found.start()] + told.ljust(len(found[0])) + text[found.end() :]
    return text


def _once(text: str, form: re.Pattern[str]) -> str:
    """The text without a thing that is said once more, by the same count and name."""
    for found in tuple(form.finditer(text)):
        if _worth(found["n"]) == _worth(found["m"]):
            text = _blank(text, *found.span("again"))
    return text


_ECHO = lazy_pattern(
    rf"{_BEFORE}(?P<n>{_NUMBER}) (?P<name>{_NAME})(?P<again>(?P<tag>[, ]+{_TAG})?[, ]+"
    r"(?:yeah[, ]+)?"
    rf"(?P<m>{_NUMBER}|eights|sixes|tens|twelves|fourteens){_ALONE}(?P<behind>[, ]+{_TAG}\b)?)"
)


def _without_echoes(text: str) -> str:
    """ "Five 12-2s, he says, five": the count or the size said again by itself."""
    for found in tuple(_ECHO.finditer(text)):
        size = _ITS_SIZE.search(found["name"])
        said = re.sub(r"(?i)(?<=x)es$|s$", "", found["m"])
        same = _worth(found["n"]) == _worth(said)
        if said != found["m"]:
            same = size is not None and _worth(size[0]) == _worth(said)
        if same and (found["tag"] or found["behind"]):
            text = _blank(text, *found.span("again"))
    return text


_TENS = r"(?:twenty|thirty|forty|fifty|sixty)"
_VOLUME = (
    rf"(?:\d\d(?:\.\d+)?|(?:[a-z]+teen|{_TENS}(?:[- ](?:one|two|three|four|five|six|seven|eight"
    r"|nine))?)(?: and (?:a (?:half|quarter)|three quarters)| point (?:one|two|three|five|eight))?)"
)
#: "Seventeen and a half, he reads it again, seventeen point five".
_VOLUME_TWICE = lazy_pattern(
    rf"{_BEFORE}(?P<first>{_VOLUME})[, ]+{_WHO} (?:reads|repeats|says|calls)(?: (?:it|that))?"
    rf"(?: (?:again|back|over|out))*[, ]+"
    rf"(?P<again>(?!(?:fourteen|twelve|ten) (?:two|three)\b){_VOLUME})"
    r"(?= (?!(?:twos|threes)\b)|$)"
)
#: Two who say two things, or what is only asked for: not for this to decide.
_OTHERWISE = lazy_pattern(
    r"(?i)\b(?:but|not|i|we|if|should|would|could|wants?|asks?|what|which|how|why|does|do|or)\b"
)
#: What may stand right behind "he says": a thing, or the box's clamps.
_WHO_SAYS = lazy_pattern(
    rf"(?i)\b{_TAG}(?=[, ]+(?:(?:the )?clamps\b|no (?:inside |internal )?clamps\b"
    rf"|(?:{_NUMBER}|an?) {_NAME})|[ .]*$|[, ]+so (?:(?:it|that)['’]?s )?{_NUMBER}\b"
    r"|[, ]+(?:and|there aren['’]t|there are no)\b)"
)
_CALLED = lazy_pattern(rf"(?i)\b(?P<who>{_WHO} )(?:calls|called|reads)(?= {_VOLUME}[, ]+{_TAG}\b)")


def _without_tags(text: str) -> str:
    for found in tuple(_CALLED.finditer(text)):
        told = "box is".ljust(len(found[0]))
        text = text[: found.start()] + told + text[found.end() :]
    for found in tuple(_WHO_SAYS.finditer(text)):
        if text[: found.start()].strip() or text[found.end() :].strip(" ."):
            text = _blank(text, *found.span())
    return text
