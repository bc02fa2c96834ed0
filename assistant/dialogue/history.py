"""The states that a box has been in: undo and redo go along them, as far as there is anything.

The states are values of the folded journal, so going back is exact.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TypeAlias

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.state_parts import Pending

Step: TypeAlias = tuple[State, str]
"""A state, and the words that led away from it."""


@dataclass(slots=True)
class History:
    """What `undo` and `redo` go back and forth along."""

    past: list[Step] = field(default_factory=list)
    future: list[Step] = field(default_factory=list)

    def keep(self, before: State, words: str) -> None:
        """Note that `words` led away from the state `before`."""
        self.past.append((before, words))
        self.future.clear()

    def keep_confirmed(self, before: State, words: str, confirmed: Sequence[Pending]) -> None:
        """Note the same of words that may have confirmed what was held back.

        Taking that step back takes away what was confirmed: not the "yes", after which the same
        would be asked again.
        """
        if not confirmed:
            self.keep(before, words)
            return
        waiting = tuple(one for one in before.pending if one not in confirmed)
        without = altered(before, pending=waiting)
        if self.past and self.past[-1][0] == without:
            self.past.pop()
        self.keep(without, confirmed[0].act.words)

    @property
    def cleared(self) -> bool:
        """True where the last step emptied the box."""
        from boxaloud.assistant.dialogue.nlg.sentences import say

        return bool(self.past) and self.past[-1][1] == say("start_over")

    def back(self, now: State) -> Step | None:
        """The state before the last change, with the words of that change."""
        return _along(self.past, self.future, now)

    def forward(self, now: State) -> Step | None:
        """The state that an undo left, with the words that had led to it."""
        return _along(self.future, self.past, now)


def _along(source: list[Step], target: list[Step], now: State) -> Step | None:
    if not source:
        return None
    state, words = source.pop()
    target.append((now, words))
    return state, words
