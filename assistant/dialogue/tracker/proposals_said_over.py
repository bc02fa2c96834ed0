"""What was supposed or proposed, said once more as it is done: "do it, one more 12-3"."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import cast

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference, Thing
from boxaloud.grammar.clauses.act_fields import KIND_OF
from boxaloud.grammar.lazy_patterns import lazy_pattern

#: On top of what was proposed, and no saying of it again.
_ON_TOP = lazy_pattern(r"(?i)\b(?:another|more|else|also|as well|too|besides|on top|extra|other)\b")


def spells_out(told: Act, proposed: Sequence[Act]) -> bool:
    """ "Do it, a 12-3 in place of a 12-2": the change itself, made as it is told now."""
    if isinstance(told, acts.Remove):
        return len(proposed) == 1 and _takes_out_the_same(told, proposed[0])
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


def _takes_out_the_same(told: acts.Remove, proposed: Act) -> bool:
    """ "What if I took one 12-2 out? … Do it, take one twelve-two out": that one, named, or as many
    as are named now."""
    if not isinstance(proposed, acts.Remove) or _ON_TOP.search(told.words):
        return False
    this, that = told.target, proposed.target
    kinds: set[str] = {this.kind, that.kind}
    return (
        (len(kinds) == 1 or "anything" in kinds)
        and this.which == that.which
        and all(_compatible(this, that, slot) for slot in ("awg", "conductors", "name"))
    )


def _compatible(this: Reference, that: Reference, slot: str) -> bool:
    said = {getattr(this, slot), getattr(that, slot)} - {None}
    return len(said) < 2


def names_it_again(following: Act, proposed: Act) -> bool:
    """ "I'm gonna do it, one more": what was supposed, and not one more yet."""
    return (
        isinstance(following, acts.More)
        and following.target.kind == "anything"
        and following.count == getattr(proposed, "count", None)
    )


def counted(proposed: Sequence[Act], value: Decimal) -> Thing | None:
    """ "If I went to three 12-2s … it's three now": what was supposed with that count."""
    for one in proposed:
        thing = one.thing if isinstance(one, acts.Restate) else one
        if isinstance(thing, tuple(KIND_OF)) and getattr(thing, "count", None) == value:
            return cast(Thing, thing)
    return None


def let_go(turn: Turn) -> None:
    """ "What if it were 12-2?", and then "it is 12-2": once the contents have changed, what was
    supposed of them before is no longer open."""
    proposed = turn.state.proposed
    if not proposed or proposed != turn.base.proposed or turn.state.items == turn.base.items:
        return
    changes = (acts.Replace, acts.Restate, acts.Remove, acts.Recount, acts.More, *KIND_OF)
    if all(isinstance(one, changes) for one in proposed):
        turn.state = altered(turn.state, proposed=())


def _says(told: Act, proposed: Act) -> bool:
    """ "Yes, add it, one more 12-3": what is done is only said once more."""
    slots = ("awg", "conductors")
    same = type(told) is type(proposed) and isinstance(told, tuple(KIND_OF))
    named, before = getattr(told, "name", None), getattr(proposed, "name", None)
    alike = before is None or (named or "").endswith(before)  # a duplex is a receptacle
    return (
        same
        and alike
        and all(getattr(proposed, one, None) in (None, getattr(told, one, None)) for one in slots)
    )
