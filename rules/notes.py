"""From any line of a worksheet back to the row of the data, its reasoning and its source."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from boxaloud.rules.data import RuleNote, all_rules
from boxaloud.rules.errors import RulesError
from boxaloud.rules.sizes import allowances
from boxaloud.rules.table import table_boxes


def explain(rule: str) -> RuleNote:
    """The note of any rule, a row of Table 314.16(A), or `allowance-AWG` of Table 314.16(B).

    Every `Line.rule`, `VolumeLine.rule` and `OpenSlot.rule` that is not empty resolves.
    Raises RulesError for an identifier that no data row has.
    """
    if rule in all_rules():
        return all_rules()[rule].note
    if rule in _boxes():
        return _boxes()[rule]
    try:
        return _others()[rule]
    except KeyError:
        raise RulesError(f"No rule is named {rule!r}.") from None


@cache
def _boxes() -> Mapping[str, RuleNote]:
    """The rows of Table 314.16(A), which a box of the Table is explained by at every turn."""
    return {row.note.rule: row.note for row in table_boxes()}


@cache
def _others() -> Mapping[str, RuleNote]:
    return {note.rule: note for note in notes() if note.rule not in all_rules()}


def notes() -> tuple[RuleNote, ...]:
    """Every note there is: rules, boxes, allowances, conduit bodies, pull boxes, Canada."""
    # these are whole kinds of work of their own, which a worksheet of a box needs none of
    from boxaloud.rules.canada import canada_notes
    from boxaloud.rules.conduit import body_notes
    from boxaloud.rules.pull import pull_notes

    return (
        *(rule.note for rule in all_rules().values()),
        *(row.note for row in table_boxes()),
        *(allowance.note for allowance in allowances().values()),
        *body_notes(),
        *pull_notes(),
        *canada_notes(),
    )
