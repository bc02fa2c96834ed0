"""Bare numbers that answer how deep a ring or a device is, or how many connectors there are."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference
from boxaloud.rules import is_canadian

_CM = Decimal("2.54")


def answer(turn: Turn, value: Decimal) -> tuple[Act, str] | None:
    """The full act that a number is, and the slot that it fills; None under other questions."""
    match turn.asked:
        case "connectors" if value == 0:
            return acts.Deny(target=Reference("uncounted", "wire connector")), "target"
        case "connectors" if value == int(value):
            return acts.AddUncounted(count=int(value), name="wire connector"), "count"
        case "device_depth":
            return acts.Deepen(target=_asked_about(turn), depth=value), "depth"
        case "space" if value in (1, 2, 3):
            return acts.InSpace(which=int(value)), "which"
        case "share" if value >= 1:
            return acts.ShareSpaces(volume=value), "volume"
        case "ring_depth":
            return acts.SetSize(depth=value), "depth"
    return None


def in_millilitres(state: State, act: acts.SetVolume) -> acts.SetVolume | None:
    """A volume of more than 100 without its unit is in millilitres in Canada, where boxes are
    marked so; None for any other."""
    unsaid = act.unit is None and "cu" not in act.words.lower() and "in3" not in act.words
    if not (is_canadian(state.edition) and unsaid and act.volume is not None):
        return None
    if act.volume <= 100:
        return None
    return replace(act, unit="cm3", doubts=tuple(d for d in act.doubts if d.reason != "unusual"))


def deepened(turn: Turn, act: acts.SetSize) -> Act | None:
    """ "Two inches deep" where it is asked how deep a device is, 2.54 cm to the inch; None for
    any other size."""
    alone = act.width is None and act.family is None
    if turn.asked != "device_depth" or not alone or not isinstance(act.depth, Decimal):
        return None
    factor = {"cm": Decimal(1), "mm": Decimal("0.1")}.get(act.unit or "", _CM)
    return acts.Deepen(target=_asked_about(turn), depth=(act.depth * factor).normalize())


def _asked_about(turn: Turn) -> Reference:
    return Reference("device", item=turn.subject)
