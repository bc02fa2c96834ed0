"""What is said beside a description and changes nothing of it: "in the count", "by golly", "let me
go back over that", "mind the ground is a ten" of a cable whose ground is one anyway."""

from __future__ import annotations

import re

from boxaloud.grammar.lazy_patterns import lazy_pattern


def without_asides_of_talk(text: str) -> str:
    """The text with such words blanked, each character in its place.

    >>> without_asides_of_talk("one of those is a 14-3, by golly")
    'one of those is a 14-3,         '
    """
    low = text.casefold()
    if any(word in low for word in _PIECES):
        text = _ASIDE.sub(_blank, text)
        text = _GO_BACK.sub(lambda found: found["back"] + " " * len(found["while"]), text)
        text = _MEANT.sub(_mark, text)
        text = _LOOK.sub(lambda found: found[1] + "wait".ljust(len(found[2])), text)
        text = _FROM_SWITCH.sub(lambda found: found[1] + " " * len(found[2]), text)
    for said, sized in _OF_A_SIZE:
        text = said.sub(lambda found, sized=sized: _if_there(found, sized), text)  # type: ignore[misc]
    return text


def _mark(found: re.Match[str]) -> str:
    """ "I mean" in place of a longer mark, each word in the place of one that goes."""
    second = "" if found["verb"] else "2"
    places = [found.span(name + second) for name in ("i", "verb")]
    said = " " * (places[0][0] - found.start()) + "I"
    said = said.ljust(places[1][0] - found.start()) + "mean"
    return said.ljust(len(found[0]))


_SIZE = r"(?:number )?(?:fourteen|twelve|ten|eight|six|14|12|10|8|6)"
#: "What I should have said is …", "let me start that one over": what follows is said anew.
_MEANT = lazy_pattern(
    r"(?i)\bwhat (?P<i>i) (?P<verb>should|meant|mean|wanted|ought)"
    r"(?P<behind>(?: to)?(?: have said| have told you| say| tell you| said)?(?: (?:is"
    r"|was))\b)(?! that\b)"
    rf"|\blet (?P<i2>me) (?P<verb2>start|begin)(?P<behind2> that(?: one)?"
    rf" over\b)(?=.*(?:{_SIZE}[-/ ](?:[23]|twos?|threes?)|cable|switch|receptacle))"
)


def _blank(found: re.Match[str]) -> str:
    return " " * len(found[0])


#: One of these stands in whatever is blanked without a condition.
_PIECES = (
    "in the", "in my", "in your", "by g", "by j", "go ", "goes", "know", "mind", "minute", "second",
    "moment", "pull", "take", "tear", "said", "looked", "dead", "mean", "better", "feeling", "over",
    "what i", "of those", "from the", "sorry", " to ", "connectors",
)  # fmt: skip
_CABLE = rf"{_SIZE}[-/ ](?:twos?|threes?|[23])"
_NUM = r"(?:an?|one|two|three|four|five|six|[1-6])"
_ASIDE = lazy_pattern(
    r"(?i) in (?:the|your|my) (?:count|figuring|reckoning|tally|arithmetic)\b"
    r"|\bby (?:golly|gosh|george|gum|jingo|heaven)\b"
    r"|,? ?\bi know,? i know\b"
    r"|\b(?:let me |i['’]ll |i |we )(?:go|run|went|look) (?:back )?over (?:that|this|it)(?: again)?"
    r"(?= *(?:[,.;:]|$))"
    rf"|\b{_NUM} {_CABLE},? (?:i['’]?m )?sorry,? (?P<meant>{_CABLE})s?,? (?={_NUM} of the"
    rf" {_CABLE}s?\b)"
    rf"|\b(?P<said>{_CABLE})s? (?:to|into|and) (?P=said)s?,? (?=(?:that is|that['’]?s|meaning|so)"
    rf" {_NUM} )"
    r"|\b(?:and )?i (?:have|['’]ve|['’]ve got) (?:a|that) (?:bad|good|funny) feeling(?: about (?:it"
    r"|this|that))?"
    r"|\b(?:that|which) i(?:['’]ve| have)?(?: got)? (?:here )?(?:in|on) (?:the|my) (?:bucket|truck"
    r"|van|bag|cart|shelf)\b"
    r"|\b(?:pull|take|tear|rip|haul) (?:it|that one|that) out and (?=put (?:in|up) (?:the|an?)\b)"
    r"|\bthe (?:clamps?|clamp allowance|stud) (?:goes?|counts?|figures?) by the (?:largest|biggest"
    rf"|{_SIZE})\b(?: (?:i believe|i think|too))?"
    rf"|\b(?:and )?the {_SIZE}s? (?:only|just) (?:goes?|passes|pass|rides?) by\b"
    r"|\bi (?:have ?n['’]?t|have not) looked (?:yet |in )?(?:for|at) the grounds?(?: yet)?\b"
    r"|\bmind (?:you )?(?:those|the|that) (?:last )?(?:one|two|three|four|five|six)? ?"
    r"grounds?(?= *(?:[,.;]|$))"
    rf"|\b(?:one|two|three|four|[1-4]) (?:twos|threes)(?:,? and (?:one|two|three|four|[1-4])"
    rf" (?:twos|threes))?,? all {_SIZE}s?,? (?=i mean\b)"
    r"|(?<=connectors)(?:,| and)? (?:those|they) (?:don['’]?t|do not) (?:go in|count|add)(?: either"
    r"| anything)*,? (?:do|does) (?:they|it)\b"
    r"|(?<=\bof those) (?:two|three|four|five|six)(?= (?:is|are|isn['’]?t|was)"
    rf" (?:(?:really|actually|only|an?) )*{_SIZE}[-/ ](?:twos?|threes?|[23])\b)"
    rf"|\bi said {_SIZE}s? (?:but|and) (?:it['’]?s|it is|they['’]?re|i mean(?:t)?) {_SIZE}s?,"
    rf"(?= (?:(?:one|two|three|four|five|six|an?|\d) )?{_SIZE}[-/ ](?:twos?|threes?|[23])\b)"
)
#: "No clamps, well I'd better look before I talk, yes there are": what follows is said anew.
_LOOK = lazy_pattern(
    r"(?i)((?:^|, )(?:well,? )?i['’]?d )(better look before i (?:talk|speak|say anything))\b(?=,)"
)
#: "A 12-3 up from the switches": a cable, by where it comes from.
_FROM_SWITCH = lazy_pattern(
    rf"(?i)({_CABLE}s?(?: cables?)?)((?: (?:up|down|in|over|back|across|coming))* from the"
    r" (?:wall )?switch(?:es)?)(?= *(?:[,.;]|$|and\b))"
)
_GO_BACK = lazy_pattern(
    r"(?i)(?P<back>\b(?:go |going |switch |get )back to (?:the )?[a-z ]+?)"
    r"(?P<while> (?:for )?(?:a|just a|one) (?:minute|second|sec|moment|bit))(?=[\s.,!]*$)"
)
_TEN = r"(?:number )?(?:ten|10)\b"
#: What is said of a size, and what else has to be there for it to change nothing.
_OF_A_SIZE = (
    (
        lazy_pattern(
            rf"(?i)\b(?:and )?(?:mind (?:you )?)?(?:that )?the ground(?: wire)?(?: in (?:that"
            rf"|the|each)"
            rf" cables?)? (?:is|are) an? {_TEN}(?: so you (?:take|use|count|go by) the {_TEN}"
            rf" for the"
            r" grounds?)?"
        ),
        lazy_pattern(r"(?i)\b(?:10|8|6|ten|eight|six)[-/ ](?:2|3|twos?|threes?)\b"),
    ),
    (
        lazy_pattern(
            r"(?i)\b(?:and )?(?:it['’]?s|they['’]?re|that['’]?s|everything['’]?s|everything is) all"
            rf" (?:of it )?(?:number )?(?P<size>{_SIZE})s?(?: (?:wire|gauge|copper|awg))*(?="
            rf" *(?:[,.;]|$))"
        ),
        None,
    ),
    (
        lazy_pattern(
            r"(?i)\b(?:it['’]?s )?(?:just )?a dead[- ]end(?:ed)? switch loop\b(?: with the white"
            r" (?:re)?(?:taped|marked|painted)(?: black)?)?"
        ),
        lazy_pattern(r"(?i)\b(?:one|a|1) (?:fourteen|twelve|14|12)[-/ ](?:2|twos?)\b"),
    ),
)
_NUMBERS = {"fourteen": "14", "twelve": "12", "ten": "10", "eight": "8", "six": "6"}


def _if_there(found: re.Match[str], sized: re.Pattern[str] | None) -> str:
    """Spaces in place of what is said, where what it is said of stands in the text too."""
    rest = found.string[: found.start()] + found.string[found.end() :]
    if sized is None:
        name = found["size"].casefold().removeprefix("number ")
        said = {name, _NUMBERS.get(name, name)}
        sized = re.compile(rf"(?i)\b(?:{'|'.join(said)})[-/ ](?:2|3|twos?|threes?)\b")
    return " " * len(found[0]) if sized.search(rest) else found[0]
