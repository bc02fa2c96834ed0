"""Whether moulded tabs are counted as clamps, 314.16(B)(2): "count them", "don't count those"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from boxaloud.assistant.dialogue.interpretation.full_acts import full
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act

_NOT = re.compile(r"(?i)\b(?:not|never|don['’]?t|doesn['’]?t|won['’]?t) (?:really |even )?count\b")
_COUNT_THEM = re.compile(r"(?i)\bcount (?:them|those|these|it|that|the (?:tabs|flaps|clamps))\b")


def counted(turn: Turn, told: Sequence[Act]) -> Sequence[Act]:
    """The acts of an utterance, where it is asked whether the tabs count: the order to count them,
    or not to, as that answer. Any others as they are."""
    if turn.asked != "clamps" or turn.state.clamps != "moulded":
        return told
    orders = [act for act in told if isinstance(act, (acts.Keep, acts.Ask)) and _is_order(act)]
    if not orders:
        return told
    answer = acts.SetClamps(where="none" if _NOT.search(turn.heard) else "inside")
    return [full(orders[0], answer, "where"), *(act for act in told if act not in orders)]


def _is_order(act: acts.Keep | acts.Ask) -> bool:
    plain = isinstance(act, acts.Keep) or act.about == "total"
    return plain and _COUNT_THEM.search(act.words) is not None
