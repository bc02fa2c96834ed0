"""What was told before it was corrected, said to be right after all: "no, I was right the first
time, two 14-2s", "what I said first was right"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.assistant.dialogue.journal import Entry
from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Utterance
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern

_WAS_RIGHT = lazy_pattern(
    r"(?i)\b(?:(?:i|it|we|that)(?: was|['’]d been| had been| were)(?: actually)? (?:right|correct)"
    r"|(?:i|we) had (?:it|that|them) right)"
    r" (?:the first time|at first|before|first|to begin with)\b"
    r"|\b(?:what i (?:said|told you|gave you|had) (?:the first time|at first|before|first)"
    r"|(?:the|my) first (?:count|number|numbers|way|list|one|time))"
    r" (?:was|were|is) (?:actually )?(?:right|correct|it)\b"
    r"|\bgo (?:back to|with) what i (?:said|told you|had)"
    r" (?:the first time|at first|before|first)\b"
)
#: What is told behind it is one more.
_FURTHER = lazy_pattern(
    r"(?i)\b(?:another|more|also|plus|and|too|as well|extra|second|third|fourth|new|add\w*)\b"
)
_CORRECTIONS = (acts.Restate, acts.Replace, acts.Recount, acts.RestateNumber)


def right_before(read: Utterance, journal: Sequence[Entry], state: State) -> Utterance:
    """The utterance as taking back the correction before it, behind which it may tell once more
    what there was; `read` where nothing was corrected right before."""
    said = _WAS_RIGHT.search(read.heard)
    if said is None or state.pending or not journal or journal[-1].weighty:
        return read
    corrected = any(
        isinstance(one, _CORRECTIONS) or one.function == "correction" for one in journal[-1].acts
    )
    told = tuple(one for one in read.acts if is_thing(one) or isinstance(one, _CORRECTIONS))
    if not corrected:
        return read
    if _FURTHER.search(read.heard, said.end()) is None:
        told = tuple(one for one in told if not _is_old(one, journal[-1]))
    undone = acts.Undo(words=said.group(), span=said.span())
    left = tuple(run for run in read.unread if not said.start() <= run.span[0] < said.end())
    return replace(read, acts=(undone, *told), unread=left)


def _is_old(told: Act, corrected: Entry) -> bool:
    """Whether it names no more than what the correction put something else in place of: "it's a
    14-2" behind "the 14-2 is a 14-3". It is there again, and comes in no second time."""
    thing = told.thing if isinstance(told, acts.Restate) else told
    if not isinstance(thing, acts.AddCable) or thing.awg is None or (thing.count or 1) > 1:
        return False
    olds = [one.target for one in corrected.acts if isinstance(one, acts.Replace)]
    return any(
        (old.kind, old.awg, old.conductors) == ("cable", thing.awg, thing.conductors)
        for old in olds
    )
