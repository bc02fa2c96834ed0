"""So many at each of two sides: "12-2 MC one each side", "two #12 each way"."""

from __future__ import annotations

from dataclasses import replace
from typing import TypeAlias

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_NUMBERS = ("one", "two", "three", "four", "five", "six")
_COUNT = r"(?P<n>one|two|three|four|five|six|an?|[1-6])"
#: Ends that there are two of. "One each gang", "one each room" are as many as there are of those.
_SIDE = r"(?:side|end|way|direction)\b"
#: The count that the phrase took: "one each" of "one each side".
_COUNTED = lazy_pattern(rf"(?i)(?:^|[ ,]){_COUNT} each$")
_BEHIND_IT = lazy_pattern(rf"(?i) (?:of the (?:two )?)?{_SIDE}")
#: The count behind a thing that has none: "14-2 one on each side", "one per end".
_SAID_BEHIND = lazy_pattern(
    rf"(?i),? {_COUNT}(?: (?:in|on|at|from|to|out|out of|going|coming|down|through))?"
    rf" (?:each|either|both|per|every|a)(?: of)?(?: the)?(?: two)? {_SIDE[:-2]}s?\b"
)
#: "One left, one right", "one top and one bottom", each named by itself.
_SIDES_NAMED = lazy_pattern(
    r"(?i),? (?P<n>one|1)(?: (?:in|on|at|from|out|out of|through))?(?: the)? (?P<one>left|right|top"
    r"|bottom|front|back)(?: (?:side|end))?,?(?: and| &)? (?:one|1)"
    r"(?: (?:in|on|at|from|out|out of|through))?(?: the)? (?!(?P=one))(?:left|right|top|bottom"
    r"|front|back)\b"
)
#: "Two #12 each way", "a green one from each end": behind what has its own count.
_OWN_BEHIND = lazy_pattern(
    r"(?i)(?: and (?:an? |one )?(?:green|bare|ground|egc)(?: (?:#|number )?(?:14|12|10|8|6))?)?"
    rf"(?: (?:in|on|at|from|to|out))? each(?: of the two)? {_SIDE}"
)
SIDES = ("side", "end", "way", "direction", "left", "right", "top", "front")
_Thing: TypeAlias = acts.AddCable | acts.AddConductors | acts.AddGrounds | acts.AddDevice
_THINGS = (acts.AddCable, acts.AddConductors, acts.AddGrounds, acts.AddDevice)
#: What the words of a count look like by themselves.
_SHADOWS = (acts.SetVolume, acts.Number, acts.AddCable, acts.AddConductors)


def each_side(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """What comes in so often at each of two sides comes in twice as often, 314.16(B)(1)."""
    told: list[Act] = []
    reach = 0
    for act in made:
        if isinstance(act, _SHADOWS) and act.span[1] <= reach:
            continue  # of the count behind the thing
        reach = 0
        if isinstance(act, _THINGS) and (found := _at_both(act, heard)) is not None:
            count, end = found
            left[:] = [run for run in left if not act.span[1] <= run.span[0] < run.span[1] <= end]
            span, reach = (act.span[0], end), end
            doubts = tuple(doubt for doubt in act.doubts if doubt.slot != "count")
            act = replace(act, count=count, doubts=doubts, words=heard[slice(*span)], span=span)
        elif isinstance(act, acts.Restate):
            act = _restated(act, heard)
        told.append(act)
    return told


def _restated(act: acts.Restate, heard: str) -> acts.Restate:
    """ "Make it five 8s each way": so many at both."""
    found = _at_both(act.thing, heard) if isinstance(act.thing, _THINGS) else None
    if found is None or not isinstance(act.thing, _THINGS):
        return act
    count, end = found
    span = (act.span[0], end)
    thing = replace(act.thing, count=count)
    return replace(act, thing=thing, words=heard[slice(*span)], span=span)


def _at_both(act: _Thing, heard: str) -> tuple[int, int] | None:
    """How many there are at both sides, and where that was said to the end; None where it was
    not."""
    end = act.span[1]
    if (taken := _COUNTED.search(act.words)) and (behind := _BEHIND_IT.match(heard, end)):
        return (2 * _worth(taken["n"]), behind.end()) if act.count == _worth(taken["n"]) else None
    if behind := _SAID_BEHIND.match(heard, end) or _SIDES_NAMED.match(heard, end):
        of_each = _worth(behind["n"])
        return (2 * of_each if act.count is None else act.count), behind.end()
    wires = isinstance(act, acts.AddConductors | acts.AddGrounds) or (act.count or 1) > 1
    if wires and act.count and (behind := _OWN_BEHIND.match(heard, end)):
        return 2 * act.count, behind.end()
    return None


def _worth(word: str) -> int:
    low = word.lower()
    return int(low) if low.isdigit() else 1 if low in ("a", "an") else _NUMBERS.index(low) + 1
