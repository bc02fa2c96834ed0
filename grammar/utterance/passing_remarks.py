"""Remarks that are of no box at all: oaths, times of day, wages, lengths in feet, labels put on."""

from __future__ import annotations

import re

from boxaloud.grammar.lazy_patterns import lazy_pattern


def without_remarks(text: str) -> str:
    """The text with what it says of no box left blank: "screw it", "at five in the morning"."""
    if not any(word in text.casefold() for word in _REMARKED):
        return text
    return _REMARK.sub(_blank, text)


def _blank(found: re.Match[str]) -> str:
    """Spaces in place of a remark, but for what is kept of it."""
    return (found["kept"] or found["tailed"] or "").ljust(len(found[0]))


#: An oath, a time, a wage, a length in feet, what is done with a label: nothing of a box.
_REMARKED = (
    "there ",
    "back ",
    "home ",
    "here ",
    "done ",
    "screw",
    "hell",
    "at ",
    "in ",
    "hour",
    "foot",
    "feet",
    "label",
    "something",
    "feed",
    "inch",
    "panel",
    "lost ",
    "stapled",
    "before ",
    "pigtail",
    " two",
    " 2",
    "pairs",
    "question",
)
_HOUR = (
    r"(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|1[0-2]|[1-9])"
    r"(?:[ :](?:oh[ -]five|ten|fifteen|twenty|thirty|forty|forty[ -]five|fifty|[0-5]\d))?"
)
_NUMBER = (
    r"(?:\d+(?:\.\d+)?|(?:twenty|thirty|forty|fifty|sixty|seventy|eighty|ninety)"
    r"(?:[- ](?:one|two|three|four|five|six|seven|eight|nine))?|[a-z]+teen|ten|eleven|twelve"
    r"|one|two|three|four|five|six|seven|eight|nine)"
)
_REMARK = lazy_pattern(
    r"(?i)(?:^ *|(?<=[,.;!?] ))(?:oh |well |ah )?(?:screw|to hell with|the hell with|hell with)"
    r" (?:it|that|this)\b,?"
    rf"|\bat {_HOUR} (?:in the (?:morning|afternoon|evening)|o'?clock|sharp|tonight|[ap]\.?m\b)"
    rf"|\b(?P<kept>(?:break|lunch|dinner|coffee|quitting time|meeting|inspection|delivery|pour"
    rf"|shift|bus)"
    rf"(?:'s| is| was| comes| starts| ends)?) at {_HOUR}(?= *(?:$|[.,;!?]))"
    rf"|\bbe (?:right |back |up |down |there |over |in |out |done )*in {_NUMBER}(?: minutes?"
    rf"| mins?)?"
    r"(?= *(?:$|[.,;!?]))"
    r"|\b(?:there|back|here|home|done) (?:at|by|about|around|till|until|before|after)"
    rf" {_HOUR}(?= *(?:$|[.,;!?]))"
    rf"|\b{_NUMBER} (?:bucks |dollars )?(?:an|per) hour\b"
    rf"|\b{_NUMBER} (?:foot|feet) {_NUMBER}(?! ?(?:inch )?(?:square|octagon|box))\b(?= (?:to"
    rf"|from|up"
    r"|down|off|above|below|high|long|of)\b| *(?:$|[.,;!?]))"
    r"|\b(?:it's|that's|they're|it is|is|are) on the label\b"
    r"|\blabel (?=(?:that|the|it|them|those|these|each|all|every|both|this|your)\b)"
    r"|(?:^ *|(?<=[.;:] ))(?:(?:a|it's|so|just|simple|plain|straight|um|uh|ok|okay|hello|well),? )"
    r"{0,3}feed[ -](?:through|thru)(?= *[,.;:])"
    r"|(?:(?<=multiwire )|(?<=gfci )|(?<=gfi ))feed[ -](?:through|thru)\b"
    r"|\b(?:(?:at|by) )?(?:the )?foot of the (?:stairs|stair|steps|staircase)\b"
    r"|\b(?:extending|extend|extended) (?:the |a |an )?(?:[a-z]+ )?feed(?= *[,.;:])"
    rf"|\b{_NUMBER} inch(?:es)? of (?:cover|burial|dirt|earth)\b(?: (?:for|over|on|with)"
    r" (?:the )?[a-z]+)?"
    r"|\b(?:the|that|this) (?:afci|gfci|gfi|arc[ -]fault|dual[ -]function)s?(?: breaker)? in the"
    r" (?:sub ?)?panel(?= (?:trips|tripped|keeps|is|was|won't|will|has|goes)\b)"
    r"|\b(?:lost|losing|lose) (?:a|the|one) (?:leg|phase|neutral) (?:on|of|at) the service\b"
    r"[^.;!?]*"
    r"|\b(?:the )?(?:thermostat|doorbell|phone|alarm) (?:wire|cable)(?:'s| is)(?: just| only)?"
    r" stapled to the (?:joist|stud|rafter|plate|truss)(?:es|s)?\b"
    r"|\bbefore (?:(?:i|we|you|they|he|she)(?:['’](?:ll|d))? (?:go )?(?:add|put|run|pull|bring"
    r"|install|stick|adding)|adding|putting|running|pulling|bringing|installing)(?: in)?"
    r" (?:another|an?|one more|any more|more|the (?:second|third|next|new))\b[^,.;:?!]*"
    r"|\b(?P<tailed>(?:pig)?tailed) (?:in)?to (?:the|that|each|every) (?:device|yoke)s?\b"
    r"|\b(?:joined|spliced|tied|paired|made up) (?:up |together )?(?:(?:two|2) (?:and|by) (?:two|2)"
    r"|in pairs)\b"
    r"|^ *(?:(?:an?|quick|simple) )*(?:[a-z]+ ){1,2}question(?= *[.:,!-])"
    r"|\b(?:314|250|300|404|110)(?:\.\d+)? something\b"
)
