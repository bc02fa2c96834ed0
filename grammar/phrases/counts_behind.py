"""Counts behind the things of a list that has no breaks: "14-2 2 sw 1 rec 2".

The phrases take each number for the count of what follows it. Where the first thing then has no
count, and a number is left at the end, or before a thing that has its count behind it, all of them
stand behind their things. So they do where the box takes the last of them: "14-2 3 switch 1 18
cubic inches". Where nothing tells ("12-2 five receptacle"), the count is doubtful.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from dataclasses import replace

from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer import numbers
from boxaloud.grammar.phrases.statements import Doubt, Statement

_THINGS = frozenset({"cable", "device", "fitting", "conductors", "grounds"})
#: "One box 18", "one eighteen cubic inches": the number is none of the box's own measures.
_A_BOX = lazy_pattern(r"(?i)(?:1|one) (?:box|bx)\b")
_OF_BOX = lazy_pattern(
    r"(?i)(?:1|one) (?=\d|(?:two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|\w+teen"
    r"|twenty|thirty|forty|fifty)\b)"
)
_SEVERAL = lazy_pattern(r"(?i)(?:[2-9]|two|three|four|five|six|seven|eight|nine) \S")
_SINGULAR = lazy_pattern(r"(?i).*\b(?:switch|receptacle|outlet|dimmer|gfci|duplex|timer|sensor)")
_BOXES = frozenset({"box_volume", "box_size"})
#: A cable that nothing counts or points at: "12-2", "mc twelve two".
_BARE = lazy_pattern(r"(?i)(?:(?:mc|nm|nmc|uf)\b ?)?(?:1[0-4]|\d|ten|twelve|fourteen|eight|six)\b")
_FIRST = lazy_pattern(r"(?i)(?:[1-9]|one|two|three|four|five|six|seven|eight|nine)(?= )")


def settled(heard: str, found: Sequence[Statement]) -> list[Statement]:
    """The statements of an utterance with such counts where they belong."""
    made = list(found)
    place = 0
    while place < len(made):
        end = _run(heard, made, place)
        if end:
            made[place : end + 1] = _moved(heard, made[place : end + 1])
            place = end
        elif place + 1 < len(made) and _either_way(heard, made[place], made[place + 1]):
            after = made[place + 1]
            made[place + 1] = replace(after, doubts=(*after.doubts, Doubt("count", "confusable")))
        place += 1
    return made


def _run(heard: str, made: list[Statement], first: int) -> int:
    """The place of the number that such a list ends with; 0 where none begins at `first`."""
    if made[first].kind not in _THINGS or "count" in made[first].slots:
        return 0
    if made[first].words.lower().startswith(("the ", "that ", "those ", "my ")):
        return 0
    for place in range(first + 1, len(made)):
        one = made[place]
        if heard[made[place - 1].span[1] : one.span[0]] != " ":
            return 0
        if one.kind == "number":
            return place if _small(one) and _stops(heard, made, place) else 0
        if one.kind == "box_volume" and _A_BOX.match(one.words) is not None:
            return place
        if one.kind in _BOXES and _OF_BOX.match(one.words) is not None:
            return place if _one_of_several(made[place - 1]) else 0
        if one.kind not in _THINGS or _FIRST.match(one.words) is None:
            return 0
    return 0


def _one_of_several(one: Statement) -> bool:
    """ "Five receptacle": a count of several before the name of one."""
    return _SEVERAL.match(one.words) is not None and _SINGULAR.fullmatch(one.words) is not None


def _either_way(heard: str, one: Statement, after: Statement) -> bool:
    """ "12-2 five receptacle": five cables, or five receptacles."""
    return (
        one.kind == "cable"
        and "count" not in one.slots
        and _BARE.match(one.words) is not None
        and after.kind == "device"
        and _one_of_several(after)
        and heard[one.span[1] : after.span[0]] == " "
    )


def _small(one: Statement) -> bool:
    value = one.get("value")
    return value is not None and str(value) in "123456789" and " " not in one.words.strip()


def _stops(heard: str, made: list[Statement], place: int) -> bool:
    """Whether the number at a place can be of nothing behind it: what follows has its own count,
    is no thing that is counted, or stands behind a break."""
    if place + 1 == len(made):
        return not heard[made[place].span[1] :].strip(" .,;:\n")
    after = made[place + 1]
    between = heard[made[place].span[1] : after.span[0]]
    if between.strip():
        return between.strip() in ",;:\n"
    return "count" in after.slots or after.kind not in _THINGS


def _moved(heard: str, run: Sequence[Statement]) -> list[Statement]:
    """The things of a run, each with the number behind it for its count; a box without it."""
    made: list[Statement] = []
    for one, after in itertools.pairwise(run):
        own = _FIRST.match(one.words) if "count" in one.slots else None
        start = one.span[0] + (own.end() + 1 if own is not None else 0)
        count = _FIRST.match(after.words + " ")
        value = numbers.value((count[0].lower(),)) if count is not None else None
        if count is None or value is None:
            return list(run)
        end = after.span[0] + count.end()
        slots = {**one.slots, "count": int(value)}
        doubts = tuple(doubt for doubt in one.doubts if doubt.slot != "count")
        made.append(
            replace(one, slots=slots, words=heard[start:end], span=(start, end), doubts=doubts)
        )
    last = run[-1]
    if last.kind in _BOXES:
        start = made[-1].span[1] + 1
        made.append(replace(last, words=heard[start : last.span[1]], span=(start, last.span[1])))
    return made
