"""Devices said once more: of a sum, of a heading, or by "both" and "the"."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.device_groups import called_alike, each_placed, same_device
from boxaloud.grammar.utterance.headings import ROOMS

_NO_DEVICE = lazy_pattern(
    r"\b(?:ceiling|lighting|light|smoke|alarm|luminaire|fan|fixture) outlet\b", re.IGNORECASE
)


#: Receptacles that are named by what they feed, and may be said again by their kind alone.
_WIDE = ("range receptacle", "dryer receptacle")


def _generic(act: acts.AddDevice) -> bool:
    """A device named by no more than its kind."""
    return act.name in (
        None, "device", "receptacle", "switch", "30 amp receptacle", "50 amp receptacle",
        "single receptacle",
    )  # fmt: skip


def same_again(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "two switches, both three-ways"; "… and the switch" of one said before: no further one."""
    kept: list[Act] = []
    for said in made:
        act = _another(said, kept)
        if isinstance(act, acts.AddDevice):
            if _only_joined(act, made, heard):
                continue
            if any(absorbed(act, kept, heard) for absorbed in _ABSORBING):
                continue
        elif (
            isinstance(act, acts.AddTerminalBlock)
            and act.words.lower().startswith(("that ", "the "))
            and any(isinstance(other, acts.AddTerminalBlock) for other in kept)
        ):
            continue
        kept.append(act)
    return kept


_BETWEEN = lazy_pattern(r"(?i)\b(?:between|joining|tying) (?:the )?$")


def _only_joined(act: acts.AddDevice, made: list[Act], heard: str) -> bool:
    """ "A jumper between the two switches … two switches": the devices that something joins, where
    they are said by themselves as well."""
    if not _BETWEEN.search(heard[max(0, act.span[0] - 14) : act.span[0]] + _article(act)):
        return False
    return any(
        isinstance(other, acts.AddDevice) and other is not act and same_device(act, other)
        for other in made
    )


def _article(act: acts.AddDevice) -> str:
    """The "the" that a device's own words begin with."""
    return "the " if act.words.lower().startswith("the ") else ""


def _of_lighting(act: acts.AddDevice, kept: list[Act], heard: str) -> bool:
    """An outlet of lighting is a place in the wiring, no device."""
    before = heard[max(0, act.span[0] - 12) : act.span[1]]
    return act.name == "receptacle" and not kept and _NO_DEVICE.search(before) is not None


def _all_of_the_last(act: acts.AddDevice, kept: list[Act], heard: str) -> bool:
    """ "Two switches, both three-ways": what they are."""
    last = kept[-1] if kept else None
    if (
        not act.words.lower().startswith(("both ", "all "))
        or not isinstance(last, acts.AddDevice)
        or (last.count or 1) < 2
    ):
        return False
    kept[-1] = replace(
        last,
        name=act.name or last.name,
        awg=act.awg or last.awg,
        span=(last.span[0], act.span[1]),
    )
    return True


def _all_landed(act: acts.AddDevice, kept: list[Act], heard: str) -> bool:
    """ "A switch, a duplex, both on the twelves": what they land on."""
    low = act.words.lower()
    carried = any(one.slot == "name" and one.reason == "carried" for one in act.doubts)
    nameless = carried or act.name in (None, "device")
    if not low.startswith(("both ", "all ")) or not nameless or act.awg is None:
        return False
    every = acts.Reference(
        "device", which="both" if low.startswith("both") else "all", words=act.words
    )
    kept.append(
        acts.Land(target=every, awg=act.awg, words=act.words, span=act.span, function="correction")
    )
    return True


def _behind_a_sum(act: acts.AddDevice, kept: list[Act], heard: str) -> bool:
    """ "Devices: 1 receptacle": the number of the sum is that of the device."""
    last = kept[-1] if kept else None
    if (
        not isinstance(last, acts.AddDevice)
        or last.name not in (None, "device")
        or not re.search(r":\s*(?:\d+|one|two|three|four|five|six)$", last.words)
        or heard[last.span[1] : act.span[0]].strip()
    ):
        return False
    kept[-1] = replace(act, count=last.count)
    return True


def _behind_a_heading(act: acts.AddDevice, kept: list[Act], heard: str) -> bool:
    """ "Dimmer box: … one switch": the heading says what device it is."""
    last = kept[-1] if kept else None
    if (
        not isinstance(last, acts.AddDevice)
        or last is not kept[0]
        or last.count is not None
        or last.words.lower().startswith(("a ", "an ", "the "))
        or not _generic(act)
        or not re.search(r"[:.;]|\s[-–]\s", heard[last.span[1] : act.span[0]])
        or each_placed(last, act, heard)
    ):
        return False
    kept[-1] = replace(
        last,
        count=act.count,
        awg=act.awg or last.awg,
        gangs=act.gangs or last.gangs,
        span=(last.span[0], act.span[1]),
    )
    return True


def _behind_the_first_words(act: acts.AddDevice, kept: list[Act], heard: str) -> bool:
    """ "Switch in the hall: … a dimmer": the first words are a heading."""
    first = kept[0] if kept else None
    if (
        not isinstance(first, acts.AddDevice)
        or first.count is not None
        or first.span[0] >= 14
        or first.words.lower().startswith(("a ", "an "))
        or not re.match(  # no list is headed by "fan switch and light switch."
            r"(?i)(?! (?:and|plus|with|&) (?:[a-z]+ ){0,3}[a-z]+[.!])[^,;]{0,25}?[:.](?:\s|$)",
            heard[first.span[1] :],
        )
        or each_placed(first, act, heard)
    ):
        return False
    named = first.name if first.name in _WIDE or act.name == "device" else act.name
    kept[0] = replace(act, name=named, awg=act.awg or first.awg)
    return True


def _of_the_heading(act: acts.AddDevice, kept: list[Act], heard: str) -> bool:
    """ "Disposal switch, two 14-2s, one switch": the first words said which box it is. Before a
    colon they may name several: "disposal switch and dishwasher receptacle: … one receptacle"."""
    if len(kept) < 2 or _FURTHER_ONE.search(heard[max(0, act.span[0] - 8) : act.span[1]]):
        return False
    colon = heard.find(":", 0, act.span[0])
    for place, first in enumerate(kept):
        if not isinstance(first, acts.AddDevice):
            return False  # what is named behind other things is no heading
        if not (
            (
                first.span[1] <= colon
                or (not place and first.span[0] < 24)
                or (place == 1 and kept[0].span[0] > first.span[0] and _joins(heard, first))
            )
            and first.count is None
            and (act.count is not None or _names_the_box(act, first, heard))
            and not first.words.lower().startswith(("a ", "an ", "the "))
            and same_device(act, first)
        ):
            continue
        name = first.name if len(first.name or "") > len(act.name or "") else act.name
        kept[place] = replace(
            act, name=name, awg=act.awg or first.awg, gangs=act.gangs or first.gangs
        )
        return True
    return False


def _joins(heard: str, second: acts.AddDevice) -> bool:
    """Whether an utterance begins with a device, "and", and this one: no number, no break."""
    return re.fullmatch(r"[A-Za-z ]{1,40} and [A-Za-z ]{0,16}", heard[: second.span[0]]) is not None


#: "By the bed", "in the den": where the box is; "on the 12-2", "by the switch" say no place.
_BESIDE = lazy_pattern(
    r"(?i)\s*(?:by|at|near|behind|beside|under|over|above|below|next to) (?:the|a|my) "
    r"(?!(?:other |second )?(?:switch|dimmer|plug|outlet|receptacle|duplex|gfci|gfi|box)\b)[a-z]"
)
_WITHIN = lazy_pattern(
    rf"(?i)\s*(?:in|on|for) (?:the |a |my )?(?:{'|'.join(sorted(ROOMS - {'box'}))})\b"
)


#: How many words before a device may name its room, where no break is heard.
_NEAR = 2


def _in_a_room(act: acts.AddDevice, heard: str) -> bool:
    """Whether a device is named by where it is: "den plug", "plug by the bed"."""
    begin = max(heard.rfind(stop, 0, act.span[0]) for stop in ",.;:\n") + 1
    named = re.findall("[a-z]+", heard[begin : act.span[0]].lower())[-_NEAR:]
    named += re.findall("[a-z]+", act.words.lower())
    return bool(ROOMS.intersection(named) - {"box"}) or any(
        place.match(heard, act.span[1]) for place in (_BESIDE, _WITHIN)
    )


def _names_the_box(act: acts.AddDevice, first: acts.AddDevice, heard: str) -> bool:
    """ "Den plug, three 14-2s, receptacle": the first words name the box by its device and where
    it is, and the same device is then said by itself, in whatever word."""
    return _in_a_room(first, heard) and not _in_a_room(act, heard)


_FURTHER_ONE = lazy_pattern(r"(?i)\b(?:another|more|second|other|extra|also|plus|and)\b")


def _of_a_wide_one(act: acts.AddDevice, kept: list[Act], heard: str) -> bool:
    """ "Range receptacle, … the receptacle is two gangs wide"."""
    first = kept[0] if kept else None
    if (
        not isinstance(first, acts.AddDevice)
        or first.count is not None
        or first.name not in _WIDE
        or not _generic(act)
    ):
        return False
    kept[0] = replace(first, awg=act.awg or first.awg, gangs=act.gangs or first.gangs)
    return True


#: "The other two switches", "other two": not the one said before.
_THE_OTHERS = lazy_pattern(r"(?:and )?(?:the )?(?:other|remaining|rest)\b")


def _another(act: Act, kept: list[Act]) -> Act:
    """ "One switch is on the 14, the other is on the 12", "… two are": further, not the first."""
    last = kept[-1] if kept else None
    if (
        not isinstance(act, acts.Land)
        or act.target.kind != "device"
        or not isinstance(last, acts.AddDevice)
        or last.awg in (None, act.awg)
        or not (
            _THE_OTHERS.match(act.words.lower()) or (act.target.count or 0) > (last.count or 99)
        )
    ):
        return act
    further = acts.AddDevice(
        count=act.target.count or 1,
        name=act.target.name or last.name,
        awg=act.awg,
        words=act.words,
        span=act.span,
    )
    return further if same_device(further, last) else act


def _definite(act: acts.AddDevice, kept: list[Act], heard: str) -> bool:
    """ "… and the switch is on a twelve": of the one said before."""
    low = act.words.lower()
    if not low.startswith(("the ", "that ")) or _THE_OTHERS.match(low):
        return False
    for place, other in enumerate(kept):
        if isinstance(other, acts.AddDevice) and called_alike(act, other, heard):
            if act.awg is not None:
                kept[place] = replace(other, awg=act.awg)
            return True
    return False


#: How a device may be one said before, each tried in turn; one that is so changes what is kept.
_ABSORBING: tuple[Callable[[acts.AddDevice, list[Act], str], bool], ...] = (
    _of_lighting,
    _all_of_the_last,
    _all_landed,
    _behind_a_sum,
    _behind_a_heading,
    _behind_the_first_words,
    _of_the_heading,
    _of_a_wide_one,
    _definite,
)
