"""What the box carries, a fan or a luminaire: no fill, but cautions by its weight, 314.27."""

from __future__ import annotations

from decimal import ROUND_CEILING, Decimal

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.nlg.sentences import plain, say
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar.acts import Hang

_POUNDS_IN_A_KG = Decimal("2.20462262")
_CARRIED = frozenset({"fan", "luminaire"})
_HEAVIEST = Decimal(2000)


def hang(turn: Turn, act: Hang) -> None:
    """ "A paddle fan", "a chandelier that weighs 60 pounds"."""
    state = turn.state
    weight = act.weight
    if weight is not None:
        weight = _pounds(weight, act.unit)
        if not 0 < weight <= _HEAVIEST:
            turn.refuse(act.words, say("weight_wrong"))
            return
    tags, before = state.tags, state.hangs
    if act.name and act.name not in tags:  # a box carries one thing: another is in its place
        tags, before = (tags - _CARRIED) | {act.name}, None
    state = altered(state, tags=tags, hangs=before if weight is None else weight)
    name = act.name or next((t for t in ("fan", "luminaire") if t in tags), "")
    what = say(f"carried.{name or 'load'}")
    if weight is not None:
        what = say("carried.weighing", what=what, weight=plain(weight))
    turn.enter(state, say("echo.carried", what=what), what)


def _pounds(weight: Decimal, unit: str | None) -> Decimal:
    """Pounds; kilograms are rounded up to 0.1, so that no weight is made less."""
    if unit != "kg":
        return weight
    return (weight * _POUNDS_IN_A_KG).quantize(Decimal("0.1"), ROUND_CEILING)
