"""Clauses that suppose without an "if": thought aloud, asked by another, by another edition."""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.lazy_patterns import lazy_pattern

#: What supposes wherever in a clause it stands: "oof what if", "I was wondering what happens if".
SUPPOSED_ANYWHERE = (
    r"(?:what|how about|what about|what happens|what would happen) if"
    r"|suppos(?:e|ing) (?:that )?(?:i|we|you|they|it|that|there|he|she|the|this|those)"
    r"|(?:imagine|pretend) (?:i|we|you|they|it|that|there|he|she)"
)
#: "maybe I could use a 20.3": thought aloud, not done.
_MUSING = lazy_pattern(
    r"^(?:(?:and|so|but|ok|okay|well|hmm|or|now|actually|wait|um|uh|er|oh) )*"
    r"(?:(?:maybe|perhaps|possibly|i guess|i think|i suppose) )*"
    r"(?:i|we|you|they|he) (?:could|might)(?! have)\b(?! not)"
)
#: "Foreman asks if one more 12-2 would fit": what somebody else asks is supposed.
_ASKED_IF = lazy_pattern(
    r"\b(?:asks?|asked|asking|wonders?|wondered|wants? to know|wanted to know)"
    r"(?: me| us| you| him| her| again| now)? (?:if|whether)\b"
)
#: "Under 2017 it would be less": what another edition would make of it.
_BY_EDITION = lazy_pattern(
    r"<edition[^>]*>(?: (?:it|this|that|they|these|the box|everything|all))? (?:would|could|might)"
    r" (?:all |still |also |even |just )*(?:be|fit|pass|have|give|make|count|allow|work|let|come|go"
    r"|<skip)"
)
#: "The 12-3 could be a 14-3": thought of what is there.
_MIGHT_BE = lazy_pattern(
    r"^(?:(?:and|so|but|ok|okay|well|or|maybe|perhaps) )*(?:it|that|this|they|those|the <n:1>"
    r"|the other(?: <n:1>)?|(?:<n:\d+> of (?:them|those|these|the )?)?<(?:cable|device|conductors)"
    r":[^>]*:d>|<n:\d+> of (?:them|those|these)) (?:could|might) (?:also |just |all )?"
    r"(?:be|become|get|go)\b"
)
#: "With a 14-3 added, how would it be".
_ASKED_BEHIND = lazy_pattern(
    r"> .*\bhow (?:would|will|does|do) (?:it|that|this|we|things) (?:be|do|look|come out|fare)$"
)
#: "Two receptacles wouldn't have worked", "I'd never have put two in there": what was not done.
_WOULD_HAVE = lazy_pattern(
    r"\b(?:would|could|might)(?: not| never| ever| just| also| still| even| probably)* have"
    r"(?: not| never| ever| just| also| still| even)* (?:been|worked|fit|fitted|gone|put|passed"
    r"|done|used|run|pulled|stuffed|made|added|tried|crammed|helped|saved|left|bought|installed|taken"
    r"|needed|liked|held|[a-z]+ed)\b"
)
#: "So I'd need a 22.5", "we'd have to use the deep one": what it would take, and nothing is done.
_WOULD_TAKE = lazy_pattern(
    r"^(?:(?:and|so|but|ok|okay|well|or|oh|hmm|now|then|maybe|perhaps|guess|i guess|i think"
    r"|i suppose|i figure|which means|that means|looks like|in that case) )*"
    r"(?:i|we|you|it|that|they|he|she|one|this)(?: would|'d) (?:(?:also|still|then|really"
    r"|just|probably|actually|at least|like|only) )*(?:need|have|require|take)(?: to [a-z]+)?"
    r"(?: (?:a|an|the|that|this|those|one of|like|about|at least|around|out|away|to|with|in|up"
    r"|instead|bigger|another|all|other|one|<n:1>|<place[^>]*>))* <(?!yes|no)"
)
#: "Another 14-2 would be too many", "a dimmer would put it over": what would come of one more.
_WOULD_COME = lazy_pattern(
    r"^(?:(?:and|so|but|ok|okay|well|or|oh|hmm|now|then|maybe|perhaps|i guess|i think|i figure"
    r"|i bet) )*(?:<[^>]*> (?:and |or )?)*<(?:cable|device|conductors|fitting|terminal_block)[^>]*>"
    r"(?: (?:in (?:here|there|this|it)|more|of those|like that))? (?:would|'d)(?: not| never| just"
    r"| probably| definitely| surely| really| also| still| already| even)* (?:be (?:just |way "
    r"|a bit |a little )*(?:(?:<n:1> )?too (?:many|much)|over\b"
    r"|pushing|fine|okay|ok|legal|all right|good"
    r"|tight|too (?:tight|full|big)|a (?:problem|violation|squeeze|tight fit))"
    r"|(?:put|push|take|bring|send|tip|leave) (?:it|me|us|this|that|things|the box|you|him|them)\b"
    r"|make (?:it|this|that|me|us|the box) (?:too|over|fail|tight|illegal)|fit\b|pass\b|work\b"
    r"|overfill|exceed|fail\b|do it in)"
)
#: "What's it say if I add a switch": asked of what would be.
_ASKED_OF_IT = lazy_pattern(r"<dont_know[^>]*> [a-z][^<]* if (?:i|we|you|he|she|they|it)\b")
_SUPPOSE = (
    _ASKED_OF_IT,
    _WOULD_COME,
    _WOULD_TAKE,
    _WOULD_HAVE,
    _ASKED_BEHIND,
    _MUSING,
    _ASKED_IF,
    _BY_EDITION,
    _MIGHT_BE,
)


def supposes(line: str) -> bool:
    """Whether a clause, as its line of tags, tells of nothing that is so."""
    return any(said.search(line) for said in _SUPPOSE)


#: "Is a ground fault any more than a plain duplex": two things are compared, and none comes in.
_COMPARES = lazy_pattern(
    r"(?:(?:so|and|but|then|now|well|ok|okay) )*(?:is|are|does|do) (?:an? |the )?<(?:device|clamps"
    r"|fitting|grounds|cable|conductors)[^>]*> (?:[a-z]+ ){0,4}"
    r"(?:more|bigger|larger|less|smaller|fatter|different)\b.* (?:than|from) <"
)


def compares(line: str) -> bool:
    """Whether a line asks how much one thing counts beside another."""
    return _COMPARES.match(line) is not None


#: "And an eighteen?", "or a 20.3?": a box by its volume; 10, 12 and 14 may be sizes.
BOX_ASKED = lazy_pattern(
    r"(?:(?:and|or|then|so|but|maybe|ok|okay|well) )+(?:with )?an?"
    r" <n:(?:1[35-9]|[2-9]\d)(?:\.\d+)?>"
    r"(?: (?:box|<n:1>))?(?: (?:then|instead))?"
)
#: "In a 21?": by itself it asks whether what was told goes into that box.
_INTO_ANOTHER = lazy_pattern(
    r"(?:(?:and|or|so|but|ok|okay|well|then) )*(?:in|into|inside) (?:a|an|the)"
    r" <n:[1-9]\d(?:\.\d+)?>(?: (?:box|then|instead|<n:1>))*"
)


def ask_of_another_box(made: Sequence[Clause]) -> None:
    """Suppose the box that is asked about where nothing else is told before it."""
    last = made[-1] if made else None
    if last is None or last.closes != "?" or not _INTO_ANOTHER.fullmatch(last.line):
        return
    if last.mood == "declarative" and not any(clause.found for clause in made[:-1]):
        last.mood, last.modal = "conditional", True
