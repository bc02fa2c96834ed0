""" "No, the one to the light is a 14-3", where there are 14-3s besides: the cable that was told to
go there is another, and the 14-3s stay as many as they are."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import TypeAlias

from boxaloud.assistant.dialogue.interpretation.counts_anew import pointing_at
from boxaloud.assistant.dialogue.journal import Entry
from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread, Utterance
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.rules.contents import Cable

_Size: TypeAlias = tuple[int | None, int | None]

_ONE = lazy_pattern(
    r"(?i)\W*(?:(?:no|nope|nah|wait|oh|ok|okay|so|well|sorry|actually|hang on|hold on|and|but|um|uh"
    r"|hello)\b\W*)*(?:the|that) (?:one|cable|run|line)(?: (?:that|which|going|goes|running|runs"
    r"|headed|is))* (?:to|for|from|feeding|feeds) (?:the |my |our |her |his )?(?P<place>[a-z]+)"
    r"(?: [a-z]+)?(?:['’]s| is| was| should be| has to be| needs to be)(?: (?:really|actually|now"
    r"|just|in fact))* an? .*"
)
#: "The fan leg is 14/3", of cables of which one was told to go there.
_CALLED = lazy_pattern(
    r"(?i)\b(?:the|that) (?P<place>[a-z]+) (?:leg|run|cable|line)(?:['’]s| is)(?: (?:really"
    r"|actually|now|just|in fact))* (?=\d|a |an |fourteen|twelve|ten)"
)
_WITH_IT = lazy_pattern(r" (?:(?!and\b)[a-z]+(?: |(?=\W|$)))*")
_SILENT = (acts.No, acts.Yes, acts.Social)


def one_by_its_way(read: Utterance, journal: Sequence[Entry], state: State) -> Utterance:
    """The utterance as the replacing of the cable that goes there; else `read` as it is."""
    found = _ONE.fullmatch(read.heard)
    if found is None:
        return _called_by_it(read, journal, state)
    told = _told(read)
    if told is None or state.pending:
        return read
    lines = [item.content for item in state.items if isinstance(item.content, Cable)]
    alike = [one for one in lines if _size(one) == (told.awg, told.conductors)]
    if not alike or read.heard.rstrip().endswith("?"):
        return read
    others = [one for one in lines if one not in alike]
    way = _size_of_way(found["place"], journal)
    meant = [one for one in others if _size(one) == way] if way is not None else others
    span, words = (0, len(read.heard)), read.heard.strip()
    if way == _size(alike[0]) or not others:
        same = acts.Recount(
            target=pointing_at(alike[0]), count=alike[0].count, words=words, span=span,
            function="correction",
        )  # fmt: skip
        return replace(read, acts=(same,), unread=())
    if len(meant) != 1:
        return replace(read, acts=(), unread=(Unread(words, span, True),))
    act = acts.Replace(
        target=replace(pointing_at(meant[0]), count=1, words=words),
        thing=replace(told, count=1, function="inform"), words=words, span=span,
        function="correction",
    )  # fmt: skip
    return replace(read, acts=(act,), unread=())


def _called_by_it(read: Utterance, journal: Sequence[Entry], state: State) -> Utterance:
    """The utterance with each cable called by its place as the one that was told to go there."""
    if state.pending or read.heard.rstrip().endswith("?"):
        return read
    lines = [item.content for item in state.items if isinstance(item.content, Cable)]
    made = read.acts
    for found in _CALLED.finditer(read.heard):
        way = _size_of_way(found["place"], journal)
        meant = [one for one in lines if _size(one) == way]
        if len(meant) == 1 and meant[0].count > 1:
            made = tuple(_of_it(act, found.span(), pointing_at(meant[0])) for act in made)
    return replace(read, acts=made) if made != read.acts else read


def _of_it(act: Act, called: tuple[int, int], target: acts.Reference) -> Act:
    """The act as the replacing of one of those pointed at, where its cable stands right behind."""
    thing = act.thing if isinstance(act, acts.Replace | acts.Restate) else act
    if not isinstance(thing, acts.AddCable) or thing.count not in (None, 1):
        return act
    if not called[0] <= thing.span[1] - 1 or thing.span[0] > called[1] or thing.conductors is None:
        return act
    if (thing.awg, thing.conductors) == (target.awg, target.conductors):
        return act
    return acts.Replace(
        target=replace(target, count=1, words=act.words),
        thing=replace(thing, count=1, function="inform"), words=act.words, span=act.span,
        function="correction",
    )  # fmt: skip


def _told(read: Utterance) -> acts.AddCable | None:
    """The only cable that is told, if nothing else is."""
    things = [act for act in read.acts if not isinstance(act, _SILENT)]
    if len(things) != 1 or any(run.weighty for run in read.unread):
        return None
    told: Act = things[0].thing if isinstance(things[0], acts.Restate) else things[0]
    if not isinstance(told, acts.AddCable) or told.count not in (None, 1):
        return None
    return None if told.awg is None or told.conductors is None else told


def _size(cable: Cable) -> _Size:
    return cable.awg, cable.conductors


def _size_of_way(place: str, journal: Sequence[Entry]) -> _Size | None:
    """The size of the only cable told with a place, the last time that it was named."""
    for entry in reversed(journal):
        if place.lower() not in entry.heard.lower():
            continue
        cables = [one for one in entry.acts if isinstance(one, acts.AddCable)]
        to_it = [one for one in cables if _goes_there(one, place.lower(), entry.heard.lower())]
        sizes = {(one.awg, one.conductors) for one in to_it or cables}
        if len(sizes) == 1:
            return sizes.pop()
    return None


def _goes_there(cable: acts.AddCable, place: str, heard: str) -> bool:
    """Whether the place is named with the cable, before the next thing is."""
    with_it = _WITH_IT.match(heard, cable.span[1])
    return with_it is not None and place in with_it.group().split()
