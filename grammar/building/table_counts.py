"""What the Table allows of conductors: "the table lets me have ten wires in this box"."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.clauses.act_fields import BOX, THINGS
from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.enclosures import lengths
from boxaloud.grammar.lazy_patterns import lazy_pattern

_ALLOWS = lazy_pattern(
    r"\b(?:table|chart)\b.*\b(?:lets?|allows?|permits?|gives?|says|shows|lists|accepts?)\b"
    r".*<conductors"
    r"|\b(?:good|rated|ok|okay|listed|fine|allowed|down)\b.*<conductors.*\b(?:by|per|in|from"
    r"|according to|under|on|off) (?:the |its )?(?:table|chart)\b"
    r"|\b(?:by|per|from|according to|going by|in) (?:the )?table\b.*\b(?:takes?|holds?|allows?|can"
    r"|may|lets?|good|permits?)\b.*<conductors"
)
#: What is in the box is told by these, whatever the Table says.
_IS_THERE = lazy_pattern(
    r"\b(?:there (?:is|are)|i (?:have|got)|we (?:have|got)|are in|comes? in)\b"
)
_COUNT = lazy_pattern(
    r"(?i)(?<![\d.])(?P<n>\d{1,2}|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve"
    r"|thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen|twenty)(?![\d.])"
    r"(?=(?: of)?(?: (?:number |no\.? ?|#)?\w+(?: (?:awg|gauge))?)? (?:wires?|conductors?)\b"
    r"| (?:#|number )?(?:\d+|\w+)s\b| (?:#|number |no\.? ?)(?:18|16|14|12|10|8|6)\b)"
)


def allowed_by_table(clause: Clause, heard: str) -> acts.AllowByTable | None:
    """The count that the Table allows, where a clause tells no more than that."""
    if not _ALLOWS.search(clause.line) or _IS_THERE.search(clause.line):
        return None
    inside = [found for found in clause.found if found.kind in THINGS]
    other = [found for found in clause.found if found.kind in BOX and found.kind != "box_kind"]
    if len(inside) != 1 or inside[0].kind != "conductors" or other:
        return None
    words = heard[slice(*clause.span)]
    said = _COUNT.search(words)
    number = lengths.whole(f"{said['n'].lower()} ", 0) if said is not None else None
    if number is None:
        return None
    awg = inside[0].get("awg")
    # "for 10 wires": a number that stands alone before the wires is no size
    sized = awg is not None and not inside[0].doubts and str(awg) != str(number[0])
    return acts.AllowByTable(
        count=number[0], awg=int(str(awg)) if sized else None, words=words, span=clause.span
    )
