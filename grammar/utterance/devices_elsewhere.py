"""Where a cable leads: "a 12-3 going to the dishwasher switch" brings no switch in."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_LEADS = (
    r"(?:going|goes|go|went|running|runs|run|headed|heading|heads|leading|leads|leaving|leaves"
    r"|coming|comes|came|off|out|over|down|up|across|back|on)"
)
_THERE = (
    r"(?:the|a|an|my|our|that|his|her|their|its) (?!(?:left|right|same|first|second|third|last"
    r"|other|next|new|old|top|bottom|middle|light|wall|dimmer|three|four|single|double|smart|combo"
    r"|toggle|rocker|timer|gfci|gfi|duplex|two|one|regular|plain|[0-9])\b)[a-z]+ (?:[a-z]+ ){0,2}"
)
_FROM_A_CABLE = (
    r"(?i).*(?:\b1[024]|\b[68]|\b(?:two|three|four)s?|[-/][2-4]s?|cables?|wires?|runs?|one|it"
    r"|that|those|they|more|another|ones|which)(?: (?:just|then|now|is|are|that|which))*['’]?s?"
)
_DEVICES = r"(?:switch|receptacle|outlet|plug|dimmer|gfci|gfi|timer|sensor|device|on\b)"
_LEADS_TO = lazy_pattern(
    rf"{_FROM_A_CABLE} (?:{_LEADS} )+(?:to|from|for|towards?|into) {_THERE}$"
    # "12-2 to the outside plug"
    r"|.*\b(?:(?:1[024]|[68])[-/][2-4]|(?:fourteen|twelve|ten)[- ](?:two|three))s?"
    rf" (?:to|from) (?=(?:the|that|my|our|his|her) (?:(?!{_DEVICES})[a-z]+ )+$){_THERE}$"
)
_SENTENCES = lazy_pattern(r"[,.;:!?]")

AWAY_PIECES = (
    "to ", "from ", "for ", "toward", "leav", "head", "off", "out", "over",
)  # fmt: skip
"""One of them stands wherever a cable leads to a device."""


def leads_elsewhere(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The device at the other end of a cable, marked as such; it is in the box at hand only where
    no other device is."""
    kept: list[Act] = []
    for act in made:
        if isinstance(act, acts.Land) and kept and _lands_far(act, kept[-1]):
            continue
        far = isinstance(act, acts.AddDevice) and _far_end(act, heard)
        kept.append(_doubted(act) if far else act)
    return kept


def _doubted(act: Act) -> Act:
    return replace(act, doubts=(*act.doubts, acts.Doubt("count", "elsewhere")))


def _far_end(device: acts.AddDevice, heard: str) -> bool:
    if device.count not in (None, 1) or device.name is None:
        return False
    head = device.words.rsplit(" ", 1)[-1]
    clause = _SENTENCES.split(heard[: device.span[1] - len(head)])[-1]
    return _LEADS_TO.match(clause) is not None


_AWAY = lazy_pattern(r"(?i)\b(?:leaving|leaves|headed|heading|heads|off|out|over)\b")


def _lands_far(land: acts.Land, cable: Act) -> bool:
    """ "12-3 leaving for the disposal switch": no size that a switch of the box is on."""
    words = land.target.words.lower()
    if not isinstance(cable, acts.AddCable) or land.span[0] != cable.span[0]:
        return False
    return len(words.split()) > 2 and _AWAY.search(land.words) is not None
