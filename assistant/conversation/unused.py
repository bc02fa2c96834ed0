"""Words that an ear gave and nothing could be made of: no verdict stands over them unsettled.

They are said at once ("I did not use …"), and asked about before a verdict is given. Saying
what is in the box again settles them, and so does "skip". Of typed text they are only said:
the line stands there to be read.
"""

from __future__ import annotations

from dataclasses import replace

from assistant.conversation.assessing import assess
from assistant.conversation.correcting import CONTENT_KINDS
from assistant.conversation.doubting import OPERATORS
from assistant.conversation.turn import Turn

UNKNOWN = frozenset({"[unk]", "<unk>"})
"""What an ear writes for a sound that is no word it knows."""

SETTLING = CONTENT_KINDS | OPERATORS
"""Kinds of statement that can be what was not understood before, said again."""


def keep(turn: Turn, left_over: tuple[str, ...]) -> None:
    """Mark what this utterance left unused, or settle what an earlier one did."""
    words = [run for run in (*left_over, *turn.unplaced) if _weighs(run)]
    if turn.spoken and words and not turn.stepped:
        answer = "" if turn.understood else turn.first_asked
        kept = tuple(dict.fromkeys((*turn.state.unused, *words)))
        turn.state = replace(turn.state, unused=kept, unused_for=answer or "")
    elif turn.state.unused and not words and _settled(turn):
        turn.state = replace(turn.state, unused=(), unused_for="")


def _weighs(words: str) -> bool:
    return any(word not in UNKNOWN for word in words.split())


def _settled(turn: Turn) -> bool:
    """True where the box was said on, or the answer that was not understood was given."""
    if turn.kinds & SETTLING and turn.trail:
        return True
    waiting = turn.state.unused_for
    if not waiting or turn.first_asked != waiting:
        return False
    question = assess(turn.state).question
    return question is None or question.slot != waiting
