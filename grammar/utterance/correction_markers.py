"""Marks of correction that stand as clauses of their own: "no wait", "I mean", "that's wrong"."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal

from boxaloud.grammar import acts, grammar_data
from boxaloud.grammar.acts import Act
from boxaloud.grammar.clauses.act_fields import THINGS, reference_to
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.lazy_patterns import lazy_pattern

_TABLE = grammar_data.table("clauses")["marking"]
_MARKERS = frozenset(_TABLE["words"])
_MARKING = frozenset(_TABLE["marks"])


def is_marker(clause: Clause) -> bool:
    """A clause that only marks what follows as a correction: "no wait", "sorry"."""
    if any(
        element.found is not None and element.found.kind not in ("scratch", "no")
        for element in clause.elements
    ):
        return False
    words = [element.tag for element in clause.elements if element.found is None]
    if len(words) < 6 and re.fullmatch(
        r"(?:(?:no|wait|i|just|so|ok|oh|hm|let me|lemme|let us|let's|hold on|hang on) )*"
        r"(?:(?:counted|looked|checked|read|count|counting) (?:(?:it|them|those|these|that) )?"
        r"(?:again|over|once more)|recounting|recount(?: (?:it|them|those|these|that))?"
        r"|(?:counted|read|had|got|said) (?:it |them |those |these |that )?(?:all )?wrong"
        r"|recounted|double checked|excuse me|pardon me|beg your pardon)",
        clause.line,
    ):
        return True
    if _RIGHT_BEFORE.fullmatch(clause.line):
        return True
    if len(words) < 8 and _NOT_SO.fullmatch(clause.line):
        return True
    return (
        len(words) < 8
        and all(word in _MARKERS for word in words)
        and (
            any(word in _MARKING for word in words)
            or any(e.found is not None for e in clause.elements)
        )
    )


#: What is told behind it is what was told before it was changed.
_RIGHT_BEFORE = lazy_pattern(
    r"(?:(?:no|wait|sorry|so|ok|well|actually) )*i (?:was|had it|had them|had that) right"
    r" (?:at first|the first time|before|to begin with)"
)
_ASIDE = frozenset({"please", "um", "uh", "er", "please um"})


def without_asides(parts: list[Clause]) -> list[Clause]:
    """The clauses without those that are a hesitation or a "please" alone."""
    if len(parts) < 2:
        return parts
    return [
        clause
        for place, clause in enumerate(parts)
        if clause.line not in _ASIDE and not _between_not_and_is(parts, place)
    ] or parts


_REGRETS = frozenset({"sorry", "my mistake", "my bad", "oops", "my apologies"})


def _between_not_and_is(parts: list[Clause], place: int) -> bool:
    """ "Not the 12-3, sorry. It's two 12-2s": the two are one correction."""
    around = parts[place - 1 : place + 2] if place else []
    return (
        len(around) == len(("not", "sorry", "it is"))
        and parts[place].line in _REGRETS
        and around[0].line.startswith("not ")
        and around[-1].line.startswith(("it is ", "that is ", "they are "))
    )


def marker_acts(clause: Clause) -> list[Act]:
    """What a mark of correction says by itself: "scratch that" takes back, "no" disconfirms."""
    for element in clause.elements:
        if element.found is not None and element.found.kind == "scratch":
            return [acts.Undo(words=element.found.words, span=element.found.span)]
    if any(element.tag in ("no", "nope", "nah") for element in clause.elements):
        return [acts.No(words="no", span=clause.span)]
    return []


def dispute(clause: Clause) -> list[Act]:
    """ "That's wrong", in answer to a question: no."""
    if DISPUTE.search(clause.line):
        return [acts.No(words="not so", span=clause.span)]
    return []


_NOT_SO = lazy_pattern(
    r"(?:(?:no|wait|hey|but|ok|and|well) )*(?:(?:you|i) (?:got|had|have) (?:that|it|this) "
    r"(?:all )?wrong|(?:that|it|this) (?:is|was) not (?:it|that|so|true"
    r"|what i (?:said|meant|have|told you))|(?:(?:that|it|this) (?:is|was) )?"
    r"(?:not (?:right|correct|so|true)|incorrect))"
)
_NOT_NUMBER = lazy_pattern(r"(?:(?:no|and|but|wait) )*not (?:the |a |an )?<n:([0-9.]+)>")
_NUMBER_ONLY = lazy_pattern(r"(?:(?:just|only|but|it is|make it|the|a|an) )*<n:([0-9.]+)>")


def not_but(clause: Clause, parts: list[Clause], place: int) -> acts.RestateNumber | None:
    """ "Not two, one.": the one number in place of the other."""
    old = _NOT_NUMBER.fullmatch(clause.line)
    new = _NUMBER_ONLY.fullmatch(parts[place + 1].line) if place + 1 < len(parts) else None
    if old is None or new is None:
        return None
    span = (clause.span[0], parts[place + 1].span[1])
    return acts.RestateNumber(
        value=Decimal(new[1]),
        instead_of=Decimal(old[1]),
        words=clause.line,
        span=span,
        function="correction",
    )


def restated_for(denied: Clause, told: list[Act]) -> list[Act]:
    """ "Not a switch, a dimmer": the one in place of the other, where both are of one kind."""
    found = denied.elements[-1].found
    if found is None or found.kind not in THINGS or len(told) != 1:
        return told
    act = told[0]
    if not isinstance(act, acts.Restate) or not isinstance(act.thing, THINGS[found.kind]):
        return told
    if act.instead_of is not None:
        return told
    thing, denied_one = act.thing, reference_to(found)
    if isinstance(thing, (acts.AddCable, acts.AddDevice)) and thing.count is None:
        thing = replace(thing, count=denied_one.count)  # "not a 12-3. 12-2": one of several
    return [replace(act, thing=thing, instead_of=denied_one)]


TRAILING = lazy_pattern(
    r"(?:(?:i mean|i meant|actually|sorry|my mistake|my bad|rather|i should say|instead|oops"
    r"|is what i meant)(?: |$))+"
)


#: What a correction that is marked ahead of it would hold: a count, a number, a box.
COUNTS = lazy_pattern(r"<[a-z_]+:\d|<(?:n|box|pair|size|place|clamps|cable|conductors)")


def restated_after_all(made: list[Act]) -> list[Act]:
    """What stands last was a correction."""
    act = made[-1] if made else None
    if isinstance(act, acts.Number) and len(made) == 1 and act.value is not None:
        return [
            acts.RestateNumber(
                value=act.value, words=act.words, span=act.span, function="correction"
            )
        ]
    if not is_thing(act) or act.count is None:
        return made
    if re.search(r"(?i)\b(?:more|another|extra)\b", act.words):
        return made
    restated = acts.Restate(
        thing=act, words=act.words, span=act.span, doubts=act.doubts, function="correction"
    )
    return [*made[:-1], restated]


#: "I said three by mistake": what was said before, and is not so.
MISQUOTED = lazy_pattern(
    r"(?:(?:sorry|oops|no|and|but|because|cause|wait) )*(?:i|we|you) (?:said|told you|put|wrote"
    r"|typed|had|counted) (?:it was |that |there were |there was )*<[^>]*>"
    r"(?: (?:by mistake|by accident|before|wrong|wrongly|in error|earlier|at first))+"
)
#: "that's wrong", "I miscounted": what is wrong is yet to be said.
DISPUTE = lazy_pattern(
    r"\b(?:wrong|not right|mistake|miscounted|misspoke|messed up|correction|not it|not so"
    r"|not true|not what i (?:said|meant|have|told you)|not that|incorrect|not correct)\b"
)
