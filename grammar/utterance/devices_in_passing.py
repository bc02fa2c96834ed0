"""Devices that are named in passing and are none besides: where a cable goes, what a combination
is made of, how large a dimmer is, what the wires were joined to."""

from __future__ import annotations

import re

from boxaloud.grammar.lazy_patterns import lazy_pattern

_DEVICE = (
    r"(?:plugs?|switch(?:es)?|outlets?|receptacles?|recep|gfcis?|gfis?|dimmers?|duplex|timers?"
    r"|[34][- ]?way|three[- ]?way|four[- ]?way)"
)
_CABLE = (
    r"(?:1[024]|[68])[-/][234]|(?:fourteen|twelve|ten)[- ](?:two|three)|[23][- ]wire (?:14|12|10)"
)
#: Which one: a word that says that it is another than the one in the box.
_OTHER = r"(?:next|other|far|first|last|previous)"
#: Where it is, which may be where the box is.
_PLACE = (
    r"(?:outside|outdoor|exterior|patio|porch|garage|hall|bath|kitchen|bedroom|laundry|freezer"
    r"|fridge|disposal|dishwasher|counter|island|dryer|washer|range|oven|stove|micro(?:wave)?"
    r"|attic|basement|yard|shed|landscape|soffit|tv|desk|vanity|sink|hood|heater|closet|opener|gas)"
)
#: "12-2 to the outside plug", "14-2 from next plug".
_DESTINATION = lazy_pattern(
    rf"(?i)(?P<cable>\b(?:{_CABLE})s? (?:(?:goes|going|comes|coming|up|down|over|out|back|runs"
    r"|running|on) )*(?:to|from|feeding|feeds) (?:the |that )?)"
    rf"(?P<which>(?:(?P<other>{_OTHER}) |{_PLACE} )+)(?P<device>{_DEVICE})\b"
    r"(?=\s*(?:$|[,.;:!?]|(?:and|n|plus)\b))"
)
#: "14-3 from switch", in a list in which another cable comes from elsewhere too.
_FROM = lazy_pattern(
    rf"(?i)(?P<cable>\b(?:{_CABLE})s? (?:coming )?from (?:the |a )?)(?P<device>{_DEVICE})"
    r"(?=\s*(?:$|[,.;]|n\b|and\b|plus\b))"
)
#: "Combo device, switch on top plug on bottom": what it is made of.
_COMBINED = lazy_pattern(
    r"(?i)(?P<combo>\bcombo(?: device| unit)?,? )(?P<parts>(?:an? )?"
    rf"{_DEVICE} (?:on|at) (?:the )?(?:top|bottom),? (?:(?:and|n) )?(?:an? )?{_DEVICE}"
    r" (?:on|at) (?:the )?(?:bottom|top))\b"
)
#: "Fan light combo": a luminaire, and no device.
_LUMINAIRE = lazy_pattern(
    r"(?i)(?P<what>\b(?:fan[ /-]?light|heat[ /-]light|vent[ /-]light|fan[ /-](?:and|n)[ -]light) )"
    r"(?P<combo>combo)\b(?! (?:switch|device|control|timer|dimmer))"
)
#: "Dimmers fat but whatever", "dimmers big does that matter".
_REMARK = lazy_pattern(
    r"(?i)(?P<lead>^|[,.;] )(?P<device>(?:the |my |this |that )?(?:dimmer|switch|gfi|gfci|timer)"
    r"(?:['’]?s| is)) (?=(?:(?:so|real|really|too|pretty|kinda) )?(?:fat|big|bulky|huge|chunky"
    r"|ugly|wide)\b(?:,? (?:but|does|do|tho|though|lol|whatever|is that|and)\b|\s*$))"
)
#: "Pigtailed hot neutral n ground": the pigtails of a device, which never leave the box.
_PIGTAILED = lazy_pattern(
    r"(?i)\bpig ?tailed(?P<wires>(?:,? (?:the|all|and|n|hots?|neutrals?|grounds?|blacks?|whites?"
    r"|reds?))+)\b"
)
#: "Feed 14-2, porch 14-2, 3-way 14-3": in such a list a device is what a cable is for.
_IN_LIST = lazy_pattern(
    r"(?i)(?P<before>(?:^|[,+:;.])\s*)(?P<device>(?:[34]|three|four)[- ]?ways?)"
    rf"(?= (?:{_CABLE})\b\s*(?:$|[,+.;]))"
)
_BEHIND_CABLE = lazy_pattern(
    rf"(?i)(?P<before>(?:^|[,+:;])\s*(?:{_CABLE}) )(?P<device>(?:[34]|three|four)[- ]?ways?)"
    r"(?=\s*(?:$|[,+.;]))"
)
_NAMED_CABLES = lazy_pattern(
    rf"(?i)(?:^|[,+:;])\s*(?:(?!\d)[a-z]+ (?:{_CABLE})|(?:{_CABLE}) (?!\d)[a-z]+)\s*(?=$|[,+.;])"
)
#: "Three switches", "two devices": all of them, in the same breath.
_COUNTED = lazy_pattern(
    r"(?i)\b(?:two|three|four|five|[2-5]) (?:devices|switches|dimmers|three[- ]?ways|3[- ]?ways)\b"
)


def devices_in_passing(text: str, expect: str | None = None) -> str:
    """The text without them, each character in its place.

    >>> devices_in_passing("12-2 to the outside plug")
    '12-2 to the outside     '
    """
    text = _LUMINAIRE.sub(lambda found: found["what"] + " " * len(found["combo"]), text)
    text = _COMBINED.sub(lambda found: found["combo"] + " " * len(found["parts"]), text)
    text = _PIGTAILED.sub(lambda found: "pigtails".ljust(len(found[0])), text)
    if _DESTINATION.search(text):
        text = _DESTINATION.sub(lambda found: _destination(found, expect), text)
        text = _FROM.sub(_without_device, text)
    text = _REMARK.sub(lambda found: _remarked(found, text), text)
    if _COUNTED.search(text) and len(_NAMED_CABLES.findall(text)) > 1:
        for form in (_IN_LIST, _BEHIND_CABLE):
            text = form.sub(lambda found: found["before"] + " " * len(found["device"]), text)
    return text


def _destination(found: re.Match[str], expect: str | None) -> str:
    """Without the device a cable goes to, where it is not the one that is in the box: it is said
    to be another, one is told besides, or something was told before."""
    beside = found.string[: found.start()] + found.string[found.end() :]
    if found["other"] or _ANY_DEVICE.search(beside):
        return _without_device(found)
    return found[0]


_NOTHING_ELSE = lazy_pattern(
    r"(?i)(?:[\s,.!]|\b(?:um|uh|hello|hi|hey|please|and|n|plus|also|then|ok|okay|so|one|an?|another"
    r"|the|theres|there['’]?s|add)\b)*"
)
_ANY_DEVICE = lazy_pattern(rf"(?i)\b{_DEVICE}\b")


def _without_device(found: re.Match[str]) -> str:
    kept = found[0][: found.start("device") - found.start()]
    return kept + " " * len(found["device"])


def _remarked(found: re.Match[str], text: str) -> str:
    """A remark on a device that was told before, or that begins what is said, counts none."""
    name = found["device"].lower().split()[-1].rstrip("'’s")
    if found["lead"] and name not in text[: found.start()].lower():
        return found[0]
    return found["lead"] + " " * (len(found[0]) - len(found["lead"]))
