"""Wires that go the other way than those told before, "six twelves come in" and then "six twelves
go out", or come in "as well": as many more, for each end of a spliced conductor counts by itself,
314.16(B)(1)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.assistant.dialogue.journal import Entry
from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Utterance
from boxaloud.grammar.lazy_patterns import lazy_pattern

_Wires = acts.AddCable | acts.AddConductors

#: The way that wires go, within or right behind their words: "two twelves and a green going out".
_WAY = lazy_pattern(
    r"(?i)(?:[a-z0-9/ -]*? (?:and|with|plus) (?:an?|one|the|its|their) (?:[a-z0-9]+ )?"
    r"(?:greens?|grounds?|bare))?(?:,? (?:that|which|are|is|all|spliced))*"
    r" (?:(?P<leaves>leav(?:e|es|ing)\b(?! (?:it|them|that|room)\b))"
    r"|(?:(?:com|go|head|feed|run|exit)(?:e?s|ing|e)? )?(?:right |back |straight )*"
    r"(?P<way>in|out)\b(?! (?:it|here|there|this|that|the box|a box|all|of|front|case|place)\b))"
)
_BOTH_WAYS = lazy_pattern(r"(?i)\bin(?:,? and|,? one|/)? (?:\w+ )?(?:out)\b|\bout and in\b")
#: What corrects the way, or speaks of what is there.
_ANEW = lazy_pattern(
    r"(?i)\b(?:no|nope|not|actually|sorry|wait|correction|mean|meant|make|said|instead|those|these"
    r"|same ones|would|could|should|if|suppose|take|took|pull|goes? out of)\b|\?|n['’]t\b"
)
#: "So two 14-2s come in as well".
_AS_WELL = lazy_pattern(
    r"(?i)(?: (?:com|go)(?:es?|ing)? in)?(?: here)? (?:as well|too|also|on top)\b"
)
#: "Spliced to those": what is joined to the wires that were told is none of them.
_JOINED = lazy_pattern(
    r"(?i)(?: (?!(?:are|is|were|was|be)\b)[a-z]+){0,4}?,? (?:(?:and|all|that|which|get|gets) )*"
    r"(?:splic|ti|t[iy]|join|nutt?|wire ?nutt?|mad)(?:e[sd]?|ing|s)?(?: up| on)?"
    r" (?:to|onto|with) (?:those|these|them)(?=\s*(?:[.,;!]|$)| (?:with|wires|and|in here)\b)"
)
_MORE = lazy_pattern(r"(?i)\b(?:more|another|extra|additional)\b")
_DEFINITE = ("the ", "that ", "my ", "both ", "all ", "of ")


def ways_apart(read: Utterance, journal: Sequence[Entry], state: State) -> Utterance | None:
    """The utterance with the wires that go the other way told as more of them; None where none
    do."""
    if not state.items or state.pending or _ANEW.search(_JOINED.sub("", read.heard)):
        return None
    if _BOTH_WAYS.search(read.heard):
        return None
    made = [_further(read.heard, act, journal) for act in read.acts]
    if all(new is None for new in made):
        return None
    kept = [new or act for new, act in zip(made, read.acts, strict=True)]
    return replace(read, acts=tuple(kept))


def _further(heard: str, act: Act, journal: Sequence[Entry]) -> Act | None:
    """The act as one that brings further wires in; None where it may speak of those told."""
    thing = act.thing if isinstance(act, acts.Restate) else act
    if not isinstance(thing, _Wires) or thing.awg is None or thing.count is None:
        return None
    if thing.words.lower().startswith(_DEFINITE):
        return None
    if isinstance(act, acts.Restate) and _comes_on_top(heard, thing):
        return thing
    alike = [one for entry in journal for one in _alike(entry, thing)]
    if alike and _JOINED.match(heard, thing.span[1]):
        return thing
    way = _way(heard, thing)
    told = {_way(entry.heard, one) for entry in journal for one in _alike(entry, thing)}
    if way is None or told != {"out" if way == "in" else "in"}:
        return None
    clear = tuple(doubt for doubt in thing.doubts if doubt.reason != "some")
    return replace(thing, doubts=clear)


def _comes_on_top(heard: str, thing: _Wires) -> bool:
    """ "So that's two more number eights", "so two 14-2s as well"."""
    return _MORE.search(thing.words) is not None or _AS_WELL.match(heard, thing.span[1]) is not None


def _alike(entry: Entry, thing: _Wires) -> list[_Wires]:
    """Wires of the same kind and size that were told at once."""
    like = (type(thing), thing.awg, getattr(thing, "conductors", None))
    told = [getattr(act, "thing", None) or act for act in entry.acts]
    return [
        one
        for one in told
        if isinstance(one, _Wires)
        and (type(one), one.awg, getattr(one, "conductors", None)) == like
    ]


def _way(heard: str, thing: _Wires) -> str | None:
    """Whether wires are said to come in or to go out; None where neither is said."""
    role = getattr(thing, "role", None)
    if role in ("in", "out"):
        return str(role)
    found = _WAY.search(" " + thing.words) or _WAY.match(heard, thing.span[1])
    if found is None:
        return None
    return "out" if found["leaves"] else str(found["way"]).lower()


__all__ = ["ways_apart"]
