"""Which section governs which conductors of a box, told in a sentence."""

from __future__ import annotations

from collections.abc import Iterable

from boxaloud.assistant.dialogue.nlg.sentences import say
from boxaloud.assistant.dialogue.state import State
from boxaloud.rules import governing


def large(small: Iterable[int], size: str) -> str:
    """The sections that govern conductors of `size` and the `small` ones beside them."""
    found = governing([*sorted(small), size])
    return " ".join(
        say("pull.governs", says=each.says.rstrip("."), section=each.section) for each in found
    )


def governed(state: State) -> str:
    """Which section governs what, where small conductors are in the box too."""
    small = {awg for item in state.items if (awg := getattr(item.content, "awg", None))}
    return large(small, "4")
