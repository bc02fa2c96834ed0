"""What a clause supposes: the acts that it would be, were it told. Nothing is entered by it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

from boxaloud.grammar import acts, grammar_data
from boxaloud.grammar.acts import Act
from boxaloud.grammar.building.told_acts import tell
from boxaloud.grammar.building.told_clause import Telling
from boxaloud.grammar.clauses.act_fields import THINGS, thing_of
from boxaloud.grammar.clauses.clause import Clause, Element
from boxaloud.grammar.lazy_patterns import lazy_pattern

_STRIPPED = lazy_pattern(
    r"^(?:(?:so|and|but|ok|okay|well|hey|or|now|then|um|uh|hmm|class) )*(?:what happens if"
    r"|what would happen if|what if|how about if|what about if|how about|what about|suppose"
    r"|supposing|imagine|assuming|say|even if|in case|if|(?:am|are) (?:i|we) (?:still )?(?:allowed"
    r"|able|free|good|ok|okay|safe) to|(?:is|would) it(?: be)? (?:ok|okay|fine|alright|allowed"
    r"|legal|possible|safe|better)(?: for (?:me|us))? to|would it be|would it|would|should"
    r"|could|can|shall|may|might|will|does|do|is|are|must|pretend|hypothetically|let us say)\b"
)
_SUPPOSING = grammar_data.table("clauses")["supposing"]
_SUBJECTS = frozenset(_SUPPOSING["subjects"])
_TAIL = frozenset(_SUPPOSING["tail"])
_BEING = frozenset({"have", "had", "has", "is", "was", "were", "be"})

#: "how about two": what is said is put in place of what there is.
_HOW_ABOUT = lazy_pattern(r"(?:(?:and|so|ok|okay|but|or) )*(?:how|what) about\b")


#: "What if I use a 16": a box of that many cubic inches.
_IN_A_BOX = lazy_pattern(
    r"(?:^(?:(?:and|or|then|so|but|maybe|ok|okay|well|with) )*"
    r"|\b(?:use|used|using|go with|went with|going with|in|into|try|tried|get|got"
    r"|switch(?:ed)? to|swap(?:ped)? (?:it )?(?:for|to)|put in|have|had|it was|it is|was) )"
    r"(?:a|an|the) <n:(?!(?:14|12|10|8|6)>)[0-9.]+>"
    r"(?: (?:instead|then|box|one|now))*$"
)


#: "Would it fit an 18 if …": the box that it is to fit.
_TO_FIT = lazy_pattern(
    r"\bfit(?:s|ting)?(?: it| this| that| all)?(?: in| into)? (?:a|an|the) <n:(?P<n>[0-9.]+)>"
    r"|\b(?:would|will|could|does|can|is|might) (?:a|an|the) <n:(?P<it>[0-9.]+)>(?: box)?"
    r" (?:still |also |then )*(?:do|work|be|pass|hold|fit|suffice|enough|ok|okay|fine|big enough)\b"
    r"|\b(?:in|into|inside) (?:a|an|the) <n:(?P<in>[0-9.]+)>(?: box)? if\b"
)


#: "Into an 18 if …".
_INTO = lazy_pattern(r"\b(?:in|into|inside) (?:a|an|the) <n:[0-9.]+>(?: box)? if\b")


def _with_box(
    kept: tuple[Act, ...], line: str, words: str, span: tuple[int, int]
) -> tuple[Act, ...]:
    """What is supposed, with the box that it is asked to fit."""
    said = _TO_FIT.search(line)
    named = any(isinstance(act, (acts.SetVolume, acts.SetSize)) for act in kept)
    if said is None or named or not kept:
        return kept
    volume = Decimal(said["n"] or said["it"] or said["in"])
    rest = [a for a in kept if not (isinstance(a, acts.Number) and a.value == volume)]
    return (*rest, acts.SetVolume(volume=volume, words=words, span=span))


def suppose(
    telling: Telling, following: Sequence[Clause], words: str, span: tuple[int, int]
) -> list[Act]:
    """What is supposed, as the acts that it would be if it were told."""
    clause = telling.clause
    told = _told(clause)
    inner = tell(Telling(told, telling.heard, _in_place(clause, told)))
    inner += _asked_for(clause)
    for later in following:
        inner += tell(
            Telling(later if later.mood == "declarative" else _told(later), telling.heard)
        )
    if is_about(clause):
        inner = [_as_restated(act) for act in inner]
    kept = tuple(
        _as_volume(act) if clause.fit or _IN_A_BOX.search(told.line) else act
        for act in inner
        if not isinstance(act, (acts.Yes, acts.No, acts.Ask, acts.AskWhy))
    )
    kept = _with_box(kept, " ".join(one.line for one in (clause, *following)), words, span)
    if not kept:
        return [acts.AskUnknown(words=words, span=span)]
    return [acts.Suppose(acts=kept, words=words, span=span)]


def _in_place(clause: Clause, told: Clause) -> bool:
    """ "What if I only had two 12-2s": so many in place of those that are there."""
    first = told.elements[0].start
    before = {element.tag for element in clause.elements if element.start < first}
    return "only" in before or ("just" in before and bool(before & _BEING))


def _as_restated(act: Act) -> Act:
    """ "How about two": a number in place of the one said."""
    if isinstance(act, acts.Number) and act.value is not None:
        return acts.RestateNumber(
            value=act.value, words=act.words, span=act.span, function="correction"
        )
    return act


def _as_volume(act: Act) -> Act:
    """ "Is 18 enough": where it is asked whether a box fits, a number is that box's volume."""
    if isinstance(act, acts.Number) and act.value is not None and act.value >= 3:
        return acts.SetVolume(volume=act.value, words=act.words, span=act.span, doubts=act.doubts)
    return act


def _told(clause: Clause) -> Clause:
    """The clause without the words that make it a question: "should I take out the switch"."""
    elements = list(clause.elements)
    at = next((place for place, e in enumerate(elements) if e.tag == "if" and place), None)
    takes = _TAKES_OUT.search(clause.line) is not None
    if at is not None and _describes(elements[:at], clause.line) and not takes:
        elements = [*elements[:at], *elements[at + 1 :]]
        at = None
    if at is not None and any(e.found is not None or e.tag.startswith("<") for e in elements[at:]):
        elements = elements[at + 1 :]
    else:
        match = _STRIPPED.match(clause.line)
        if match:
            drop = clause.line.count(" ", 0, match.end()) + 1
            elements = elements[drop:]
    while len(elements) > 1 and elements[0].found is None and elements[0].tag in _SUBJECTS:
        elements = elements[1:]
    while elements and elements[-1].found is None and elements[-1].tag in _TAIL:
        elements = elements[:-1]
    if not elements:
        elements = clause.elements[-1:]
    made = Clause(
        elements, line=" ".join([e.tag for e in elements]), opens=clause.opens, closes=clause.closes
    )
    return made


#: Behind "if": what would be done to a box that is there.
_TAKES_OUT = lazy_pattern(
    r"\bif (?:i|we|you|they|it) (?:[a-z]+ )?(?:took|take|takes|remove|removed|swap|swapped|replace"
    r"|replaced|change|changed|drop|dropped|lose|lost|add|added)\b"
)


def _asked_for(clause: Clause) -> list[Act]:
    """What is to go in where something else comes out: "can I get a dimmer in an 18 if I take out
    the switch"."""
    at = next((place for place, e in enumerate(clause.elements) if e.tag == "if"), 0)
    if not at or _TAKES_OUT.search(clause.line) is None:
        return []
    asked = [e.found for e in clause.elements[:at] if e.found and not e.tag.endswith(":d>")]
    return [made for found in asked if (made := thing_of(found)) is not None]


def _describes(elements: Sequence[Element], line: str) -> bool:
    """Whether what stands before an "if" is a box with what goes in it: "can I get three 14-2s
    into an 18 if the clamps are outside" supposes all of that."""
    kinds = {element.found.kind for element in elements if element.found is not None}
    box = bool(kinds & {"box_volume", "box_size"}) or _INTO.search(line) is not None
    return box and not kinds.isdisjoint(THINGS)


def described(
    telling: Telling, following: Sequence[Clause], words: str, span: tuple[int, int]
) -> list[Act]:
    """A supposition that describes a box, where none is described yet."""
    inner = suppose(telling, following, words, span)
    return [replace(one, asks_fit=True) if isinstance(one, acts.Suppose) else one for one in inner]


def is_about(clause: Clause) -> bool:
    """ "How about a 4 square deep": begins with words that suppose and ask at once."""
    return _HOW_ABOUT.match(clause.line) is not None
