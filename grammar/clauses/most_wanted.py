"""Questions for the most of a thing that a box may hold, however they are put."""

from __future__ import annotations

from boxaloud.grammar.lazy_patterns import lazy_pattern

_LEAD = (
    r"(?:(?:so|and|ok|okay|but|hey|well|then|now|please|just|tell me|give me|show me|i want|i need"
    r"|determine|compute|list|state|write|name|select|what would be"
    r"|we need|say|what is|whats|find|figure out|work out|calculate|looking for|need|can you"
    r"|could you|would you|will you|do you know|i need to know|let me know|i would like to know"
    r"|i want to know|to|up to) )*"
)
_NUMBER = r"(?:number|numbers|count|amount|quantity|no|qty|#|how many)"
_LEAVE = r"(?:possible|permitted|allowed|allowable|permissible|legal)"
_WIRE = r"(?:<(?:conductors|cable|size)::d?>|# <n:[0-9]+>)"
#: What is counted where it is not said of what: "the most of them", "wires", "conductors".
_SIZE = r"<n:(?:18|16|14|12|10|8|6)>"
_THEM = r"(?:them|those|these|wires?|conductors?|such wires)"
_MORE = r"(?:more |other |additional |extra |further )*"
_YET = r"(?:(?:then|now|really|actually|still|only|just|in fact) )*"
_MAY = r"(?:can|could|may|might|will|would|should|allowed|permitted|fits?|takes?|holds?)"

_IF_MOST = (
    r"^(?:(?:so|and|but) )*(?:is|are|would) <(?:conductors|size):[^>]*> (?:be )?(?:the |my |all )*"
    r"(?:max|maximum|most|limit)\b"
)

_ASKS = lazy_pattern(
    rf"^{_LEAD}(?:(?:the|a|an|my|at|its) )*(?:max|maximum|most|greatest|highest|largest|biggest)"
    rf"(?: {_LEAVE})* {_NUMBER}(?: {_LEAVE})*(?:$| (?:of|for|in)\b)(?!.*<[a-z_]+:[0-9]+:)"
    rf"|^{_LEAD}(?:the )?(?:max|maximum) (?:of )?{_WIRE}"
    rf"|^{_LEAD}(?:the )?(?:max|maximum|most) {_THEM}$"
    rf"|^{_LEAD}(?:the )?most (?:of )?(?:{_WIRE}|{_THEM}|{_SIZE}) "
    rf"(?:(?:that|which|i|we|you|it|the|a|an|<box_[^>]*>|box|deep|one) )*{_MAY}\b"
    rf"|\b(?:room|space)(?: left| there| still)* for how many\b"
    rf"|\bhow many {_MORE}{_WIRE}.*\b(?:can|could|may|might|fits?|takes?|holds?|go)\b"
    rf"|\bhow many {_MORE}(?:{_WIRE}|{_SIZE})(?: (?:at|is) (?:the )?)? ?(?:max|maximum|most|tops)$"
    rf"|^{_LEAD}how many(?: (?:are |is )?(?:{_LEAVE}|{_MAY})(?: (?:in (?:it|there|this box)|be"
    r" (?:put|installed|placed|run) in (?:it|there)))?)?$"
    rf"|{_IF_MOST}"
    rf"|^{_LEAD}what (?:am i|are we|does (?:that|it)|do i) (?:down to|leaves? (?:me|us)(?: with)?"
    r"|get down to|end up with)(?: (?:then|now))?$"
    rf"|^{_LEAD}(?:the )?(?:number|count|#) of (?:{_WIRE}|{_SIZE}|{_THEM})"
    r" (?:that |which |i |we |you |is |are )*"
    rf"(?:{_LEAVE}|{_MAY})\b"
    rf"|^(?:{_WIRE}|{_THEM}) {_LEAVE}(?: in (?:it|there))?$"
)
#: Of these the mood is that of a question already.
_PUT = lazy_pattern(
    rf"\bhow many (?:more |of (?:the |those |these )?|at most )*(?:{_WIRE}|{_THEM})"
    rf"|\bhow <conductors::> (?:more |still |that )*(?:is |are |am |do |does |will |would |may )?"
    rf"(?:(?:i|we|you|it|that|this|the box) )?{_YET}"
    rf"(?:{_LEAVE}|leaves? (?:me|us|it)|left|remain(?:s|ing)?|get|have left|be (?:put|in))\b"
    rf"|\bhow <conductors::> (?:more |still |that )*"
    rf"(?:(?:is |are )?{_MAY}|(?:do|does|would|will) (?:i|we|you|it) (?:still )?get"
    r"|are left|is left|remain|are allowed|(?:is|does|do) <box_)"
    rf"|\bhow many (?:more )?{_MAY} (?:i|we|you|it|this|the|there|go|fit)\b"
    # "the biggest wire" is one of those that are there
    rf"|\b(?!(?:largest|biggest) (?:wire|conductor)\b)"
    rf"(?:max|maximum|most|greatest|highest|largest|biggest|limit)\b"
    rf"(?: {_LEAVE}| {_NUMBER}| of| the| on| for)*"
    rf" (?:{_WIRE}|{_THEM})"
    rf"|\b(?:number|count|limit|maximum|max) (?:of|on|for) {_SIZE}"
    rf"|\bwhat is the (?:most|max|maximum|limit)(?: number)?$"
)
#: Of what there is, or of what something counts as.
_OF_WHAT_IS = lazy_pattern(
    r"\b(?:did|do i have|have i|have we|are in|are there|did i say|you got|you have|i have now"
    r"|is in|(?<!max )(?<!maximum )(?<!the )counts?|counted|worth|equals?|count as)\b"
)


#: "All number 12. Max?"
_BARELY = lazy_pattern(rf"{_LEAD}(?:the )?(?:max|maximum|limit)$")
_IS_IT = lazy_pattern(_IF_MOST)


_APART = lazy_pattern(r" (?=(?:how many|max|maximum|most|what is the (?:most|max|maximum)) )")


def most_asked_behind(line: str) -> int | None:
    """Where such a question begins behind what is told without a break, "4 square deep how many
    12s max"; None where none does."""
    for found in _APART.finditer(line):
        told, asked = line[: found.start()], line[found.end() :]
        if "<" in told and asks_for_most(asked) and _TOLD.search(told):
            return found.start()
    return None


#: What ends a told part: a thing or a measure, and no word that the question goes on from.
_TOLD = lazy_pattern(r"(?:>|\b(?:deep|box|in it|there|clamps|inside|outside))$")


def asks_if_most(line: str) -> bool:
    """ "Is seven 14s the most": the number that it names is only thought to be that."""
    return _IS_IT.search(line) is not None


def asks_for_most(line: str, closes: str = "") -> bool:
    """Whether a clause asks for the most without a verb that asks: "max 12s in a 4 square"."""
    if closes == "?" and _BARELY.match(line):
        return True
    return _ASKS.search(line) is not None and _OF_WHAT_IS.search(line) is None


def wants_most(line: str) -> bool:
    """Whether a clause that asks wants the most of a thing: "what's the most 14s it can take"."""
    put = _ASKS.search(line) or _PUT.search(line) or _BARELY.match(line)
    return put is not None and _OF_WHAT_IS.search(line) is None
