"""A marked volume that is said by how the box looks, or by what is done with the box, and not as
so many cubic inches: "blue 18", "a 20 blue", "18 single", "mines a 16", "replace with 20.3".

The words are written anew as "box 18", each character in its place, so that all that is said
around them does with them what it does with a volume. A figure that could be a size of wire is no
volume here."""

from __future__ import annotations

import re
from collections.abc import Sequence

from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer.heard_words import Word

_ONES = r"(?:one|two|three|four|five|six|seven|eight|nine)"
#: What a box is marked with, and no size of a wire nor a count: 13, 15 to 79, or with a point.
_DIGITS = r"(?:(?:[2-7]\d|1[35-9])(?:\.\d{1,2})?|(?:[4-9]|1[024])\.\d{1,2})(?!\.?\d|[-/]\d)"
_SPOKEN = rf"(?:sixteen|eighteen|(?:twenty|thirty|forty|fifty)(?:[- ]{_ONES})?)"
_FIGURE = rf"(?:{_DIGITS}|{_SPOKEN}\b)"
#: A figure before one of these is a size, a rating, a measure or a count.
_NOT_OTHER = (
    r"(?! ?(?:awg|gauge|ga|amps?|a|v|volts?|watts?|w|wires?|conductors?|thhn|thwn|x|by|inch(?:es)?"
    r"|in|cubes?|cubic|cu|ci|in3|cc|feet|foot|ft|mm|cm|ml|minutes?|min|percent|of|more"
    r"|switch(?:es)?|nuts?|caps?|staples?|fixture|tails?|leads?|receptacles?|outlets?|plugs?"
    r"|breakers?|poles?|and|n|point)\b(?!-)| ?[\"#%$’'x×/-])"
)
_BREAKS = ",.;:!?)\n"
_WIRES = lazy_pattern(
    r"(?i)\b(?:white|black|red|green|brown|orange|yellow)s? (?:#|no\.? )?(?:16|18)\b"
    r"|\b(?:#|no\.? )?(?:16|18) (?:ga |gauge |awg )?(?:white|black|red|green|brown|orange|yellow)\b"
    r"|\bfixture (?:wires?|tails?|leads?)\b|\bthhn\b|\bthwn\b"
)
#: "Blue 18", "a blue eighteen".
_COLOUR_FIRST = lazy_pattern(
    rf"(?i)(?<![\w-])(?:blue|single)(?: one| nail[- ]?on)? (?P<volume>{_FIGURE}){_NOT_OTHER}"
)
#: "18 blue", "16 blue one", "20 blue nail-on", "18 single".
_COLOUR_LAST = lazy_pattern(
    rf"(?i)(?<![\w.,/#-])(?P<volume>{_FIGURE}) (?:blue|single)"
    r"(?: (?:box|one|nail[- ]?on|plastic)s?)?(?=\s*$|[,.;:!?)]| (?:box|with|w|and|n|no|in|has|it|is"
    r"|but|clamps?|by|at|near|for|on)\b)"
)
#: "Single gang blue one": a box by itself.
_BLUE_ONE = lazy_pattern(r"(?i)\b((?:gang|standard|regular|usual|normal) )(blue (?:one|ones))\b")
#: "Mine's a 16", "they gave me 16", "cubic 12.5".
_MINE = lazy_pattern(
    rf"(?i)\b(?:mine['’]?s?(?: is)?(?: just| only)? an? (?P<a>{_FIGURE})"
    rf"|(?:they|he|she|boss|shop)(?: just| only)? (?:gave|handed|sent|got|left) (?:me|us)(?: an?)?"
    rf" (?P<b>{_FIGURE})|(?<!\d )cubic (?P<c>{_FIGURE}))(?=\s*(?:[,.;!?]|$))"
)
#: "2 gang 28 14-2 feed", "nail-on 18 switch": a break between the volume and what is in the box.
_JOINED = lazy_pattern(
    rf"(?i)(\b(?:gang|gangs|nail[- ]?ons?|old[- ]?work|cut[- ]?in|box) {_FIGURE})"
    r" (?=(?:(?:one|two|three|four|five|six|seven|eight|nine|[1-9]) )?(?:1[024]|[68])[-/][234]\b"
    r"|(?:single[- ]pole )?(?:switch|dimmer|toggle|outlet|receptacle|plug|duplex|gfci|gfi|timer"
    r"|[34][- ]?way)\b"
    r"|(?:inside|internal|outside) clamps?\b)"
)
_PANCAKE = lazy_pattern(
    r"(?i)(\bpancake (?:[5-8]|1\d)) (?=(?:(?:one|two|[12]) )?(?:1[024]|[68])[-/][23]\b)"
)
_LEAD = (
    r"\s*(?:(?:hello|hi|hey|please|ok|okay|so|then|now|well|and|n|um|uh|ya|yeah|yes|yep|no|nah|fine|shoot|alright|lets"
    r"|let['’]?s|ill|i['’]?ll|i|we|we['’]?ll|just|gonna|gotta|have to|had to|actually),? )*"
)
_TAIL = r"(?:,? (?:box|one|nail[- ]?on|instead|then|now|please|blue|single|in|there))*[\s.!]*"
#: "Change to 16", "replace w 20.3", "use the 22.5", "bigger, 18", "not 20.3, 20", "do it 20.3".
_ORDERED = lazy_pattern(
    rf"(?i)(?P<lead>{_LEAD})(?P<order>(?:"
    r"(?:change|changed|changing|swap|swapped|replace|replaced)"
    r"(?: (?:it|that|this))?(?: (?:to|for|with|w|out for))?"
    r"|(?:do|doing|put in)(?: (?:it|that|this))?(?: with| w)?"
    r"|(?:bigger|smaller|larger|deeper)(?: one| box)?[,:]?"
    rf"|not (?:an? )?{_FIGURE},?(?: but)?(?: it['’]?s| its)?"
    rf")(?: an?| the)? (?P<volume>{_FIGURE}){_NOT_OTHER}{_TAIL})$"
)
#: "22.5 box in the truck, use that": where the box lies from which it is taken.
_FETCHED = lazy_pattern(
    rf"(?i)^(?P<lead>{_LEAD}(?:(?:got|have|there['’]?s|theres|i got|i have) )?(?:an? )?)"
    rf"(?P<box>(?P<volume>{_FIGURE}) (?:box|one)) (?P<where>(?:in|on) (?:the|my) (?:truck|van"
    r"|trailer)),? (?P<use>(?:so |ill |i['’]ll |we['’]ll |lets |gonna )*(?:use|take|go with|grab"
    r"|using|put in) (?:that|it|that one)(?: instead| then)?)(?:,? please)?[\s.!]*$"
)
#: "Weatherproof box out back 18.3": where it is.
_WHERE = lazy_pattern(
    r"(?i)(?P<box>\bbox)(?P<where>(?: (?:out|up|down|over|in|on|by) (?:the )?(?:back|front|side"
    r"|there|here|garage|patio|porch|deck|shed|pool|hall|kitchen|bath))+)"
    r"(?= \d\d\.\d{1,2}\s*(?:$|[,.;]))"
)
#: "The box is 42 something, hold on. 42.5": the figure that is looked for, and found.
_SOMETHING = lazy_pattern(
    r"(?i)(?P<first>(?<![\w.])(?P<whole>\d\d) (?:and )?(?:something|point something)\b"
    r"(?:,? (?:hold on|hang on|wait|let me (?:look|see)|one sec(?:ond)?))*[\s.,]*)"
    r"(?=(?P=whole)\.\d)"
)


def volumes_by_look(text: str, expect: str | None = None) -> str:
    """The text with such volumes as those of a box, each character in its place.

    >>> volumes_by_look("blue 18 with two 14-2")
    'box 18, with two 14-2'
    """
    if not _ANY.search(text):
        return text
    text = _SOMETHING.sub(lambda found: " " * len(found["first"]), text)
    text = _WHERE.sub(lambda found: found["box"] + " " * len(found["where"]), text)
    text = _BLUE_ONE.sub(lambda found: found[1] + "box".ljust(len(found[2])), text)
    if not _WIRES.search(text):
        text = _COLOUR_FIRST.sub(_as_box, text)
        text = _COLOUR_LAST.sub(lambda found: f"{found['volume']} box".ljust(len(found[0])), text)
    text = _MINE.sub(_as_box, text)
    text = _JOINED.sub(lambda found: found[1] + ",", text)
    text = _PANCAKE.sub(lambda found: found[1] + ",", text)
    if (expect or "").startswith("pull"):
        return text
    ordered = _ORDERED.match(text)
    told = _told(ordered["volume"], len(ordered["order"])) if ordered else None
    return text if ordered is None or told is None else ordered["lead"] + told


def fetched_box(words: str | Sequence[Word]) -> str | Sequence[Word]:
    """ "22.5 box in the truck, use that": the volume of the box that is put in."""
    fetched = _FETCHED.match(words) if isinstance(words, str) else None
    told = _told(fetched["volume"], len(fetched[0]) - len(fetched["lead"])) if fetched else None
    return words if fetched is None or told is None else fetched["lead"] + told


_ANY = lazy_pattern(
    r"(?i)\d\d|\d\.\d|blue|single|pancake|sixteen|eighteen|twenty|thirty|forty|fifty"
)


def _told(volume: str, length: int) -> str | None:
    """The volume as that of the box in so many characters; None where they are too few."""
    forms = (f"box is {volume}", f"box {volume}")
    fitting = next((form for form in forms if len(form) <= length), None)
    return None if fitting is None else fitting.ljust(length)


def _as_box(found: re.Match[str]) -> str:
    """The volume as that of a box, with a break behind it where there is none and room for one."""
    volume = next(group for group in found.groupdict().values() if group)
    room = len(found[0])
    told = f"box {volume}"
    if len(told) > room:
        return found[0]
    behind = found.string[found.end() : found.end() + 1]
    if behind not in ("", *_BREAKS) and len(told) < room:
        return f"{told},".rjust(room)
    return told.rjust(room)
