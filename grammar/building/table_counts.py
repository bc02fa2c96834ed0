"""What the Table allows of conductors: "the table lets me have ten wires in this box"."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.clauses.act_fields import BOX, THINGS, act_of
from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.enclosures import lengths
from boxaloud.grammar.lazy_patterns import lazy_pattern

_ALLOWS = lazy_pattern(
    r"\b(?:table|chart)\b.*\b(?:lets?|allows?|permits?|gives?|says|shows|lists|accepts?)\b"
    r".*<conductors"
    r"|\b(?:good|rated|ok|okay|listed|fine|allowed|down|holds?|takes?|gets?|has room)\b"
    r".*<conductors.*\b(?:by|per|in|from|according to|under|on|off) (?:the |its )?(?:table|chart)\b"
    r"|\b(?:by|per|from|according to|going by|in) (?:the )?(?:table|chart)\b.*\b(?:takes?|holds?"
    r"|allows?|can|may|lets?|good|permits?)\b.*<conductors"
)
#: What is in the box is told by these, whatever the Table says.
_IS_THERE = lazy_pattern(
    r"\b(?:there (?:is|are)|i (?:have|got)|we (?:have|got)|are in|comes? in)\b"
)
_NUMBER = (
    r"\d{1,2}|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve"
    r"|thirteen|fourteen|fifteen|sixteen|seventeen|eighteen|nineteen|twenty"
)
_COUNT = lazy_pattern(
    rf"(?i)(?<![\d.])(?P<n>{_NUMBER})(?![\d.])"
    r"(?=(?: of)?(?: (?:number |no\.? ?|#)?\w+(?: (?:awg|gauge))?)? (?:wires?|conductors?)\b"
    r"| (?:#|number )?(?:\d+|\w+)s\b| (?:#|number |no\.? ?)(?:18|16|14|12|10|8|6)\b)"
)

#: "The table says nine twelves", "rated for 12 conductors per table": a count, and no volume.
_SAID = lazy_pattern(
    rf"(?i)\b(?:(?:table|chart)\b[^,.;?]*\b(?:says|shows|lists|reads|gives|allows|permits|is)"
    rf"(?: (?:me|us|up to|for|at most"
    rf"|(?:that )?(?:(?:that|this|the|a) )?(?:box|one|it)(?:['’]s| is)?"
    rf"(?: (?:good|ok|okay|rated) for| (?:can |will )?(?:takes?|holds?))))*"
    rf"|(?:good|rated|listed|marked|ok|okay) for(?: up to| at most)?(?=.*\b(?:table|chart)\b))"
    rf" (?P<n>{_NUMBER}) "
    r"(?:(?:#|number |no\.? ?)?(?:(?P<awg>18|16|14|12|10|8|6)(?:['’]?s|(?: (?:awg|gauge))?"
    r" (?:wires?|conductors?))|(?P<sized>eighteen|sixteen|fourteen|twelve|ten|eight|six)e?s)"
    r"|wires?|conductors?)(?![\w-])"
)


_THE_BOX = ("box_kind", "box_size")
"""What the Table may be said to allow them in."""


def told_by_table(clause: Clause, heard: str) -> list[Act] | None:
    """ "A four square, inch and a half, holds ten fourteens by the table": the box, and the count
    that the Table allows in it; None where a clause tells another thing."""
    allowed = allowed_by_table(clause, heard)
    if allowed is None:
        return None
    sizes = [found for found in clause.found if found.kind == "box_size"]
    return [*(act for found in sizes if (act := act_of(found)) is not None), allowed]


def allowed_by_table(clause: Clause, heard: str) -> acts.AllowByTable | None:
    """The count that the Table allows, where a clause tells no more than that."""
    if _IS_THERE.search(clause.line):
        return None
    if (bare := _said_so(clause, heard)) is not None:
        return bare
    if not _ALLOWS.search(clause.line):
        return None
    inside = [found for found in clause.found if found.kind in THINGS]
    other = [found for found in clause.found if found.kind in BOX and found.kind not in _THE_BOX]
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


def _said_so(clause: Clause, heard: str) -> acts.AllowByTable | None:
    """The count that the words of a clause give to the Table, whatever else they could be."""
    words = heard[slice(*clause.span)]
    said = _SAID.search(words)
    number = lengths.whole(f"{said['n'].lower()} ", 0) if said is not None else None
    if said is None or number is None:
        return None
    start, end = (clause.span[0] + place for place in said.span())
    rest = [found for found in clause.found if not start <= found.span[0] < end]
    if any(
        found.kind in THINGS or (found.kind in BOX and found.kind not in _THE_BOX) for found in rest
    ):
        return None
    sized = (said["awg"] or said["sized"] or "").lower()
    awg = int(lengths.value(sized) or 0) or None if sized else None
    return acts.AllowByTable(count=number[0], awg=awg, words=words, span=clause.span)
