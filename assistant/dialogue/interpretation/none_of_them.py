"""What a bare "none" is of."""

from __future__ import annotations

import re

from boxaloud.assistant.dialogue.interpretation.full_acts import full
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference

#: What was said last was wrong, and none of it is there; nothing else is said with it.
_WRONG = re.compile(
    r"(?i)(?=.*\b(?:wait|hold on|hang on|no|nope|actually|sorry|wrong|misread|oops"
    r"|scratch that|my bad)\b)"
    r".*\b(?:none|without)(?: (?:in (?:there|here|it|this (?:box|one))|inside|at all|after all"
    r"|actually|them))*"
    r"(?:,? (?:please|sorry|my bad|oops))?[\s.!]*"
)


def answer(turn: Turn, act: Act) -> Act:
    """ "None" of what is asked about, or of the clamps told last, where that was wrong."""
    told = turn.done and isinstance(turn.done[-1], acts.SetClamps)
    if turn.asked == "clamps" or told or _clamps_put_right(turn):
        return full(act, acts.SetClamps(where="none"), "where")
    if turn.asked == "grounds":
        return full(act, acts.Deny(target=Reference("grounds")), "target")
    if turn.asked == "contents":
        return full(act, acts.NothingElse(of="else"), "of")
    return act


def _clamps_put_right(turn: Turn) -> bool:
    """ "Hang on, there's none", where clamps were told last and nothing is open."""
    if turn.state.last != "clamps" or turn.asked is not None:
        return False
    alone = all(isinstance(one, (acts.No, acts.Social, acts.Yes)) for one in turn.done)
    return alone and not turn.ahead and _WRONG.fullmatch(turn.heard) is not None
