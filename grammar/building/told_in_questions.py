"""What a question of all that is in the box tells besides what it asks for."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act

OF_ALL = ("total", "margin", "capacity", "conductors", "allowances")
"""Questions of all that is in the box, with what they tell of it."""


def told_besides(made: Iterable[Act]) -> list[Act]:
    """The acts without the "how many conductors" of the question itself."""
    kept: list[Act] = []
    for act in made:
        if isinstance(act, acts.Suppose):
            inner = tuple(told_besides(act.acts))
            kept += [replace(act, acts=inner)] if inner else []
        elif not isinstance(act, acts.AddConductors) or (act.count, act.awg) != (None, None):
            kept.append(act)
    return kept
