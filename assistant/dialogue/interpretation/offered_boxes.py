"""Which of the boxes that were told is meant: "use the second one", "go with the octagon"."""

from __future__ import annotations

from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.rules import table_row


def chosen(state: State, act: Act) -> acts.SetSize | None:
    """The box of those told that "the second one" or "the octagon" is; None where it is none."""
    offered = [one for one in state.offered if isinstance(one, acts.SetSize)]
    place = _place(act)
    if place is not None:
        at = place - 1 if place > 0 else len(offered) - 1
        return offered[at] if 0 <= at < len(offered) else None
    if not isinstance(act, acts.NameBoxKind) or act.gangs or not _POINTED.search(act.words):
        return None
    alike = [one for one in offered if one.row and table_row(one.row).family == act.family]
    return alike[0] if len(alike) == 1 else None


def _place(act: Act) -> int | None:
    """Which of them was said: "use the second one", "the second one" by itself."""
    if isinstance(act, acts.DoIt):
        return act.place
    if not isinstance(act, acts.More) or act.target.kind != "anything":
        return None
    return act.target.ordinal if _ALONE.fullmatch(act.words) else None


#: "The second one", and no "a second one".
_ALONE = lazy_pattern(r"(?i)the (?:second|third) (?:one|box)\W*")
_POINTED = lazy_pattern(r"(?i)^\W*the\b")
