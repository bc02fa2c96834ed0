"""The states that a box has been in: undo and redo go along them, as far as there is anything.

The states are values of the folded journal, so going back is exact.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import NamedTuple

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.state_parts import Pending


class Step(NamedTuple):
    """A state, the words that led away from it, and how many things they told of the box."""

    state: State
    words: str
    told: int = 1


@dataclass(slots=True)
class History:
    """What `undo` and `redo` go back and forth along."""

    past: list[Step] = field(default_factory=list)
    future: list[Step] = field(default_factory=list)
    idle: bool = False
    """True where what was said last neither changed the box nor went back."""

    def keep(self, before: State, words: str, told: int = 1) -> None:
        """Note that `words`, which `told` so many things, led away from the state `before`."""
        self.past.append(Step(before, words, told))
        self.future.clear()

    def keep_confirmed(
        self, before: State, words: str, confirmed: Sequence[Pending], told: int
    ) -> None:
        """Note the same of words that may have confirmed what was held back.

        Taking that step back takes away what was confirmed: not the "yes", after which the same
        would be asked again.
        """
        if not confirmed:
            self.keep(before, words, told)
            return
        waiting = tuple(one for one in before.pending if one not in confirmed)
        without = altered(before, pending=waiting)
        if self.past and self.past[-1].state == without:
            self.past.pop()
        self.keep(without, confirmed[0].act.words)

    @property
    def cleared(self) -> bool:
        """True where the last step emptied the box."""
        from boxaloud.assistant.dialogue.nlg.sentences import say

        return bool(self.past) and self.past[-1].words == say("start_over")

    @property
    def last(self) -> Step | None:
        """The last change, None where there was none."""
        return self.past[-1] if self.past else None

    def back(self, now: State) -> Step | None:
        """The state before the last change, with the words of that change."""
        return _along(self.past, self.future, now)

    def forward(self, now: State) -> Step | None:
        """The state that an undo left, with the words that had led to it."""
        return _along(self.future, self.past, now)


def _along(source: list[Step], target: list[Step], now: State) -> Step | None:
    if not source:
        return None
    step = source.pop()
    target.append(step._replace(state=now))
    return step
