"""A count that only says what is so already, or what is left where somebody says which one is not
of this box: "two of the 14-2s, there's a second behind", "third one, who'd have thought", "two.
The third's just hanging next to it"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.assistant.dialogue.interpretation.counts_anew import pointing_at
from boxaloud.assistant.dialogue.journal import Entry
from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread, Utterance
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.rewriting.spoken_values import SPOKEN_VALUE, spoken_value
from boxaloud.rules.contents import Cable, Conductors, Yoke

_COUNTED = (acts.AddCable, acts.AddConductors, acts.AddDevice)
_CHANGES = (*_COUNTED, acts.More, acts.Recount, acts.RestateNumber)
_SILENT = (acts.Social, acts.OtherTalk, acts.Yes, acts.No, acts.AskUnknown)
_NTHS = {"second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7, "eighth": 8}
_NTH = lazy_pattern(rf"(?i)\b(?P<nth>{'|'.join(_NTHS)})\b")
#: One beyond the one that was just told.
_BEYOND = lazy_pattern(r"(?i)\b(?:another|more|too|also|as well|else|again|extra|plus|add\w*)\b")


def counts_agreeing(read: Utterance, journal: Sequence[Entry], state: State) -> Utterance:
    """The utterance without the one that is told again, or as what is left; else `read`."""
    if state.pending or not state.items:
        return read
    return _left_over(_without_nth(_grown(read, state), journal, state), state)


#: How they were found, where a count of all stands before it.
_TURNED_UP = lazy_pattern(r"(?i)\bmore (?:just )?(?:came|come|turned up|showed up|were|had been)\b")


def _grown(read: Utterance, state: State) -> Utterance:
    """ "No wait, four number 12s, two more came through", of two: what the count of all has grown
    by is among them."""
    for place, act in enumerate(read.acts[1:], 1):
        told = read.acts[place - 1]
        if not isinstance(act, acts.More) or not isinstance(told, acts.Restate):
            continue
        thing, silent = told.thing, all(isinstance(one, _SILENT) for one in read.acts[: place - 1])
        if not isinstance(thing, acts.AddConductors) or not silent or thing.count is None:
            continue
        there = [
            item.content.count
            for item in state.items
            if isinstance(item.content, Conductors) and item.content.awg == thing.awg
        ]
        if there == [thing.count - (act.count or 0)] and _TURNED_UP.search(act.words):
            return replace(read, acts=(*read.acts[:place], *read.acts[place + 1 :]))
    return read


def _without_nth(read: Utterance, journal: Sequence[Entry], state: State) -> Utterance:
    """A "third one" brings in none where it is the third that was just told."""
    if _BEYOND.search(read.heard):
        return read
    kept = tuple(act for act in read.acts if not _is_told(act, read, journal, state))
    left = tuple(run for run in read.unread if not _is_nth_of(run, read))
    if len(kept) == len(read.acts) and len(left) == len(read.unread):
        return read
    item = state.item(state.last)
    if any(not isinstance(act, _SILENT) for act in kept) or item is None:
        return replace(read, acts=kept, unread=left)
    line = item.content
    if not isinstance(line, Cable | Conductors | Yoke):
        return read
    return replace(read, acts=(_so_many(line, line.count, read.heard),), unread=left)


def _is_told(act: Act, read: Utterance, journal: Sequence[Entry], state: State) -> bool:
    if not isinstance(act, acts.More) or not act.target.ordinal or act.target.kind != "anything":
        return False
    if _counted_before(act.span[0], read) == act.target.ordinal:
        return True
    silent = all(one is act or isinstance(one, _SILENT) for one in read.acts)
    item = state.item(state.last)
    if not silent or item is None or not journal or journal[-1].weighty:
        return False
    brought = any(isinstance(one, _CHANGES) or _thing_of(one) for one in journal[-1].acts)
    return brought and item.content.count == act.target.ordinal


def _counted_before(place: int, read: Utterance) -> int | None:
    """How many a correction before a place in the utterance says that there are."""
    counts = [
        one.count if isinstance(one, acts.Recount) else getattr(_thing_of(one), "count", None)
        for one in read.acts
        if one.span[1] <= place and (isinstance(one, acts.Recount) or _thing_of(one) is not None)
    ]
    return counts[0] if len(counts) == 1 else None


def _thing_of(act: Act) -> Act | None:
    """What a correction tells anew, if it is counted."""
    told = act.thing if isinstance(act, acts.Restate) else None
    return told if isinstance(told, _COUNTED) else None


def _is_nth_of(run: Unread, read: Utterance) -> bool:
    """Whether words left unread are the one that the count before them has reached."""
    found = _NTH.search(run.words)
    if found is None or len(run.words.split()) > 5:
        return False
    return _counted_before(run.span[0], read) == _NTHS[found["nth"].lower()]


_LEAD = (
    r"\W*(?:(?:oh|no|nope|nah|wait|so|ok|okay|well|um|uh|hm+|sorry|actually|hang on|hold on|then"
    r"|yeah|now|hello)\b\W*)*"
)
_ONE = (
    rf"(?:(?:the|that) (?P<nth>{'|'.join(_NTHS)})(?: one)?|one(?: of (?:them|those|these))?"
    r"|the other(?: one)?)(?: (?:just|only|really))*"
)
_SO_MANY = (
    r"(?:(?:it|that|there)(?:['’]s| is| are)|make (?:it|that)|call it|(?:that )?leaves|just|only)?"
    r" ?(?P<value>[a-z]+|\d)"
)
#: "Two. The third's just hanging next to it": how many, and which one is not of this box.
_COUNT_FIRST = lazy_pattern(rf"(?i){_LEAD}{_SO_MANY}[\s.,;:–—-]+(?P<why>{_ONE}['’\s].*)")
#: "One's cut off outside. So two."
_WHY_FIRST = lazy_pattern(
    rf"(?i){_LEAD}(?P<why>{_ONE}['’\s].*?)[\s.,;:–—-]+(?:so|then|and so)[\s,]+{_SO_MANY}\W*"
)
#: That it does not come in. One that is dead may still be in the box.
_NOT_IN = lazy_pattern(
    r"(?i)\b(?:(?:runs?|running|ran|goes|going|passes|passing|hangs?|hanging|sits?|sitting|stays?"
    r"|lies|lying) (?:(?:just|right|straight|on|only) )*(?:past|by|next to|beside|outside)"
    r"|(?:cut|capped|stops?|ends?|terminated)(?: off)? (?:\w+ )?(?:outside|short of)"
    r"|outside (?:the|this) box"
    r"|(?:is not|isn['’]?t|not|never)(?: even| really| actually)? (?:in|inside|comes? in|gets? in"
    r"|enters?)|(?:does not|doesn['’]?t|never)(?: even| really)? (?:come in|enter|go in|get in)"
    r"|(?:in|to|for) (?:another|the (?:other|next)) box|elsewhere)\b"
)
_UNSURE = lazy_pattern(
    r"(?i)\?|\b(?:if|would|could|should|maybe|might|not sure|i think|may be|will|tomorrow|later)\b"
)


def _left_over(read: Utterance, state: State) -> Utterance:
    """The line that has one more than is said to be left, counted anew."""
    frames = (_COUNT_FIRST.fullmatch(read.heard), _WHY_FIRST.fullmatch(read.heard))
    found = next((one for one in frames if one and SPOKEN_VALUE.fullmatch(one["value"])), None)
    if found is None:
        return read
    if not _NOT_IN.search(found["why"]) or _UNSURE.search(read.heard):
        return read
    value = spoken_value(found["value"])
    nth = found["nth"]
    if not all(_is_of_count(act) for act in read.acts) or (nth and _NTHS[nth.lower()] != value + 1):
        return read
    line = _only_line_of(int(value) + 1, state)
    if line is None or not value:
        return read
    return replace(read, acts=(_so_many(line, int(value), read.heard),), unread=())


def _so_many(line: Cable | Conductors | Yoke, count: int, heard: str) -> acts.Recount:
    return acts.Recount(
        target=pointing_at(line), count=count, words=heard.strip(), span=(0, len(heard)),
        function="correction",
    )  # fmt: skip


def _is_of_count(act: Act) -> bool:
    """Whether an act tells no more than a number, or that one of them goes."""
    if isinstance(act, acts.Remove | acts.More | acts.Deny):
        return act.target.kind in ("anything", "cable")
    return isinstance(act, (*_SILENT, acts.Number, acts.RestateNumber, acts.Size, acts.Place))


def _only_line_of(count: int, state: State) -> Cable | Conductors | Yoke | None:
    """The only line of so many, cables before wires and devices."""
    for kind in (Cable, Conductors, Yoke):
        lines = [
            item.content
            for item in state.items
            if isinstance(item.content, kind) and item.content.count == count
        ]
        if lines:
            return lines[0] if len(lines) == 1 else None
    return None
