"""Lists of devices in which no mark is heard: is it one device under two names, or two of them?

An ear gives no commas, and each yoke counts, 314.16(B)(4): where two readings differ by a yoke,
the smaller is asked back.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_EITHER = acts.Doubt("name", "confusable")
#: Names that are as often of a device of its own as they say what kind of switch it is.
_OF_THEIR_OWN = frozenset({"dimmer", "timer", "sensor", "fan control"})
_COMBINED = lazy_pattern(r"(?i)(?:(?:an?|one|1|the) )?(?:switch|dimmer) (?:receptacle|outlet|plug)")
_KIND_BEHIND = lazy_pattern(r"(?i)(?:(?:an?|one|1|the) )?switch (?:three|four|3|4)[ -]?way")


def leads_on(act: acts.AddDevice, behind: Sequence[Act], heard: str) -> bool:
    """ "A switch dimmer dimmer": a list without marks, in which each name is one more."""
    after = behind[0] if behind else None
    return isinstance(after, acts.AddDevice) and _joined(act, after, heard)


def may_be_two(said: acts.AddDevice, act: acts.AddDevice, between: str) -> tuple[acts.Doubt, ...]:
    """ "A switch dimmer": a dimmer, or a switch and a dimmer; a "rocker dimmer" is one."""
    if between.strip() or act.name not in _OF_THEIR_OWN or not said.words.endswith("switch"):
        return ()
    return (_EITHER,)


def unmarked_lists(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts, with a doubt of each name that may as well be the names of two devices."""
    doubtful = {act.span for act in made if isinstance(act, acts.AddDevice) and _both_named(act)}
    for one, after in itertools.pairwise(made):
        if not isinstance(one, acts.AddDevice) or not isinstance(after, acts.AddDevice):
            continue
        if _joined(one, after, heard) and _KIND_BEHIND.fullmatch(one.words):
            doubtful.add(one.span)
    return [
        replace(act, doubts=(*act.doubts, _EITHER))
        if isinstance(act, acts.AddDevice) and act.span in doubtful
        else act
        for act in made
    ]


def _both_named(act: acts.AddDevice) -> bool:
    """ "A switch receptacle": a combination on one yoke, or one of each."""
    return act.name == "combination device" and _COMBINED.fullmatch(act.words) is not None


def _joined(one: acts.AddDevice, after: acts.AddDevice, heard: str) -> bool:
    return after.count is None and not heard[one.span[1] : after.span[0]].strip()
