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
    return [act for place, act in enumerate(made) if not _sums(act, made[:place], heard)]


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
