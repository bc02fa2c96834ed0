"""Which other box of the job is meant where one is named within what is said: "add a 14-2 to the
den box". How it is said, the grammar knows."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache

from boxaloud.assistant.dialogue.box_names import near, number_of, numbered, short_names
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.asked_boxes import (
    asked_of_box,
    asked_of_one_before,
    asked_of_place,
)
from boxaloud.grammar.utterance.mentioned_boxes import (
    CalledBox,
    Mention,
    marked_box,
    told_of_box,
)

_NUMBERED = lazy_pattern(r"box \d+")


def mentioned(heard: str, names: Sequence[str], at: str) -> Mention | None:
    """The other box that something is said of, None where the box at hand is meant; what is said
    to be marked on a box may be of that one too."""
    if "?" in heard:
        return None
    if len(names) > 1 and (marked := _marked(heard, names)):
        return marked
    return told_of_box(heard, (*_known(tuple(names), at), *_short(tuple(names), at)))


def asked_of(heard: str, names: Sequence[str], at: str) -> Mention | None:
    """The other box that a question is about: "is the den over?", "and the den?"."""
    place = names.index(at) if at in names else 0
    if place and asked_of_one_before(heard):
        return Mention(names[place - 1], 0, len(heard), "how full is ")
    return asked_of_box(heard, _known(tuple(names), at))


def asked_of_none(heard: str, names: Sequence[str]) -> Mention | None:
    """The place that a question is about, where several boxes have names and none has that one."""
    found = asked_of_place(heard) if len(names) > 1 else None
    return None if found is None or near(found.name, names) else found


def _marked(heard: str, names: Sequence[str]) -> Mention | None:
    """The box of the job that is told to be marked with a volume, by its whole name."""
    found = marked_box(heard)
    close = near(found.name, names) if found is not None else ()
    if found is None or len(close) != 1:
        return None
    meant = close[0]
    whole = {meant, f"{meant} box", f"{meant} one", f"box {meant}"}
    if whole.isdisjoint((found.name, numbered(found.name))):
        return None
    return replace(found, name=meant)


def _at_hand(at: str) -> list[CalledBox]:
    """The box that is spoken of anyway, where it has a name of its own."""
    return [] if _NUMBERED.fullmatch(at) else [CalledBox(at, at, at_hand=True)]


@lru_cache(maxsize=64)
def _known(names: tuple[str, ...], at: str) -> tuple[CalledBox, ...]:
    """All boxes with what they may be called: the same until a box is begun, named or left."""
    return (*_called(names, at), *_at_hand(at))


@lru_cache(maxsize=64)
def _short(names: tuple[str, ...], at: str) -> tuple[CalledBox, ...]:
    """The boxes that may be called by less than their names."""
    return tuple(CalledBox(name, said, True, name == at) for name, said in short_names(names))


def _called(names: Sequence[str], at: str) -> list[CalledBox]:
    """The other boxes, each with what it may be called."""
    called = [
        CalledBox(name, name) for name in names if name != at and not _NUMBERED.fullmatch(name)
    ]
    numbers = [(name, number_of(name)) for name in names]
    called += [
        CalledBox(name, number, True)
        for name, number in numbers
        if number and [one for _, one in numbers].count(number) == 1
    ]
    if len(names) == 2:
        called += [CalledBox(name, "other box", True) for name in names if name != at]
    if len(names) > 1 and names[0] != at:
        called.append(CalledBox(names[0], "first box", True))
    return called
