"""Two unlike values for one slot in one breath: neither is taken for the other unasked.

A word of correction between them ("eighteen, no, twenty") makes the second the one that counts.
"""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal

from boxaloud.assistant.dialogue.belief import held_acts
from boxaloud.assistant.dialogue.interpretation import act_volumes
from boxaloud.assistant.dialogue.state_parts import mark_of
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act

NEAR = Decimal("0.1")
"""Cubic inches that one marking differs by when it is said in both units; common practice."""
CORRECTING = (
    acts.No, acts.Undo, acts.Mistaken, acts.Restate, acts.RestateNumber, acts.StartOver,
    acts.Remove, acts.Replace,
)  # fmt: skip
PLACES = ("side", "ternal", "no", "out")
"""Parts of the words that say a place or that there are none; "the connectors" alone tells a
place only by custom, and gives way to one that is said."""
UNCOUNTED = frozenset({"none", "outside"})


def held(turn: Turn, act: Act) -> bool:
    """Hold `act` back where the same breath gave another value for its slot; False where not."""
    if not any(type(one) is type(act) for one in turn.done[:-1]):
        return False
    slot = _slot(act)
    if not slot or turn.supposed or act.function == "correction":
        return False
    if isinstance(act, acts.SetVolume) and act_volumes.said_in_all(
        act, turn.state.box, turn.state.extras, turn.heard
    ):
        return False
    unlike = [
        one for one in _uncorrected(turn.done[:-1]) if _slot(one) == slot and _unlike(one, act)
    ]
    waiting = {pending.mark for pending in turn.state.pending} if unlike else set()
    if not any(mark_of(one) not in waiting for one in unlike):
        return False
    held_acts.wait(turn, act, slot, "conflict")
    return True


def _slot(act: Act) -> str:
    match act:
        case acts.SetVolume():
            return "volume" if act.volume is not None else ""
        case acts.SetClamps():
            said = any(part in act.words.lower() for part in PLACES)
            return "where" if said and act.where != "present" else ""
        case acts.SetEdition():
            return "year"
    return ""


def _uncorrected(done: Sequence[Act]) -> Sequence[Act]:
    """The acts of this breath behind the last word of correction."""
    for place in range(len(done) - 1, -1, -1):
        if isinstance(done[place], CORRECTING) or done[place].function == "correction":
            return done[place:]
    return done


def _unlike(one: Act, other: Act) -> bool:
    match one, other:
        case acts.SetVolume(), acts.SetVolume():
            if one.volume is None:
                return False
            return abs(act_volumes.volume_of(one) - act_volumes.volume_of(other)) > NEAR
        case acts.SetClamps(), acts.SetClamps():
            both = {one.where, other.where}
            return len(both) > 1 and "present" not in both and not both <= UNCOUNTED
        case acts.SetEdition(), acts.SetEdition():
            return one.year != other.year
    return False
