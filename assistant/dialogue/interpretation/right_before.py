"""What was told before it was corrected, said to be right after all: "no, I was right the first
time, two 14-2s", "what I said first was right"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.assistant.dialogue.journal import Entry
from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Utterance
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
    undone = acts.Undo(words=said.group(), span=said.span())
    left = tuple(run for run in read.unread if not said.start() <= run.span[0] < said.end())
    return replace(read, acts=(undone, *told), unread=left)
