"""What a count is of that was told apart from its thing: "three 14-2s … sorry, two of them", "took
out one 14-2 so it's down to three"."""

from __future__ import annotations

from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.lazy_patterns import lazy_pattern

_SEVERAL = 2
_PART = lazy_pattern(r"(?i)\bof (?:them|those|these|em)\b")


def of_several(turn: Turn, act: acts.Recount, found: list[Item]) -> Item | None:
    """ "Three 14-2s in the pantry switch": "sorry, two of them" are of those that there are several
    of, where they came in the same breath as one other thing; None where they are not."""
    pointed = act.target.kind == "anything" and act.target.item is None
    step = turn.history.last if turn.history is not None else None
    if not pointed or (act.count or 0) < _SEVERAL or not _PART.search(act.words) or step is None:
        return None
    if len(found) != 1 or found[0].content.count != 1 or turn.trail:
        return None
    known = {item.key for item in step.state.items}
    came = [item for item in turn.state.items if item.key not in known]
    several = [item for item in came if item.content.count > 1]
    return several[0] if found[0] in came and len(several) == 1 else None


def left_first(act: Act, state: State) -> bool:
    """ "Took out one 14-2 so it's down to three", of which none was told before: those three."""
    return (
        isinstance(act, acts.Recount)
        and act.target.awg is not None
        and act.target.conductors is not None
        and not any(references.agrees(item, act.target) for item in state.items)
    )
