"""A sum of the devices behind their names, "a GFI and a switch, two devices": none besides."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_FURTHER = lazy_pattern(
    r"(?i)\b(?:and|plus|with|also|more|other|another|besides|then|add(?:ing)?|n|\+|&)\s*$"
)
_SUMMED_UP = lazy_pattern(
    r"(?i)\b(?:so|that['’]?s|that is|makes|just|only|total|equals|=)"
    r"(?: (?:only|just|that['’]?s))?\s*$"
)


def devices_summed(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts without "two devices" where two were named before it; "one device" is the sum of
    the one that was named where it is said so."""
    return [
        act
        for place, act in enumerate(made)
        if not _sums(act, made[:place], heard) and not _sums_alike(act, made[:place], heard)
    ]


def _sums(act: Act, before: list[Act], heard: str) -> bool:
    if not isinstance(act, acts.AddDevice) or act.name not in (None, "device"):
        return False
    if act.count is None or act.awg is not None or act.gangs is not None:
        return False
    named = [one for one in before if isinstance(one, acts.AddDevice)]
    if not named or any(one.name in (None, "device") for one in named):
        return False
    said = heard[: act.span[0]]
    if _FURTHER.search(said) or sum(one.count or 1 for one in named) != act.count:
        return False
    return act.count > 1 or _SUMMED_UP.search(said) is not None


_ANOTHER = lazy_pattern(r"(?i)(?:another|an? (?:second|third)|one more)\b")
_BESIDE = lazy_pattern(
    r"(?i)(?: (?:beside|next to|by|with|alongside|above|below|under|over) (?:it|that|the first))?"
    r"[\s,;:.–—-]*(?:(?:so|that['’]?s|that makes|in all|it['’]?s)[\s,]+)*"
)


def _sums_alike(act: Act, before: list[Act], heard: str) -> bool:
    """ "A duplex and another receptacle beside it, two receptacles": the last of those named is
    said to be another, and all of them are of the kind that is summed."""
    if not isinstance(act, acts.AddDevice) or act.name is None or (act.count or 0) < _TWO:
        return False
    named = [one.thing if isinstance(one, acts.Restate) else one for one in before]
    devices = [one for one in named if isinstance(one, acts.AddDevice)]
    last = before[-1] if before else None
    if len(devices) < _TWO or not isinstance(last, acts.AddDevice):
        return False
    alike = all((one.name or "").endswith(act.name) for one in devices)
    so_many = sum(one.count or 1 for one in devices) == act.count
    between = heard[last.span[1] : act.span[0]]
    return alike and so_many and bool(_ANOTHER.match(last.words) and _BESIDE.fullmatch(between))


_TWO = 2


_EACH_OF_THEM = lazy_pattern(r"(?i)[\s,:;.–—-]*(?:(?:and|one|with|that['’]?s|which is)[\s,]+)*")


def devices_broken_down(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts without "two switches" where it is said behind it what each of the two lands on:
    "two switches, one on 12 and one on 14"."""
    return [
        act for place, act in enumerate(made) if not _broken_down(act, made[place + 1 :], heard)
    ]


def _broken_down(act: Act, behind: list[Act], heard: str) -> bool:
    if not isinstance(act, acts.AddDevice) or act.awg is not None or (act.count or 0) < _TWO:
        return False
    end, left = act.span[1], act.count or 0
    for place, one in enumerate(behind):
        told = isinstance(one, acts.AddDevice) and one.awg is not None and one.name == act.name
        if not told or not any(doubt.reason == "carried" for doubt in one.doubts):
            return False
        if not _EACH_OF_THEM.fullmatch(heard, end, one.span[0]):
            return False
        end, left = one.span[1], left - (getattr(one, "count", None) or 1)
        if left <= 0:
            return left == 0 and place > 0  # "two switches, both on 12" is said at once
    return False
