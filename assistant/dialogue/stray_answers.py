"""Bare answers that the words they belonged to were not heard with."""

from __future__ import annotations

from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act

STRAYING = (
    acts.Number, acts.Size, acts.NoneOfThem, acts.Place, acts.Skip, acts.DontKnow,
)  # fmt: skip


def is_stray(turn: Turn, act: Act) -> bool:
    """True for a bare answer heard behind other acts with words not understood.

    The words that it belonged to may be the very ones that were misheard, so that it answers
    nothing: "… one skip on the tens" for "… one switch on the tens". Typed or heard, a number
    that nothing could be made of is such a gap too.
    """
    if not (turn.done and isinstance(act, STRAYING)):
        return False
    left = [one for one in turn.done if isinstance(one, acts.Number)]
    return (turn.spoken and turn.gaps) or any(one.words in turn.unplaced for one in left)
