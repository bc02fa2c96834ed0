"""Figures that wait: none is given past what was not understood or is in doubt.

The least volume, the smallest box and how many more fit all rest on what is in the box. While a
word that weighs is not in it, a figure would be too small and sound sure.
"""

from __future__ import annotations

from boxaloud.assistant.dialogue.nlg.sentences import listed_doubts, say
from boxaloud.assistant.dialogue.state import State


def is_held(state: State) -> bool:
    """Whether words that weigh were not understood or not confirmed, so that nothing "fits"."""
    return bool(state.unread or state.pending or state.mistaken)


def held_text(state: State) -> str:
    """What is said in place of a figure; nothing where nothing holds it back."""
    if state.unread:
        return say("held.unread", words=listed_doubts(state.unread))
    return say("held.doubt") if is_held(state) else ""
