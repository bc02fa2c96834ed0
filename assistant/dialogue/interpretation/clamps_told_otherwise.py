"""A yes or no about the clamps in the place of the one that was told: "I told you no clamps but now
I see them", "my bad on the clamps, that box hasn't got any". Both at once, or anything told beside
it, leave the words as they were read."""

from __future__ import annotations

from dataclasses import replace
from typing import Literal

from boxaloud.assistant.dialogue.interpretation.said_beside_sizes import of_more
from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Utterance
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.rewriting.spoken_values import SPOKEN_VALUE

_CLAMPS = r"(?:(?:cable |internal |built-in |inside |wire )?clamps?)"
_PAST = (
    r"(?:i|we|he|you)(?:'d|'ve| had| have)?(?: just)? (?:told you|said|say|told|gave you|had"
    r"|put(?: down)?|wrote|called|thought|figured|swore|was thinking|answered|got)"
)
#: What was told before, or that it was wrong: it tells nothing of how it is.
_TOLD = lazy_pattern(
    rf"\b{_PAST}(?: (?:that|there|it|the box|was|were|are|is|had|has|down))*"
    rf"(?: (?:no|none|not any|some|the|zero|yes to|no to|without|had))*(?: {_CLAMPS})?"
    r"(?: (?:inside|in (?:it|there|here)))?\b"
    rf"|\b(?:wrong|mistaken|off|my bad|my mistake|my fault|sorry|bad info|lied|fibbed|goofed|messed"
    rf" up|screwed up|blew it|mistake|correction|take back|change of (?:mind|story))(?: [a-z]+)?"
    rf" (?:about|on|with|for|regarding|what i said about) (?:the |those |that |no |there being"
    rf" )*{_CLAMPS}\b"
    rf"|\b(?:change|switch|flip|put|set|turn|make|mark) (?:the |those |that )?{_CLAMPS}(?: back)?"
    r"(?: (?:down|answer|part|thing|line))?(?= (?:to|as|over to|from)\b)"
    rf"|\b(?:scratch|strike|forget|cancel|never mind) (?:the |that |my |what i said about )?"
    rf"(?:no |none )*{_CLAMPS}\b|\bfrom (?:no|yes) (?=to\b)|\bnot (?:no|none)\b"
)
_IN = (
    r"(?:in there|inside|in it|in here|in the box|built[- ]in|molded in|screwed in|in the back"
    r"|(?:in|at|on) (?:each|both|either) (?:ends?|sides?)|tucked (?:down |up |back )?behind)"
)
_SOME = (
    rf"(?:them|'em|some|one|any|both|(?:the |those |a pair of |a couple of |two |both )?{_CLAMPS})"
)
#: Where they are is said, or it is open whether they count: "wait, there are clamps".
_YES = lazy_pattern(
    r"\bbuilt[- ]in\b|\bso does this one\b"
    rf"|\b(?:they're|they are|it's|there's|there are|those are|{_CLAMPS} (?:are|is)|have|has|sits?"
    rf"|got|found|see|spot|are|is)(?: (?:all|right|both|sure|really|actually|got|a pair|two of))*"
    rf"(?: {_SOME})? {_IN}"
)
_NO = lazy_pattern(
    rf"\b(?:to|as|is|it's|that's) (?:a )?(?:no|none|zero|zip)\b|\bno {_CLAMPS}|\bnone\b"
    r"|\b(?:has|have|does|do|is|are|was|were|ai|had|got|ca|did)n't"
    rf"(?: (?:got|have|see|find|be|even|actually))*(?: {_SOME}| a single one|$|[.,;!])"
    r"|\b(?:not|without|never had|ain't got|no longer has)(?: got| have)?"
    rf" (?:any|a|one|{_CLAMPS})\b"
    r"|\b(?:nothing|nary a one|not a one|zero|no such thing)\b"
)
_WEIGHS = lazy_pattern(
    r"\b(?:if|suppose|pretend|would|could|might|maybe|think|guess|probably|should|how|what|which"
    r"|why|more|another|extra|also|cables?|wires?|switch(?:es)?|recept\w*|outlets?|gfcis?|dimmers?"
    r"|devices?|grounds?|conductors?|studs?|yokes?|hickeys?|connectors?|lock ?nuts?|outside|next"
    r"|other|undo|cubic|inch\w*|ring|only|except|but one|stand|count"
    r"|in the way|take|took|remov\w*|pull\w*|cut|tell whether|whether|can't tell|not sure|unsure"
    r"|screws?|tight|loose|broken|bent|wrong with|out there"
    r"|over there|garage|attic|basement|kitchen|hall|upstairs|downstairs|pipe|conduit"
    r"|i'll|after (?!all)|later|tomorrow|know"
    r"|(?:he|she|they)(?:'s|'re| is| are) (?:wrong|mistaken|lying|full of))\b|\?"
)
_SIDES = lazy_pattern(
    r"\b(?:both|either|each) (?:ends?|sides?)\b|\b(?:a pair|two of (?:them|'em))\b"
)


def clamps_told_otherwise(read: Utterance, state: State) -> Utterance:
    """The utterance with the clamps put right; else `read` as it is."""
    if state.clamps not in ("none", "inside") or state.pending or of_more(read):
        return read
    words = read.heard.lower().replace("’", "'").strip()
    if "clamp" not in words or _WEIGHS.search(words):
        return read
    now = _said(words)
    if now is None or now == state.clamps or _is_read(read, now):
        return read
    act = acts.SetClamps(
        where=now, words=read.heard.strip(), span=(0, len(read.heard)), function="correction"
    )
    return replace(read, acts=(act,), unread=())


def _said(words: str) -> Literal["none", "inside"] | None:
    """Where they are said to be now; None where that is open, or of more than clamps."""
    now = _TOLD.sub(" ", words)
    absent, there = _NO.search(now) is not None, _YES.search(_NO.sub(" ", now)) is not None
    if absent == there or SPOKEN_VALUE.search(_SIDES.sub(" ", now).replace("one", "   ")):
        return None
    return "none" if absent else "inside"


def _is_read(read: Utterance, now: str) -> bool:
    """Whether it is read so already, with every word that weighs in it."""
    told = [act for act in read.acts if isinstance(act, acts.SetClamps)]
    if any(isinstance(act, acts.NoneOfThem | acts.Deny) for act in read.acts):
        return False
    return bool(told) and told[-1].where == now and not any(run.weighty for run in read.unread)
