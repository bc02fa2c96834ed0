"""Words of the trade that, typed in short, read like other words: "can light" is a luminaire and
asks nothing, "hot tub" is no conductor, a hickey on a stud is two fittings."""

from __future__ import annotations

import re

from boxaloud.grammar.lazy_patterns import lazy_pattern

_LEAD = (
    r"^\s*(?:(?:ok|okay|so|hello|hi|hey|um|uh|this|the|that|shower|closet|hall|bath|soffit),? )*"
)
#: "Can light box 12 cubic", "can has two 14-2".
_CAN = lazy_pattern(
    rf"(?i)(?P<lead>{_LEAD})(?P<can>can)(?= (?:lights?|box|jbox|has|got|with|w|in the|is)\b)"
)
#: "By the slider": a door.
_SLIDER = lazy_pattern(r"(?i)(?<=\b(?:by|at) the )slider\b(?! (?:switch|dimmer))")
_HOT_TUB = lazy_pattern(r"(?i)\bhot (?=tub\b|water\b)")
#: "Hickey on a stud": each kind of fitting counts, 314.16(B)(3).
_ON_A_STUD = lazy_pattern(
    r"(?i)(?P<one>\bhickey )(?P<on>(?:(?:screwed|threaded|up) )*on(?:to)?)"
    r"(?= (?:a|an|the|its)? ?(?:fixture |luminaire |light )?stud\b)"
)
#: "10-3, 30a the big one": a rating, and no number of anything.
_RATING = lazy_pattern(
    r"(?i)(?<![\w./-])(?:15|20|30|40|50|60) ?(?:a|amps?)(?=,? (?:the|breaker|circuit)\b|\s*[,.;]"
    r"|\s*$)"
)
_CABLE = r"(?:1[024]|[68])[-/][234]"
_DEVICE = r"(?:duplex|switch|plug|outlet|receptacle|gfci|gfi|dimmer|timer)"
#: "4 11 deep", "four eleven deep one, 2 1/8": a square of 4-11/16 inches.
_FOUR_ELEVEN = lazy_pattern(
    r"(?i)(?<![\w./-])4 11(?=(?: deep| shallow| x| by| sq(?:uare)?| box|,? [12] \d/\d)\b)"
)
_DEEP_ONE = lazy_pattern(
    r"(?i)(?P<box>\b(?:4[- ]11|four eleven|4 ?sq|4 square|four square))(?P<deep> (?:deep|shallow)"
    r"(?: (?:one|box))?,)(?= [12] \d/\d)"
)
#: "Add one wire 14 traveler": a size behind its noun, and no count.
_WIRE_SIZE = lazy_pattern(
    r"(?i)(?P<count>\b(?:one|two|three|four|an?|[1-6]) )wires? (?P<size>14|12|10|fourteen"
    r"|twelve|ten)(?= (?:travell?er"
    r"|hot|neutral|switch leg)s?\b)"
)
#: "Greens two 12s".
_GREENS = lazy_pattern(
    r"(?i)\bgreens? (?P<count>one|two|three|four|[1-4]) (?P<size>(?:14|12|10)s)(?=\s*(?:$|[,.;]))"
)
#: "8-3 to 8-3 splice", "6-3 spliced to 6-3": two.
_SPLICED = lazy_pattern(
    rf"(?i)(?P<cable>\b{_CABLE})(?: (?:spliced|tied|joined) to (?:an? |another )?(?P=cable)"
    r"| to (?:an? |another )?(?P=cable) splice)\b"
)
#: "8-3 i think yes 8-3": said once more.
_SURE = lazy_pattern(
    rf"(?i)(?P<cable>\b{_CABLE})(?P<again>,? i (?:think|guess|believe),? (?:yes|yeah|yep|ya|yup),?"
    r" (?P=cable))\b"
)
#: "Switch is on the 14 plug on the 12": a break between two that land.
_TWO_LAND = lazy_pattern(
    rf"(?i)(?P<one>\b{_DEVICE} (?:is )?on (?:the )?(?:14|12|10)s?) (?=(?:the )?{_DEVICE} (?:is )?on"
    r" (?:the )?(?:14|12|10)s?\b)"
)
#: "Duplex still on the 12": where one is that is there.
_STILL_ON = lazy_pattern(
    rf"(?i)(?P<device>\b(?:the )?{_DEVICE})(?P<still> (?:is )?still|['’]s still)"
    r"(?= on (?:the )?(?:14|12|10|fourteen|twelve|ten)s?\b)"
)
#: "On same 12s": of what is there.
_SAME_SIZE = lazy_pattern(r"(?i) (?:both )?on (?:the )?same (?:14|12|10)s\b")
_HALF = lazy_pattern(r"(?i)(?<=\d )n(?= (?:a )?(?:half|quarter)\b)")
#: "4 inch pancake 6.0": a box without a row in the table, by what is marked on it.
_PANCAKE = lazy_pattern(
    r"(?i)\b(?:3|4|three|four)(?: ?in(?:ch)?|\")(?= pancake(?: box)? \d{1,2}\.\d)"
)
#: "14-2 five minus one so four".
_LESS = lazy_pattern(
    rf"(?i)(?P<cable>\b{_CABLE}) (?P<n>[a-z]+|\d) (?:minus|less) (?P<less>[a-z]+|\d),? so"
    r" (?P<left>[a-z]+|\d)\b"
)
_WORDS = ("zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten")


def words_in_short(text: str) -> str:
    """The text with such words as what they mean, each character in its place.

    >>> words_in_short("hickey on a stud")
    'hickey +  a stud'
    """
    text = _CAN.sub(_the_can, text)
    text = _SLIDER.sub("door  ", text)
    text = _HOT_TUB.sub("    ", text)
    text = _ON_A_STUD.sub(lambda found: found["one"] + "+".ljust(len(found["on"])), text)
    text = _RATING.sub(lambda found: " " * len(found[0]), text)
    text = _FOUR_ELEVEN.sub("4-11", text)
    text = _DEEP_ONE.sub(lambda found: found["box"] + " " * len(found["deep"]), text)
    text = _HALF.sub("&", text)
    text = _PANCAKE.sub(lambda found: " " * len(found[0]), text)
    return _cables_in_short(_landed_in_short(text))


def _cables_in_short(text: str) -> str:
    """The same of cables and wires."""
    text = _WIRE_SIZE.sub(lambda found: _in_place(found, f"{found['count']}#{_gauge(found)}"), text)
    text = _GREENS.sub(
        lambda found: _in_place(found, f"{found['count']} green {found['size']}"), text
    )
    text = _SPLICED.sub(lambda found: _in_place(found, f"{found['cable']} x2"), text)
    text = _SURE.sub(lambda found: _in_place(found, found["cable"]), text)
    return _LESS.sub(lambda found: _in_place(found, _what_is_left(found)), text)


def _gauge(found: re.Match[str]) -> str:
    said = found["size"].lower()
    return {"fourteen": "14", "twelve": "12", "ten": "10"}.get(said, said)


def _in_place(found: re.Match[str], told: str) -> str:
    return told.ljust(len(found[0]))


def _landed_in_short(text: str) -> str:
    """The same of devices and the wires they are on."""
    text = _TWO_LAND.sub(lambda found: found["one"] + ",", text)
    text = _STILL_ON.sub(lambda found: found["device"] + " is".ljust(len(found["still"])), text)
    return _SAME_SIZE.sub(lambda found: " " * len(found[0]), text)


def _what_is_left(found: re.Match[str]) -> str:
    """ "14-2 x4" for "14-2 five minus one so four"; as it is where the sum is wrong."""
    counts = [
        _WORDS.index(n) if n in _WORDS else int(n) if n.isdigit() else -9
        for n in (found[name].lower() for name in ("n", "less", "left"))
    ]
    right = min(counts) >= 0 and counts[0] - counts[1] == counts[2]
    return f"{found['cable']} x{counts[2]}" if right else found[0]


def _the_can(found: re.Match[str]) -> str:
    """ "The light box", "it has"."""
    behind = found.string[found.end() + 1 :].lower()
    return found["lead"] + ("the" if behind.startswith(("light", "box", "jbox")) else "it ")
