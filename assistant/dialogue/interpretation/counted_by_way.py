""" "Make that two 12/2 out", where one came in and one went out: those that go out are two, and the
one that comes in stays, for each cable's conductors count by themselves, 314.16(B)(1)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.assistant.dialogue.interpretation.counts_anew import pointing_at
from boxaloud.assistant.dialogue.journal import Entry
from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Utterance
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.rules.contents import Cable

_MADE = lazy_pattern(r"(?i)(?:[a-z]+,? )?(?:make|call) (?:that|it) ")
_WAYS = {"in": "out", "out": "in"}


def counted_by_way(read: Utterance, journal: Sequence[Entry], state: State) -> Utterance:
    """The utterance with a count of the cables that go one way as that of all that there are."""
    if state.pending or not any(isinstance(act, acts.Restate) for act in read.acts):
        return read
    made = tuple(_of_all(act, journal, state) for act in read.acts)
    return replace(read, acts=made) if made != read.acts else read


def _of_all(act: Act, journal: Sequence[Entry], state: State) -> Act:
    """The act as the count of all cables of its size, where they were told by both ways."""
    if not isinstance(act, acts.Restate) or act.instead_of is not None:
        return act
    thing = act.thing
    if not isinstance(thing, acts.AddCable) or thing.count is None or thing.role not in _WAYS:
        return act
    size = thing.awg, thing.conductors
    line = next((one for one in _cables(state) if (one.awg, one.conductors) == size), None)
    told = {way: _told(journal, way, size) for way in _WAYS}
    if line is None or line.count != sum(told.values()) or not all(told.values()):
        return act
    if _MADE.match(act.words) is None:
        return act
    return acts.Recount(
        target=pointing_at(line), count=thing.count + told[_WAYS[thing.role]],
        words=act.words, span=act.span, function="correction",
    )  # fmt: skip


def _cables(state: State) -> list[Cable]:
    return [item.content for item in state.items if isinstance(item.content, Cable)]


def _told(journal: Sequence[Entry], way: str, size: tuple[int | None, int | None]) -> int:
    """How many cables of a size were told to go one way."""
    return sum(
        act.count or 1
        for entry in journal
        for act in entry.acts
        if isinstance(act, acts.AddCable) and act.role == way
        if (act.awg, act.conductors) == size
    )
