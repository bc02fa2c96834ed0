"""What was supposed or proposed, said once more as it is done: "do it, one more 12-3"."""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.clauses.act_fields import KIND_OF


def spells_out(told: Act, proposed: Sequence[Act]) -> bool:
    """ "Do it, a 12-3 in place of a 12-2": the change itself, made as it is told now."""
    if not isinstance(told, acts.Replace):
        return len(proposed) == 1 and _says_it(told, proposed[0])
    changes = (acts.Replace, acts.Restate)
    return any(
        _says(told.thing, one.thing if isinstance(one, changes) else one) for one in proposed
    )


def _says_it(told: Act, proposed: Act) -> bool:
    """ "What if I put a third cable in? … I'm putting it in. One more 14-2": that one, named."""
    if isinstance(proposed, acts.More):
        kinds = ("anything", KIND_OF.get(type(told)))
        return proposed.target.kind in kinds and getattr(told, "count", None) == proposed.count
    return _says(told, proposed)


def names_it_again(following: Act, proposed: Act) -> bool:
    """ "I'm gonna do it, one more": what was supposed, and not one more yet."""
    return (
        isinstance(following, acts.More)
        and following.target.kind == "anything"
        and following.count == getattr(proposed, "count", None)
    )


def _says(told: Act, proposed: Act) -> bool:
    """ "Yes, add it, one more 12-3": what is done is only said once more."""
    slots = ("awg", "conductors", "name")
    same = type(told) is type(proposed) and isinstance(told, tuple(KIND_OF))
    return same and all(
        getattr(proposed, one, None) in (None, getattr(told, one, None)) for one in slots
    )
