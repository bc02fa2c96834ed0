"""What only the utterance before it makes plain: "let me recount", "four 14-2s"; "swap it back";
"remove the one I added"; "same cables but two switches"."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.interpretation.lists_anew import in_place, line_of, plain
from boxaloud.assistant.dialogue.journal import Entry
from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Utterance
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.rules.contents import Cable

_LEAD = (
    r"(?i)\W*(?:(?:ok|okay|so|well|oh|no|wait|hold on|hang on|sorry|now|then|and|um|uh|er|hm+"
    r"|actually|please|hello|hi|hey)\b\W*)*"
)
_END = r"(?:\W+(?:again|then|now|please|thanks))*\W*"
_COUNTS = re.compile(
    rf"{_LEAD}(?:(?:let me|lemme|i['’]?ll|i will|i['’]?m|i am|i have to|i need to|i better|i"
    r"|gonna|going to|gotta)\s+(?:go(?:ing)? to\s+|just\s+)*)?"
    r"(?:recount(?:ed|ing)?(?:\s+(?:them|those|that|it|these))?(?:\s+(?:again|all))?"
    r"|(?:go|try|look|run\s+through|do)\s+(?:(?:them|those|that|it|these|this)\s+)?"
    r"(?:again|over|once\s+more)"
    rf"|count(?:ed|ing)?\s+(?:(?:them|those|that|it|these)\s+)?(?:again|over|anew)){_END}"
)
_ON_TOP = re.compile(r"(?i)^\W*(?:and|plus|also)\b|\b(?:more|another|extra|add(?:ed|ing)?|plus)\b")
_SWAPPED_BACK = re.compile(
    rf"{_LEAD}(?:(?:that|it)\s+was\s+(?:for\s+|in\s+)?(?:the\s+other|another|the\s+wrong)\s+"
    r"(?:box|one)\W+(?:so\s+|then\s+)?)?"
    rf"(?:swap|switch|change|turn)\s+(?:it|that|them|those)\s+back{_END}"
)
_CHANGED = re.compile(r"(?i)\b(?:swap|switch|change|replace|make|turn)\b")
_THE_ADDED = re.compile(
    rf"{_LEAD}(?:remove|delete|drop|lose|pull|scratch|take\s+out|take\s+off)\s+"
    r"(?:the\s+(?:one|ones|cable|device|thing)|what|that\s+one)(?:\s+that)?\s+(?:i|we)\s+"
    rf"(?:just\s+)?added{_END}"
)
_ADDED = re.compile(rf"{_LEAD}(?:i\s+(?:am\s+)?|i['’]m\s+|we\s+|let['’]?s\s+)?add(?:ed|ing)?\b")
_SAME_CABLES = re.compile(
    rf"{_LEAD}(?:the\s+)?same\s+(?:cables|wires|wiring|cabling|runs)\W+(?:but|only|just|except)\b"
)
_CORRECTING = (acts.Undo, acts.Redo, acts.Remove, acts.Yes, acts.No, acts.StartOver)


def said_back(read: Utterance, journal: Sequence[Entry], state: State) -> Utterance:
    """The utterance as what it is behind those before it; else `read` as it is."""
    if state.pending or not journal:
        return read
    before = journal[-1]
    if _SWAPPED_BACK.fullmatch(read.heard):
        changed = any(isinstance(one, (acts.Replace, acts.Restate)) for one in before.acts)
        return _only(read, acts.Undo) if changed and _CHANGED.search(before.heard) else read
    if _THE_ADDED.fullmatch(read.heard):
        return _without_added(read, journal)
    if _SAME_CABLES.match(read.heard):
        return _on_same_cables(read, state)
    return _counted_again(read, before, state)


def _only(read: Utterance, kind: type[acts.Undo]) -> Utterance:
    words = read.heard.strip(" .!")
    return replace(read, acts=(kind(words=words, span=(0, len(read.heard))),), unread=())


def _without_added(read: Utterance, journal: Sequence[Entry]) -> Utterance:
    """ "Add a 14-2", "clamps inside", "remove the one I added": so many of what came in last, where
    it was told alone, by that verb, and nothing was put right since."""
    for entry in reversed(journal):
        if any(isinstance(one, _CORRECTING) or one.function == "correction" for one in entry.acts):
            return read
        told = [one for one in entry.acts if is_thing(one)]
        if not told:
            continue
        thing = told[0]
        if len(told) > 1 or entry.weighty or not _ADDED.match(entry.heard) or not is_thing(thing):
            return read
        target = replace(references.to_thing(thing), count=thing.count or 1)
        order = acts.Remove(
            target=target, words=read.heard, span=(0, len(read.heard)), function="request"
        )
        return replace(read, acts=(order,), unread=())
    return read


def _on_same_cables(read: Utterance, state: State) -> Utterance:
    """ "Same cables but two switches", of two cables and a switch: so many of those in all."""
    told = [one for one in read.acts if not _of_no_size(one)]
    there = any(isinstance(item.content, Cable) for item in state.items)
    known = all(plain(one) and line_of(state, one) is not None for one in told)
    if not told or not there or not known or read.unread:
        return read
    return replace(read, acts=tuple(in_place(one) if plain(one) else one for one in told))


def _of_no_size(act: Act) -> bool:
    return isinstance(act, acts.AddCable) and act.awg is None and act.count is None


def _counted_again(read: Utterance, before: Entry, state: State) -> Utterance:
    """ "Let me recount", "four 14-2s", of five: so many in all; what is not there comes in."""
    lead = _COUNTS.match(read.heard)
    begun = lead is not None and read.heard[: lead.end()].rstrip(" ")[-1:] in ".,:;"
    if not begun and not _COUNTS.fullmatch(before.heard):
        return read
    if _ON_TOP.search(read.heard):
        return read
    told = tuple(
        in_place(act) if plain(act) and line_of(state, act) is not None else act
        for act in read.acts
    )
    return replace(read, acts=told)
