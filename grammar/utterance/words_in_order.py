"""What is dictated with its words in another order, or begun once more: "number 12s, six",
"grounds are two number tens", "two 14/2, no sorry those are twelves, two 12/2"."""

from __future__ import annotations

import re

from boxaloud.grammar.lazy_patterns import lazy_pattern

_COUNT = r"(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|\d{1,2}|an?)"
_SIZE = r"(?:14|12|10|8|6|fourteen|twelve|ten)"
_WIRE = rf"(?:(?:number |no\.? ?|# ?)?{_SIZE}(?:s|['’]s)?(?: gauge| awg)?)"
_CABLE = r"(?:1[024]|[68])[-/ ][234]"
_ENDS = r"(?=\s*(?:[,.;]|$))"
#: "Grounds are two number tens", "grounds one 12 and one 14".
_GROUNDS_AHEAD = lazy_pattern(
    r"(?i)(?P<lead>^|[,.;] |\b(?:and|then|the|plus) )(?P<all>(?:ground wires?|grounds?|greens)"
    rf"(?: are| is| there(?:['’]s| are)|:|,)? (?P<n>{_COUNT}) (?P<w>{_WIRE})"
    rf"(?:(?P<and>,? and )(?P<m>{_COUNT}) (?P<v>{_WIRE}))?){_ENDS}"
)
#: "Number 12s, six,".
_COUNT_BEHIND = lazy_pattern(
    rf"(?i)(?P<lead>^|[,.;] )(?P<w>(?:number|#) ?{_SIZE}s?),? (?P<n>(?!an?\b){_COUNT})(?: of "
    rf"(?:them|those))?{_ENDS}"
)
#: "14/2 just one".
_CABLE_JUST = lazy_pattern(
    rf"(?i)(?P<lead>^|[,.;] )(?P<w>{_CABLE}),? (?P<n>(?:just|only) {_COUNT})(?: of (?:them"
    rf"|those))?{_ENDS}"
)
#: "Four 12 and a green out".
_BARE_SIZE = lazy_pattern(
    rf"(?i)(?P<n>\b(?:two|three|four|five|six|seven|eight|nine) (?:14|12|10|8)) and (?=(?:an?"
    rf"|one) (?:{_SIZE} )?"
    r"(?:green|ground)\b)"
)
#: "A 1 1/4 octagon", "a 2 1/8 octagon".
_DEPTH_AHEAD = lazy_pattern(
    r"(?i)(?<!\bx )(?<!\bby )(?<!× )(?<!inch )(?<!\d )(?P<d>\b(?:1[- ]1/[24]|2[- ]1/8)(?:"
    r" deep)?) (?P<what>oct(?:agon)?s?)\b(?! (?:1[- ]|2[- ]|inch|two|ext|ring))"
)
#: "Round 4 inch box".
_ROUND = lazy_pattern(
    r"(?i)\b(?P<what>round|octagon|square) (?P<d>(?:4|four|3|three)[- ]inch) (?=box\b)"
)
_NO = r"(?:(?:oh|no|wait|sorry|hold on|hang on|scratch that|nope|my bad|uh|um),? )+"
#: "Two 14/2, no sorry those are twelves, two 12/2".
_ANEW = lazy_pattern(
    rf"(?i)(?P<lost>\b(?P<n>{_COUNT}) {_CABLE}s?,? {_NO}(?:those|they|these|that|it)(?:['’]re|"
    rf" are|['’]s| is)"
    rf"(?: all| both)? {_SIZE}(?:s|es)?(?:[-/ ][234]s?)?,? )(?=(?P=n) {_CABLE})"
)
_DEVICE = (
    r"(?:switch|dimmer|duplex|receptacle|outlet|gfci|gfi|timer|sensor|single pole|three[- ]way"
    r"|3[- ]way)"
)
#: "It's a switch, no wait that's a dimmer, one dimmer".
_DEVICE_ANEW = lazy_pattern(
    rf"(?i)(?P<lost>\b(?:it['’]s |that['’]s |there['’]s )?(?:an?|one) {_DEVICE},? {_NO}(?:that"
    rf"|it|this)(?:['’]s| is)"
    rf" an? (?P<new>{_DEVICE}),? (?:so )?)(?=(?:one|just one|an?) (?P=new)\b)"
)
#: "Sixteen cubic inches, let me wipe it off, eighteen, it says eighteen".
_FIGURE = (
    r"(?:\d+(?:\.\d+)?|(?:[a-z]+teen|ten|eleven|twelve|twenty|thirty|forty|fifty|one|two|three"
    r"|four"
    r"|five|six|seven|eight|nine)(?:[ -](?:point|and a half|one|two|three|four|five|six|seven"
    r"|eight"
    r"|nine))*)"
)
_WIPED = lazy_pattern(
    rf"(?i)(?P<lost>\b{_FIGURE} (?:cubic inch(?:es)?|cubes|cubic|cu in)\b,? (?:no |wait |hold on "
    r"|hang on |uh )*(?:let me|i['’]ll|lemme|gotta|i gotta|i have to) (?:wipe|clean|brush"
    r"|scrape|rub"
    rf"|get)\b[^,.;]*[,.;] ?(?:(?:it['’]s |ok |okay |no )?{_FIGURE}[,.;] )?)"
    r"(?=(?:it|that) (?:says|reads|is)\b)"
)
#: "12/2 in and out, two 12/2": how many that is.
_IN_AND_OUT = lazy_pattern(
    rf"(?i)(?P<lost>\b(?:(?:the |my )?(?:feed|line|home ?run|power)(?: (?:going|passing"
    rf"|running) (?:by|through))?"
    rf"(?:['’]s| is) )?(?P<what>{_CABLE})s? (?:mc |nm )?(?:is |comes |goes |spliced |coming"
    rf" |going |looped )*"
    r"in and (?:back )?out,? (?:so |that['’]?s |which is |makes )*)(?=(?:two|2) (?P=what))"
)
#: "Old armored cable no ground wire in it, 12/2, two of em".
_OLD_AHEAD = lazy_pattern(
    rf"(?i)(?P<lead>^|[,.;] )(?P<all>(?:old |original )*(?:armou?red|bx|cloth|two wire|rag)(?:"
    rf" cable| wire| nm)?,?"
    rf" (?:with )?(?:no|without a?) ?ground(?: wire)?(?: in (?:it|them))?, (?P<w>{_CABLE})s?,?"
    rf" (?P<n>{_COUNT}) of (?:em|them|those|these))\b"
)
#: "Two receptacles, quad": the quad is those two.
_QUAD = lazy_pattern(
    r"(?i)(?P<kept>\btwo (?:receptacles|duplexes|outlets))(?P<lost>,? (?:an? |so a |like a"
    r" )?quad)\b"
)
#: "One 14/2 old without a ground", "a newer 14/2 that has one".
_OLD_BEHIND = lazy_pattern(
    rf"(?i)(?P<kept>\b{_CABLE}s?)(?P<lost> (?:old|older|original))(?= (?:without|no|with no"
    rf"|w/o) )"
)
_HAS_ONE = lazy_pattern(
    rf"(?i)(?P<kept>\b{_CABLE}s?) (?P<lost>(?:that|which|this one) (?:has|does have|got|had) "
    rf"(?:one|a ground|it))\b"
)
#: "On the right and another one out the bottom".
_AND_ANOTHER = lazy_pattern(
    r"(?i)(?P<kept>\b(?:left|right|top|bottom|side|back))(?P<lost> and )(?=another(?: one)? "
    r"(?:out|in|on|from|at|up|down)\b)"
)
_OTHERS = {
    "two": "one", "three": "two", "four": "three", "five": "four",
    "2": "1", "3": "2", "4": "3", "5": "4",
}  # fmt: skip
#: "Three cables, one's a 12/3, the other two are 12/2".
_ONE_AND_OTHERS = lazy_pattern(
    r"(?i)(?P<lost>\b(?:there['’]s |there are |i (?:have|got|see) |it['’]s got )?(?P<n>two"
    r"|three|four|five|[2-5]) (?:cables|nm|runs|mcs?|pipes)"
    r",? )(?P<one>one|1)(?P<is>(?:['’]s| is| of them is)(?: an?)?) (?P<a>"
    + _CABLE
    + r")(?P<j>,? (?:and )?)"
    r"(?P<other>(?:the )?other )(?P<m>one|two|three|four|[1-4])(?P<are> (?:are|is)(?: all|"
    r" both)?(?:"
    r" an?)?)?(?= " + _CABLE + r")"
)


def in_plain_order(text: str, typed: bool = True) -> str:
    """The text with what is said out of order put in order, and what is begun anew said once; of
    the same length.

    >>> in_plain_order("number 12s, six, one switch")
    'six number 12s , one switch'
    """
    for pattern in (_ANEW, _DEVICE_ANEW, _WIPED, _IN_AND_OUT):
        text = pattern.sub(lambda found: " " * len(found[0]), text)
    for pattern in (_QUAD, _OLD_BEHIND):
        text = pattern.sub(lambda found: found["kept"] + " " * len(found["lost"]), text)
    if not typed:  # a word of an ear keeps its place
        return text
    text = _ONE_AND_OTHERS.sub(_listed, text)
    text = _HAS_ONE.sub(lambda f: f"{f['kept']} with ground".ljust(len(f[0])), text)
    text = _AND_ANOTHER.sub(lambda f: f"{f['kept']},".ljust(len(f[0])), text)
    text = _OLD_AHEAD.sub(
        lambda f: (f["lead"] + f"{f['n']} {f['w']} no ground").ljust(len(f[0])), text
    )
    text = _GROUNDS_AHEAD.sub(_grounds, text)
    for pattern in (_COUNT_BEHIND, _CABLE_JUST):
        text = pattern.sub(lambda f: (f["lead"] + f"{f['n']} {f['w']}").ljust(len(f[0])), text)
    text = _BARE_SIZE.sub(lambda f: f"{f['n']}s &".ljust(len(f[0])), text)
    text = _DEPTH_AHEAD.sub(lambda f: f"{f['what']} {f['d']}".ljust(len(f[0])), text)
    return _ROUND.sub(lambda f: f"{f['d']} {f['what']} ", text)


_ONE_THAT_IS_THERE = lazy_pattern(r"(?i).{0,8}\bground (?:is|was) an? ")


def _grounds(found: re.Match[str]) -> str:
    """ "Two number ten gnds" in place of "grounds are two number tens"; "the ground is a 12" is of
    one that is there."""
    if _ONE_THAT_IS_THERE.match(found[0]):
        return found[0]
    said = f"{found['n']} {_one(found['w'])} gnd"
    if found["m"]:
        said = f"{said}{found['and']}{found['m']} {_one(found['v'])} gnd"
    whole = found["lead"] + said
    return whole.ljust(len(found[0])) if len(whole) <= len(found[0]) else found[0]


def _one(wire: str) -> str:
    return re.sub(r"(?i)(?:['’]?s)$", "", wire)


def _listed(found: re.Match[str]) -> str:
    if _OTHERS.get(found["n"].lower()) != found["m"].lower():
        return found[0]
    blanked = (
        found["lost"],
        found["one"],
        found["is"],
        found["a"],
        found["j"],
        found["other"],
        found["m"],
    )
    lost, one, is_a, a, joint, other, m = blanked
    return (
        " " * len(lost) + one + " " * len(is_a) + f" {a}" + joint + " " * len(other) + m
        + " " * len(found["are"] or "")
    )  # fmt: skip
