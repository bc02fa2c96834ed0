"""Devices that are counted and named: "four devices, that's two dimmers, a timer and a sensor",
"a GFCI and separately a switch, so two devices". The count says how many there are of those named,
and is of no further ones (314.16(B)(4) counts each yoke once)."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_BESIDE = (
    acts.NameBoxKind, acts.SetVolume, acts.SetSize, acts.SetClamps, acts.AddPart, acts.AddCable,
)  # fmt: skip
"""What may stand between the count and the names."""
_FURTHER = lazy_pattern(r"(?i)\b(?:plus|also|more|another|other|extra|additional|besides|too)\b")
_LEADS_ON = lazy_pattern(
    r"(?i).*(?:[:(]|\b(?:that['’]?s|that is|those are|they['’]re|they are|it['’]?s|it is|which is"
    r"|which are|so|namely|being|meaning|like|as in|one is|i['’]ve got|i have|we have"
    r"|so that['’]?s)\b)[\s,]*$"
)
_SUMS_UP = lazy_pattern(
    r"(?i)\W*(?:(?:so|that['’]?s|that is|that makes|makes|making|which makes|which is|it['’]?s"
    r"|for|in all|altogether|total|a|of|meaning|and|then|means)\b[\s,]*)+"
)


def announced_devices(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts without the count of devices that are named before or behind it."""
    for place, act in enumerate(made):
        count = _announced(act)
        if count is None:
            continue
        behind = _named_behind(made, place, heard)
        if behind and sum(_count(made[at]) for at in behind) == count:
            told = [_told(one) if at in behind else one for at, one in enumerate(made)]
            if isinstance(act, acts.Restate) and not _BESIDE_THEM.intersection(map(type, made)):
                return _anew(told, place, behind, heard)
            return told[:place] + told[place + 1 :]
        if _sums_up(made, place, heard) and _named_before(made, place) == count:
            return made[:place] + made[place + 1 :]
    return made


_BESIDE_THEM = frozenset((acts.AddCable, acts.AddConductors))
"""Where these are told with the devices, the box is told for the first time."""


def _anew(told: list[Act], place: int, behind: list[int], heard: str) -> list[Act]:
    """ "Make that two devices: a switch and a receptacle": those, in place of what there was."""
    span = (told[place].span[0], told[behind[-1]].span[1])
    things = tuple(one for at in behind if isinstance(one := told[at], acts.AddDevice))
    listed = acts.RestateList(
        things=things, words=heard[slice(*span)], span=span, function="correction",
        doubts=tuple(doubt for one in things for doubt in one.doubts),
    )  # fmt: skip
    return [listed if at == place else one for at, one in enumerate(told) if at not in behind]


def _announced(act: Act) -> int | None:
    """How many devices an act counts without naming them."""
    thing = act.thing if isinstance(act, acts.Restate) else act
    if not isinstance(thing, acts.AddDevice) or thing.name not in (None, "device"):
        return None
    return thing.count if thing.awg is None and (thing.count or 0) > 1 else None


def _device(act: Act) -> acts.AddDevice | None:
    """The device that an act names."""
    thing = act.thing if isinstance(act, acts.Restate) else act
    named = isinstance(thing, acts.AddDevice) and thing.name not in (None, "device")
    return thing if named and isinstance(thing, acts.AddDevice) else None


def _count(act: Act) -> int:
    device = _device(act)
    return (device.count or 1) if device is not None else 0


def _told(act: Act) -> Act:
    """What is named of those counted is told, and comes in place of nothing."""
    device = _device(act)
    return replace(device, function="inform") if device is not None else act


def _named_behind(made: list[Act], place: int, heard: str) -> list[int]:
    """The places of the devices named behind a count, if the words lead on to them."""
    found: list[int] = []
    for at in range(place + 1, len(made)):
        act = made[at]
        if _device(act) is None:
            if found or not isinstance(act, _BESIDE):
                break
            continue
        start = act.span[1] if not found else made[found[-1]].span[1]
        if found and _FURTHER.search(heard[start : act.span[0]] + act.words):
            break
        found.append(at)
    if not found:
        return []
    first = made[found[0]]
    own = first.thing.span[0] if isinstance(first, acts.Restate) else first.span[0]
    between = heard[made[place].span[1] : own]
    leads = (
        isinstance(first, acts.Restate)
        or _LEADS_ON.match(between)
        or (isinstance(made[place], acts.Restate) and between.strip() in ("", ","))
    )
    return found if leads and not _FURTHER.search(between) else []


def _sums_up(made: list[Act], place: int, heard: str) -> bool:
    """Whether a count says what those before it come to: "…, so two devices"."""
    act = made[place]
    start = made[place - 1].span[1] if place else 0
    lead = heard[start : act.span[0]] + (
        act.words[: act.thing.span[0] - act.span[0]] if isinstance(act, acts.Restate) else ""
    )
    return bool(place) and _SUMS_UP.fullmatch(lead) is not None


def _named_before(made: list[Act], place: int) -> int:
    return sum(_count(act) for act in made[:place] if not isinstance(act, acts.Restate))
