"""What is said of the yokes of devices that stand, 314.16(B)(4), and brings no device in."""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_IT_IS_WIDE = lazy_pattern(
    r"(?i)(?:the|that|this) [^,.;]*(?:receptacle|outlet|switch|dimmer|device)[^,.;]*\b(?:is|needs"
    r"|takes|requires|takes up)\b[^,.;]*gangs?(?: wide)?"
)


_EACH_DEVICE = lazy_pattern(r"(?i)(?:each|every|both|all)(?: of the)? devices?\b")
_ON_ITS_OWN = lazy_pattern(
    r"(?i)[^,.;]{0,6}\bon (?:its|their|an?|one)? ?(?:own|separate|different)(?: single)? "
    r"(?:yoke|strap)s?\b"
)


def own_yokes(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "One switch and one receptacle, each device on its own yoke": no device more."""
    return [
        act
        for act in made
        if not (
            isinstance(act, acts.AddDevice)
            and act.name == "device"
            and any(isinstance(one, acts.AddDevice) and one.name != "device" for one in made)
            and _on_its_own(act, heard)
        )
    ]


def _on_its_own(act: acts.AddDevice, heard: str) -> bool:
    start = heard.rfind(" ", 0, max(act.span[0] - 1, 0)) + 1  # "each" may stand before its words
    found = _EACH_DEVICE.match(heard, act.span[0]) or _EACH_DEVICE.match(heard, start)
    return found is not None and _ON_ITS_OWN.match(heard, found.end()) is not None


def said_to_be_wide(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "…, a range receptacle. The receptacle is two gangs wide": it is no second one."""
    return [_widening(act, made) for act in made]


def _widening(act: Act, made: list[Act]) -> Act:
    if not isinstance(act, acts.AddDevice) or act.gangs is None or act.count is not None:
        return act
    if _IT_IS_WIDE.fullmatch(act.words) is None or act.name is None:
        return act
    before = [
        one
        for one in _devices(made)
        if one.span[0] < act.span[0] and (one.name or "").endswith(act.name)
    ]
    if not before:
        return act
    target = acts.Reference("device", name=before[-1].name, which="last", words=act.words)
    return acts.Widen(
        target=target, gangs=act.gangs, words=act.words, span=act.span, function="correction"
    )


def _devices(made: Sequence[Act]) -> list[acts.AddDevice]:
    """The devices that are told or supposed."""
    found = [act for act in made if isinstance(act, acts.AddDevice)]
    for act in made:
        if isinstance(act, acts.Suppose):
            found += _devices(act.acts)
    return found
