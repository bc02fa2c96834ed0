"""From any line of a worksheet back to the row of the data, its reasoning and its source."""

from __future__ import annotations

from rules.data import RuleNote, all_rules
from rules.errors import RulesError
from rules.sizes import allowances
from rules.table import table_boxes


def explain(rule: str) -> RuleNote:
    """The note of a rule, a row of Table 314.16(A), or `allowance-AWG` of Table 314.16(B).

    Every `Line.rule`, `VolumeLine.rule` and `OpenSlot.rule` that is not empty resolves.
    Raises RulesError for an identifier that no data row has.
    """
    if rule in all_rules():
        return all_rules()[rule].note
    for row in table_boxes():
        if row.id == rule:
            return row.note
    for allowance in allowances().values():
        if allowance.note.rule == rule:
            return allowance.note
    raise RulesError(f"No rule is named {rule!r}.")


def notes() -> tuple[RuleNote, ...]:
    """Every note there is: rules, then boxes, then allowances."""
    return (
        *(rule.note for rule in all_rules().values()),
        *(row.note for row in table_boxes()),
        *(allowance.note for allowance in allowances().values()),
    )
