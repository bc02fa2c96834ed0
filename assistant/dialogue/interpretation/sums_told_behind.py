"""What a change leaves or makes, told with it: "one of the duplexes is a blank now, one duplex",
"drop one 14-2, so two", "one more. Seven", "thirteen, there's another white". It agrees with what
the change comes to, and adds nothing to it."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import TypeAlias

from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.interpretation.lists_anew import plain
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference, Utterance
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.rewriting.spoken_values import SPOKEN_VALUE, spoken_value
from boxaloud.rules.contents import Cable, Conductors, Yoke

_Changed: TypeAlias = tuple[Act, Item, int]
"""A change, the line that it is of, and how many of it there are behind it."""

_SILENT = (acts.Social, acts.OtherTalk, acts.Yes, acts.No)
_LINES = (Cable, Conductors, Yoke)
_COUNTED = (acts.AddCable, acts.AddDevice, acts.AddConductors)
_MORE = lazy_pattern(r"(?i)\b(?:another|more|extra|additional|other)\b")
_AND = lazy_pattern(r"(?i)\b(?:and|plus|then|also|with)\b[^.,;]*$")
#: What comes in besides what stays.
_COMES_IN = lazy_pattern(
    r"(?i)\b(?:add\w*|put\w*|plus|also|more|another|extra|new|goes? in|going in|install\w*"
    r"|and (?:an?|one|two|three|four)|instead|for (?:an?|one|two))\b|\?"
)


def sums_told_behind(read: Utterance, state: State) -> Utterance:
    """The utterance without what its only change comes to; else `read` as it is."""
    if not state.items or state.pending:
        return read
    found = _change(read, state)
    if found is None:
        return read
    change, _, count = found
    kept = tuple(act for act in read.acts if act is change or not _is_sum(act, found, read.heard))
    left = tuple(run for run in read.unread if not (run.weighty and _says(run.words, count)))
    if len(kept) == len(read.acts) and len(left) == len(read.unread):
        return read
    if any(act is not change and not isinstance(act, _SILENT) for act in kept):
        return read
    return replace(read, acts=kept, unread=left)


def _change(read: Utterance, state: State) -> _Changed | None:
    """The first change of how many there are of a line, if any."""
    for act in read.acts:
        if isinstance(act, acts.Remove | acts.Replace):
            return _fewer(act, act.target, state)
        if isinstance(act, acts.More):
            return _further(act, state)
        if isinstance(act, acts.Restate | acts.Recount):
            return _anew(act, state)
        if isinstance(act, _COUNTED) and _MORE.search(act.words):
            line = _line(references.to_thing(act), state)
            if line is not None and act.function == "inform" and act.count:
                return act, line, line.content.count + act.count
    return None


def _fewer(act: Act, target: Reference, state: State) -> _Changed | None:
    taken = 1 if target.ordinal else target.count
    line = _line(target, state)
    if line is None or not taken or taken >= line.content.count:
        return None
    if target.ordinal and target.ordinal > line.content.count:
        return None
    return act, line, line.content.count - taken


def _further(act: acts.More, state: State) -> _Changed | None:
    """ "One more. Seven."."""
    if act.target.kind == "anything":
        counted = [one for one in state.items if isinstance(one.content, _LINES)]
        item = state.item(state.last) or (counted[0] if len(counted) == 1 else None)
    else:
        item = _line(act.target, state)
    if item is None or act.target.ordinal or not isinstance(item.content, _LINES):
        return None
    return act, item, item.content.count + (act.count or 1)


def _anew(act: acts.Restate | acts.Recount, state: State) -> _Changed | None:
    """ "Two of the 14-2s. That makes two."."""
    if isinstance(act, acts.Restate) and not isinstance(act.thing, _COUNTED):
        return None
    like = act.target if isinstance(act, acts.Recount) else references.to_thing(act.thing)
    count = act.count if isinstance(act, acts.Recount) else getattr(act.thing, "count", None)
    line = _line(like, state)
    return (act, line, count) if line is not None and count else None


def _line(like: Reference, state: State) -> Item | None:
    """The only line that is counted and can be meant."""
    like = replace(like, count=None, ordinal=None, which="said", words="")
    found = [
        item
        for item in state.items
        if isinstance(item.content, _LINES) and references.agrees(item, like)
    ]
    return found[0] if len(found) == 1 else None


def _is_sum(act: Act, found: _Changed, heard: str) -> bool:
    """Whether an act tells no more than what the change comes to."""
    change, line, count = found
    behind = act.span[0] >= change.span[1]
    besides = isinstance(change, _COUNTED) and _AND.search(heard[: change.span[0]]) is None
    if not behind and not besides:
        return False  # "it was five, and take one out", "it's five, and one more"
    if isinstance(act, acts.Number | acts.RestateNumber):
        return act.value == count
    if isinstance(act, acts.Recount):
        return act.count == count and references.agrees(line, replace(act.target, count=None))
    if isinstance(change, _COUNTED):
        return False
    thing = act.thing if isinstance(act, acts.Restate) else act
    if not is_thing(thing) or not plain(replace(thing, function="inform")):
        return False
    same = references.agrees(line, replace(references.to_thing(thing), count=None))
    between = heard[change.span[1] : min(len(heard), act.span[1] + 10)]
    return same and getattr(thing, "count", None) == count and not _COMES_IN.search(between)


def _says(words: str, count: int) -> bool:
    """Whether words are so many, and nothing else."""
    found = SPOKEN_VALUE.fullmatch(words.strip(" .,;!"))
    return found is not None and spoken_value(found["value"]) == Decimal(count)
