"""Acts about the boxes of the job rather than about the box at hand."""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act

EVENTS = (
    acts.NextBox, acts.OpenBox, acts.CopyBox, acts.NameBox, acts.DeleteBox, acts.ListBoxes,
    acts.NewJob,
)  # fmt: skip


def told(heard: str, read: Sequence[Act]) -> list[Act]:
    """The acts without a change of the job that is only asked about: "should I delete box one?"
    deletes nothing."""
    made: list[Act] = []
    for act in read:
        before = made[-1] if made else None
        asked = isinstance(before, acts.AskUnknown) and _touch(heard, before, act)
        if not (asked and isinstance(act, (acts.DeleteBox, acts.NameBox))):
            made.append(act)
    return made


def _touch(heard: str, one: Act, other: Act) -> bool:
    """True where nothing but a space lies between two acts."""
    return not heard[one.span[1] : other.span[0]].strip()
