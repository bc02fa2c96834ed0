"""What somebody says aloud while she looks, and what is none of the description: the number of the
room, the drawing that is wrong, a measure that was misread."""

from __future__ import annotations

import re

from boxaloud.grammar.lazy_patterns import lazy_pattern

_COUNT = r"(?:one|two|three|four|five|six|seven|eight|nine|ten|\d{1,2})"
_NO_UNIT = (
    r"(?! ?(?:cubic|cubes?|cu\b|in\b|inch|mil|ml|sq|amps?|volts?|watts?|feet|foot|kcmil|mcm"
    r"|[\d/.\"-]))"
)
_ROOM = r"(?:room|classroom|class|office|suite|unit|apartment|apt|lab|portable|door|bay|stall)"
#: "In 104", "the tile by 118", "room 112 ceiling box": where it is; no volume has such a number
#: and no unit.
_NUMBERED_PLACE = lazy_pattern(
    r"(?i)(?P<kept>\b(?:ceiling|tile|hall|hallway|corridor|sensor|switch|outlet|light|door"
    r"|wall|lights|receptacle))(?P<lost> (?:in|by|at|outside|above|over|near|next to|across"
    r" from) "
    rf"(?:{_ROOM} )?[1-9]\d{{2}}[a-z]?)\b{_NO_UNIT}"
)
_NUMBERED_ROOM = lazy_pattern(
    rf"(?i)(?P<kept>\b(?:on to {_ROOM} |{_ROOM} (?=\d+ (?:ceiling|wall|floor|light|sensor)\b)))"
    rf"(?P<lost>[1-9]\d{{2}}[a-z]?)\b{_NO_UNIT}"
)
#: "Fed off a 20 amp breaker, number 22 I think".
_BREAKER = lazy_pattern(
    r"(?i)(?P<kept>\b(?:breaker|circuit|panel [a-z]{1,3}),? )(?P<lost>(?:it['’]?s |is "
    r"|that['’]?s )?"
    r"number \d{1,2}(?: i (?:think|guess|believe))?)(?=\s*(?:[,.;]|$|and\b|anyway\b|so\b))"
)
#: "A jumper between two splices".
_BETWEEN = lazy_pattern(
    r"(?i)(?P<kept>\bjumpers? (?:from|between) )(?P<lost>(?:the )?(?:two|both|2|three|3) "
    r"(?:splices?"
    r"|wire ?nuts?|joints?|connectors?|screws?)(?: that (?:never|does ?n['’]?t) leaves? the"
    r" box)?)"
)
#: "The drawing says 12/3 but it's 12/2", "there are supposed to be two cables but I count four".
_WRONG_PAPER = lazy_pattern(
    r"(?i)(?P<kept>^\s*|[,.;] *|\b(?:and|so|ok|okay|well|um|uh|you know(?: what)?) )(?P<lost>"
    r"(?:you know"
    r"(?: what)? )?(?:(?:the|my|our|these|those) )?(?:(?:as[- ]built )?(?:drawings?|plans?"
    r"|prints?"
    r"|blueprints?|schedule|label|tag|sticker|cover|print ?out|notes?)"
    r" (?:says?|said|shows?|showed|calls? for|called for|has|have)[^,.;?]{1,40}?"
    r"|(?:there(?:['’]s| is| are| were| was) |it['’]?s |it is )?supposed to (?:be|have)"
    r"[^,.;?]{1,30}?),? but (?:really |actually |in fact )?)"
    r"(?=(?:it['’]?s|it is|that['’]?s|they['’]?re) (?!got|full|more|also|too)\S"
    r"|(?:(?:what )?i (?:only |just )?(?:count|see|have|got|find|found)|there(?:['’]s| is|"
    r" are)) (?:is )?"
    r"(?:just |only )?"
    rf"{_COUNT}\b)"
)
#: "I count four, four 12/2": the count is said once more with what it counts.
_COUNT_FIRST = lazy_pattern(
    r"(?i)(?P<kept>\b(?:i (?:only |just )?(?:count|see|have|got|find|found)|it['’]?s"
    r"|there['’]?s|that['’]?s)"
    rf" )(?P<lost>(?:(?:just |about |like )?{_COUNT},? (?:no|wait|no wait|or|make that|uh"
    rf"|um),? )?"
    r"(?:one,? (?:two,? )?(?:three,? )?(?:four,? )?(?:five,? )?)?"
    rf"(?P<n>{_COUNT}), )(?=(?P=n) (?:1[024]|[68]|fourteen|twelve|ten)\b)"
)
#: "So each one counts two": why such a conductor counts twice, 314.16(B)(1).
_LOOPED = lazy_pattern(
    r"(?i)(?P<kept>\bloop(?:s|ed)?\b[^.;]{0,60}?,? )(?P<lost>(?:so |and |which means )*(?:each"
    r"|each one|every"
    r" one|all|they|it|each of (?:them|those)) (?:of (?:them|those) )?counts? (?:as |for )?"
    r"(?:two|twice|double|2))\b"
)
#: "Terminal strip with all six landed on it", "the block's got the 14s on it".
_ON_THE_BLOCK = lazy_pattern(
    r"(?i)(?P<kept>\bterminal (?:strip|block)\b(?:[^.;]*?,)?)(?P<lost> (?:with |and )?"
    r"(?:the (?:block|strip)(?:['’]s| has)(?: got)? |it(?:['’]s| has)(?: got)? )?(?:all|both|the)"
    r"(?: (?:of (?:them|those)|the))?(?: (?:one|two|three|four|five|six|seven|eight|nine|ten"
    r"|\d{1,2}"
    r"|1[024]s|fourteens|twelves|tens|wires|conductors))?"
    r"(?: (?:are|landed|land|tied|screwed|terminated|go|going|sit|sitting))*"
    r" on (?:it|there|that)\b)"
)
#: "This one up here is a 4 inch octagon".
_UP_HERE = lazy_pattern(
    r"(?i)(?P<kept>\bthis (?:one|box|thing))(?P<lost> (?:up|down|over|back|right|in) here)\b"
)
_DEPTH = (
    r"(?:inch and (?:a half|a quarter|one half|one quarter|a quarter)|1[- ]1/[24]|2[- ]1/8"
    r"|two and (?:an? )?(?:one )?(?:eighth|half)|2[- ]1/2|one and (?:a|one) (?:half|quarter))"
)
#: "Four square inch and a quarter …, that's an old shallow one": how deep, said before.
_SHALLOW_BEHIND = lazy_pattern(
    rf"(?i)(?P<kept>\b{_DEPTH}\b.*?)(?P<lost>,? (?:that['’]?s|it['’]?s|which is|that is) "
    rf"(?:an? |the |one"
    r" of (?:the|those) )?(?:old |older |really |real )*(?:shallow|deep|skinny|thin|fat)(?: old)?"
    r" (?:ones?|kind|type|box))(?=\s*(?:[,.;]|$))"
)
#: "Masonry two gang, the shallow ones, two and a half deep".
_SHALLOW_AHEAD = lazy_pattern(
    r"(?i)(?P<kept>\b(?:gang|square|octagon|box|masonry))(?P<lost>,? the (?:old )?(?:shallow"
    r"|deep)(?:er)? (?:ones?"
    rf"|kind|type),?)(?= {_DEPTH}\b)"
)
#: "4 square two and an eighth deep, two gang ring marked 7.5": how wide the ring is adds nothing.
_GANG_OF_RING = lazy_pattern(
    rf"(?i)(?P<kept>\b{_DEPTH}(?: deep)?,(?: with| and)?(?: an?)? )(?P<lost>(?:one|two|single"
    rf"|double|1|2)[- ]gang )"
    r"(?=(?:mud |plaster |device |raised |tile )?ring\b)"
)
#: "A three way that isn't even used as a three way".
_NOT_USED_SO = lazy_pattern(
    r"(?i)(?P<kept>)(?P<lost>\b(?:that|which) (?:is ?n['’]?t|is not|ain['’]?t)(?: even|"
    r" really)? (?:used|wired"
    r"|hooked up|working) (?:as|like) (?:an?|one)(?: (?:three|four|3|4)[- ]?way| dimmer)?\b)"
)
_LOST = (
    _NUMBERED_PLACE, _NUMBERED_ROOM, _BREAKER, _BETWEEN, _WRONG_PAPER, _COUNT_FIRST, _LOOPED,
    _ON_THE_BLOCK, _UP_HERE, _SHALLOW_BEHIND, _SHALLOW_AHEAD, _GANG_OF_RING, _NOT_USED_SO,
)  # fmt: skip
#: "Clamps not inside".
_NOT_INSIDE = lazy_pattern(
    r"(?i)(?P<clamps>\b(?:the )?(?:cable )?clamps?(?: are| is|['’]re)?) not (?:inside|in it"
    r"|internal)"
    r"(?: the box| it)?(?=\s*(?:[,.;]|$|and\b))"
)
#: "I take that back, it's two and an eighth", "no I'm kidding, it's a …".
_TAKEN_BACK = lazy_pattern(
    r"(?i)(?P<mark>\b(?:no,? |oh,? |wait,? )*(?:i['’]?m (?:just |only )?(?:kidding|joking)"
    r"|just kidding"
    r"|i take (?:that|it) back|i take that one back)),? (?=it['’]?s\b|it is\b|that['’]?s\b"
    r"|they['’]?re\b|there['’]?s\b)"
)
#: "Clamps inside, oh no those are just connectors outside".
_MISTAKEN_CLAMPS = lazy_pattern(
    r"(?i)(?P<lost>\b(?:inside clamps|(?:cable )?clamps?(?: are)? inside|there(?:['’]s| are)"
    r" clamps"
    r"(?: inside)?),? (?:oh |wait |hm+ |no |hold on |hang on |actually |sorry )*(?:no|wait"
    r"|sorry|actually),? )"
    r"(?=(?:those|these|they|that|it)(?:['’]re|['’]s| are| is)? (?:just |only |really )?"
    r"(?:the |a )?(?:\w+ )?(?:connectors?|locknuts?|fittings?|bushings?)\b)"
)


def as_dictated(text: str, typed: bool = True) -> str:
    """The text without what is none of the description, each character in its place.

    >>> as_dictated("the sensor in 104, clamps not inside")
    'the sensor in    , clamps outside   '
    """
    for pattern in _LOST:
        text = pattern.sub(lambda found: found["kept"] + " " * len(found["lost"]), text)
    text = _MISTAKEN_CLAMPS.sub(lambda found: " " * len(found[0]), text)
    if not typed:  # a word of an ear keeps its place
        return text
    return _NOT_INSIDE.sub(_outside, text)


def marked_anew(text: str) -> str:
    """The text with "I take that back" and "I'm kidding", before what is so, as marks of a
    correction."""
    return _TAKEN_BACK.sub(_corrected, text)


def _outside(found: re.Match[str]) -> str:
    return f"{found['clamps']} outside".ljust(len(found[0]))


#: What is taken back within one breath: a number, a box, a thing.
_SAID_BEFORE = lazy_pattern(
    rf"(?i)\d|\b{_COUNT}\b|\b(?:square|octagon|inch|gang|clamps?|switch|receptacle|duplex|gfci"
    rf"|dimmer)\b"
)


def _corrected(found: re.Match[str]) -> str:
    """A mark of correction; where nothing was said before it, it takes back what was entered."""
    if _SAID_BEFORE.search(found.string, 0, found.start()) is None:
        return found[0]
    return "no wait,".ljust(len(found[0]))
