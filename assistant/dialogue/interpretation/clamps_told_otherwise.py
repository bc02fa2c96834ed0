"""A yes or no about the clamps in the place of the one that was told: "I told you no clamps but now
I see them", "my bad on the clamps, that box hasn't got any". Both at once, or anything told beside
it, leave the words as they were read."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Literal

from boxaloud.assistant.dialogue.interpretation.said_beside_sizes import of_more
from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Utterance
from boxaloud.grammar.clauses.act_kinds import is_thing
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
    r"|\b(?:take|took|taking) (?:that|it|this|what i said) back (?:about|on|regarding)"
    rf" (?:the |those |no |there being )*{_CLAMPS}\b"
    rf"|\b(?:change|switch|flip|put|set|turn|make|mark) (?:the |those |that )?{_CLAMPS}(?: back)?"
    r"(?: (?:down|answer|part|thing|line))?(?= (?:to|as|over to|from)\b)"
    rf"|\b(?:scratch|strike|forget|cancel|never mind) (?:the |that |my |what i said about )?"
    rf"(?:no |none )*{_CLAMPS}\b|\bfrom (?:no|yes) (?=to\b)|\bnot (?:no|none)\b"
)
_IN = (
    r"(?:in there|inside|in it|in here|in the box|built[- ]in|molded in|screwed in"
    r"|(?:down |up |back )*in the (?:back|bottom|corners?|sides?|ends?)"
    r"|(?:in|at|on) (?:each|both|either) (?:ends?|sides?)|tucked (?:down |up |back )?behind)"
)
_SOME = (
    rf"(?:them|'em|some|one|any|both|(?:the |those |a pair of |a couple of |two |both )?{_CLAMPS})"
)
#: Where they are is said, or it is open whether they count: "wait, there are clamps".
_YES = lazy_pattern(
    r"\bbuilt[- ]in\b|\bso does this one\b"
    r"|\b(?:set|row|pair|couple|bunch|lot|two) of (?:them|'em)(?:,? all| both)* ?(?<! )"
    rf"(?:,? {_IN})+"
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
    r"|\b(?:broke|broken|knocked|snapped|busted|ripped|tore|torn|cut|chiseled|twisted|pried|popped)"
    rf"(?: (?:the|those|both|all|of|out|off))* {_CLAMPS}(?: (?:clean|right))? (?:out|off|away)\b"
    rf"|\b{_CLAMPS}(?:'ve|'s| have| has| are| is| were| was| got| both| all| been)+ (?:broken"
    r"|knocked|snapped|busted|ripped|torn|cut|chiseled|twisted|pried|popped)(?: (?:clean|right))?"
    r" (?:out|off|away)\b|\b(?:nothing|nary a one|not a one|zero|no such thing)\b"
)
_BACK = lazy_pattern(
    r"(?i)\b(?:take|took|taking) (?:that|it|this|what i said) back (?:about|on|regarding)"
    rf" (?:the |those |no |there being )*{_CLAMPS}\b"
)
_WEIGHS = lazy_pattern(
    r"\b(?:if|suppose|pretend|would|could|might|maybe|think|guess|probably|should|how|what|which"
    r"|why|more|another|extra|also|cables?|wires?|switch(?:es)?|recept\w*|outlets?|gfcis?|dimmers?"
    r"|devices?|grounds?|conductors?|studs?|yokes?|hickeys?|connectors?|lock ?nuts?|outside|next"
    r"|other|undo|cubic|inch\w*|ring|only|except|but one|stand|count"
    r"|in the way|take|took|remov\w*|pull\w*|cut|tell whether|whether|can't tell|not sure|unsure"
    r"|screws?|tight|loose|broken|bent|wrong with|out there"
    r"|truck|van|trailer|warehouse|drawer|tool ?box"
    r"|over there|garage|attic|basement|kitchen|hall|upstairs|downstairs|pipe|conduit"
    r"|i'll|after (?!all)|later|tomorrow|know"
    r"|(?:he|she|they)(?:'s|'re| is| are) (?:wrong|mistaken|lying|full of))\b|\?"
)
#: What was taken for a clamp and is none, that they count after all, and what is left of them: as
#: much as what stands behind the arrow.
_TURNS = (
    (_BACK, " "),
    (
        lazy_pattern(
            r"\b(?:what|the thing|that thing|the part|that part)(?: that)? (?:i|we|he)(?:'d| was"
            r"| had| have|'ve)? (?:calling|called|took for|taken for|counted as|counting as"
            r"|figured was|thought was|had down as|said was|marked as)(?: an?| the| some)? clamps?"
            r"(?:'s| is| was| are| were| turned out to be"
            r"| turns out to be)(?: (?:just|only|really|the|an?|some))* (?:[a-z]+ )?[a-z]+\b"
        ),
        " ",
    ),
    (
        lazy_pattern(
            r"\b(?:(?:you|i|we)(?:'d| had)? )?(?:better|go ahead and|might as well|got to|gotta"
            r"|have to|need to) (?:count|figure|put|mark|add|include)(?: in| down)?"
            rf" (?:the |those |some )?{_CLAMPS}(?: in| down)?(?: after all| too| as well| then)*"
        ),
        "there's clamps inside ",
    ),
    (
        lazy_pattern(
            r"\b(?:and |so )?(?:there's |there is |it's |with )?(?:just|only|nothing but)(?: the"
            r"| an?| some)?(?: (?:empty|bare|old))*(?: screws?| clamp)? ?(?:holes?|screws?|stubs?)"
            r"(?: (?:left|now|there|in it|where (?:it|they) (?:was|were)))*"
        ),
        " ",
    ),
    (
        lazy_pattern(
            r"\b(?:(?:hid\w*|tucked|buried|jammed|folded) )?(?:under|behind|beneath|below)(?: all)?"
            r" (?:the|that|those|my) (?:wires?|cables?|insulation|conductors|grounds?|splices)\b"
        ),
        " ",
    ),
)
_UNPOINTED = lazy_pattern(r"\b(has|have|does|do|is|are|was|were|had|did|could|ai)nt\b")
#: No clamp was broken off.
_UNBROKEN = lazy_pattern(
    r"\b(?:nearly|almost|never|not|hardly|without|(?:did|have|has|had|was|were|is|are|do|ca"
    r"|could|wo)n't|tried|try|trying|want|wanted|about|going)"
    r"(?: (?:to|ever|even|actually|been|yet|get|quite))*"
    r" (?:br[eo]ak\w*|broke\w*|knock\w*|snap\w*|bust\w*|rip\w*|t[oe]ar\w*|torn|cut\w*|chisel\w*"
    r"|twist\w*|pr[iy]\w*|pop\w*|t[ao]k\w*|took|pull\w*)\b"
)
_SIDES = lazy_pattern(
    r"\b(?:both|either|each) (?:ends?|sides?)\b|\b(?:a pair|two of (?:them|'em))\b"
)


def clamps_told_otherwise(read: Utterance, state: State) -> Utterance:
    """The utterance with the clamps put right; else `read` as it is."""
    if state.clamps not in ("none", "inside") or state.pending or _is_of_more(read):
        return read
    words = _UNPOINTED.sub(r"\1n't", read.heard.lower().replace("’", "'").strip())
    if "clamp" not in words:
        return read
    for turn, worth in _TURNS:
        words = turn.sub(worth, words)
    if _UNBROKEN.search(words):
        return _left_in(read, words)
    if _WEIGHS.search(words):
        return read
    now = _said(words)
    if now is None or now == state.clamps or _is_read(read, now):
        return read
    act = acts.SetClamps(
        where=now, words=read.heard.strip(), span=(0, len(read.heard)), function="correction"
    )
    return replace(read, acts=(act,), unread=())


def _left_in(read: Utterance, words: str) -> Utterance:
    """ "Never broke the clamps off": they are as they were."""
    off = [isinstance(act, acts.SetClamps) and act.where == "none" for act in read.acts]
    if not off or not all(off) or re.search(r"\b(?:going|about|want\w*|no|there)\b", words):
        return read
    return replace(read, acts=(acts.Keep(words=read.heard.strip(), span=(0, len(read.heard))),))


def _is_of_more(read: Utterance) -> bool:
    """Whether it is of more; "I take that back about the clamps" takes back nothing else."""
    if any(isinstance(act, acts.Undo) for act in read.acts) and _BACK.search(read.heard):
        read = replace(read, acts=tuple(act for act in read.acts if not isinstance(act, acts.Undo)))
        return bool(read.acts) and of_more(read)
    return of_more(read)


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
    others = (acts.NoneOfThem, acts.Deny, acts.Undo)
    if any(isinstance(act, others) or is_thing(act) for act in read.acts):
        return False
    return bool(told) and told[-1].where == now and not any(run.weighty for run in read.unread)
