"""Passes that make one act of two that stand beside one another."""

from __future__ import annotations

from collections.abc import Callable
from functools import wraps

from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.utterance.running_passes import Tidying


def joining(both: Callable[[Act, Act, str], Act | None]) -> Tidying:
    """The pass that puts in the place of two acts beside one another what they are together.

    `both` is given the one, the other and the words of the utterance, and gives None for two that
    stay two. What it made of two may be joined with the next.
    """

    @wraps(both)
    def joined(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
        kept: list[Act] = []
        for act in made:
            one = both(kept[-1], act, heard) if kept else None
            if one is None:
                kept.append(act)
            else:
                kept[-1] = one
        return kept

    return joined
