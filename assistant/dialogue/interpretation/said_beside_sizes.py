"""What is said beside a size that is put right, and changes nothing: "the other two I had right",
"no red anywhere", "the ground's still a 14", "so it's two and two"."""

from __future__ import annotations

import re

from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Utterance
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.rewriting.spoken_values import SPOKEN_VALUE
from boxaloud.grammar.utterance.size_claims import SizeClaim, gauge
from boxaloud.grammar.utterance.size_frames import BARE_SIZE
from boxaloud.rules.contents import Grounds

_FEW = r"(?:[2-9]|two|three|four|five|six|seven|eight|nine|ten|eleven)"
_CABLE = r"(?:(?:14|12|10|8|6|fourteen|twelve|ten|eight|six)[-/ ](?:[234]|two|three|four)(?:'?s)?)"
_SIZE = rf"(?:{_CABLE}|(?:two|three|four|2|3|4)[- ]wires?|{BARE_SIZE}(?:'?s)?)\b"
_COLOR = r"(?:red|black|white|blue|yellow|orange|grey|gray|brown|green|purple)"
_IT = r"(?:it's|it is|they're|they are|that's|those are|these are|that is|i see)"
_ARE = r"(?:'s|'re| is| are| was| were)"
_REST = (
    rf"(?:the )?(?:rest(?: of (?:them|'em|those|the {_SIZE}))?|others?"
    rf"|other (?:one|{_FEW})(?: (?:cables?|ones?))?|ones? left)"
)
_FINE = r"(?:right|fine|ok|okay|good|correct(?:ly)?)"
_AS_TOLD = (
    r"(?:like|as|what|the way) (?:i|we|you)(?:'d| had|'ve| have)? (?:said|say|told|gave|had)"
    r"(?: (?:you|it|them))?(?: before| already)?"
)
_SO = rf"(?:still|all|just|unchanged|same|the same|as is|put|{_FINE}|{_AS_TOLD})"
#: What is said of the rest, and what they are not.
_OF_REST = (
    rf"\b(?:and |but )?{_REST},? (?:i|we|you) (?:had|got|have|said|gave you)"
    rf"(?: (?:that|those|them))? {_FINE}",
    rf"\b(?:and |but )?{_REST}(?:{_ARE}| stays?| remains?| ok| fine)"
    rf"(?: {_SO}| (?:only |just )?spliced(?: through)?)*(?=\W|$)(?! {_SIZE}| an? )",
    rf"\b(?:like|same as|just like) (?:the )?(?:rest|others?|other (?:one|ones|{_FEW})"
    r"|(?:(?:its?|his|her) )?(?:budd(?:y|ies)|mates?|partners?|neighbou?rs?"
    r"|twins?|brothers?))",
    rf"\b(?:and |but )?not (?:an? |the )?{_SIZE}",
    rf"\b(?:they|those|these|it|that){_ARE}?"
    rf" ?(?:not|aren't|isn't|ain't|weren't|wasn't) (?:an? |the |really |any )?{_SIZE}",
    r"\b(?:neither|none|not one)(?: one| of (?:them|'em|those|these))?"
    rf"(?:'s| is| are)? (?:an? )?{_SIZE}",
)
#: A colour brings no conductor in, nor does the sum of the parts.
_OF_WIRES = (
    rf"\b(?:it|that one|that|one)(?:'s got| has| carries|'s carrying| brings) (?:an?|the) (?:extra "
    rf"|other |second )?{_COLOR}(?: (?:wire|one))?\b",
    r"\b(?:there's|there is|i see|has|have|got|it's got|and|but)? ?(?:with )?"
    rf"(?:no|not an?|an?|the|some|any|without(?: a)?)? ?\b{_COLOR}"
    r"(?: (?:wire|one|conductor|tape|marker))*(?:'s| is| was)?"
    r"(?: (?:anywhere|at all|capped(?: off)?|in (?:it|them|there|either|any of them|those)"
    rf"|on (?:it|them|the {_COLOR})|back there|taped(?: off)?|folded back|showing|to be found"
    r"|not (?:used|hooked up)|cut off))*",
    r"\b(?:they|those|these|that|it)(?:'d| would| should) be\b",
    r"\b(?:so|which makes|that makes|making|that's|it's)(?: it(?:'s| is)?| that(?:'s| is))?"
    rf" (?:{_FEW}|one)"
    rf" (?:and|of each|each)(?: (?:{_FEW}|one))?(?: of each)?"
    r"(?=\W*(?:please\W*)?$)",
    rf"\btimes {_FEW}\b|\bthe extra pair\b|\b(?P<half>two|three|four) and (?P=half)(?=\W*$)",
    # "I read the print on the jacket wrong": how the slip came about
    r"\b(?:i|we) (?:had|got|read|was (?:reading|looking at)|were looking at|looked at|took"
    r"|gave you|told you|said)(?: (?:the|that|it|them|print|printing|gauge|size|jacket|label|on"
    r"|number|cable|wire))*,? (?:all )?(?:backwards"
    r"|wrong(?: (?:gauge|size|reel|roll|print|jacket|one|number))?)\b",
    r"\b(?:i'm|i am|i was) (?:just |only )?look(?:ing|in'?) at the (?:print|jacket|label|printing)"
    r"(?: on (?:the|this|that) (?:cable|jacket|wire))?\b",
    r"\b(?:the|that) (?:size|gauge|number)(?:'s| is| was) (?:all )?wrong\b",
    # "it's the multiwire for the kitchen", "the control wires": what they are there for
    r"\b(?:it|that|they|those)(?:'s|'re| is| are) (?:the|a|my) (?:multi ?-?wires?|home ?runs?"
    r"|feeds?)(?: (?:for|to) the [a-z]+)?\b|, the (?:control|switch|travell?er|lighting|fan|signal)"
    r" (?:wires|wiring|ones|conductors)(?=\W*$)",
    # "this is the kitchen, so it's yellow": why it is so
    r"\b(?:this|it)(?:'s| is) (?:on |for |all )?(?:the |a )?(?:kitchen|bath(?:room)?|laundry|garage"
    r"|basement|hall|bedroom|lighting)(?: (?:side|circuit|run|leg|line))?(?=\W*(?:so\b|[.,;!]|$))",
    r"\b(?:peeled|skinned|stripped|folded|bent) (?:it|that|them|the jacket|the sheath) back\b",
    r"\btook a(?: good| better| second)? look\b|\b(?:like|as) (?:i|we) (?:said|told you)\b",
    r"\bno (?:doubt|question|kidding|lie|joke|mistake|wonder)\b|\bno,|\bnope\b|\bknow what\b",
)
_REST_REMARKS = tuple(map(lazy_pattern, _OF_REST))
_WIRE_REMARKS = tuple(map(lazy_pattern, _OF_WIRES))
_GROUND = lazy_pattern(
    r"\b(?:and |but )?(?:it's )?(?:just |only )?(?:the )?(?:grounds?|greens?|bare(?: one)?)"
    r"(?:'s| is| are| stays?| that's)(?: (?:still|only|just|a|an|that's))*"
    rf" (?P<size>{BARE_SIZE})(?:s\b)?(?: {_AS_TOLD})?(?![\w-])"
)
#: A size said once more of what was put right, or of what stays: "it's just some old twelve".
_SAME = lazy_pattern(
    rf"\b(?:and |but )?(?P<who>{_IT}|they stay|stay|those stay|still)"
    r"(?: (?:all|just|some|old|plain|only|a|an|still))*"
    rf" (?P<size>{BARE_SIZE})(?:'?s)?(?![-/ ](?:[234]|two|three|four)\b)\b"
)
_WEIGHS = lazy_pattern(
    r"\b(?:no|not|never|none|neither|without|another|more|extra|also|plus|both|couple|pair|half"
    r"|add\w*|remov\w*|take|took|taken|pull\w*|put|swap\w*|switch\w*|replac\w*|chang\w*|cut|undo|scratch"
    r"|forget|back|box|boxes|cubic|inch\w*|clamps?|connector\w*|receptacle\w*|outlet\w*|dimmer\w*"
    r"|gfcis?|device\w*|fixture\w*|grounds?|ground|pigtails?|cables?|wires?|conductors?|studs?|yoke"
    r"|if|would|could|should|suppose|pretend|imagine|maybe|might|think|guess|probably|what|which"
    r"|how|why|does|do|is it|are they|say|let's|next|ring|cover|gang|deep|red|old|gone|missing"
    r"|panel|upstairs|downstairs|attic|basement|garage|kitchen|hall|plans?|truck|van|shop"
    r"|told me)\b|n't\b|\?|\d"
)

#: What leads to another box or goes back, or only supposes.
_OF_MORE = (
    acts.NextBox, acts.OpenBox, acts.DeleteBox, acts.NewJob, acts.Undo, acts.Redo,
    acts.StartOver, acts.Suppose, acts.RoomFor,
)  # fmt: skip

#: Who only doubts or wishes it, or says that it is not so, tells nothing of the box.
_DOUBTED = lazy_pattern(
    r"\b(?:doubt|wish|hope|supposedly|used to|(?:don't|do not|didn't) (?:think|believe|buy)"
    r"|but (?:he|she|they)(?:'s| is|'re| are) (?:all )?(?:wrong|lying|mistaken))\b"
)
_DENIED = lazy_pattern(r"\b(?:not|never|hardly) $")


def doubted(before: str, behind: str, claim: SizeClaim) -> bool:
    """Whether what is said between these words is doubted, wished or denied. "Not the 12-3, it's a
    12-2" puts right."""
    if _DENIED.search(before) and not claim.definite:
        return True
    return any(_DOUBTED.search(words) is not None for words in (before, behind))


def of_more(read: Utterance) -> bool:
    """Whether an utterance is of another box, goes back, only supposes, or is of no box at all."""
    told = any(run.weighty for run in read.unread) or bool(read.acts)
    return not told or any(isinstance(act, _OF_MORE) for act in read.acts)


def nothing_else(before: str, behind: str, claim: SizeClaim, state: State) -> bool:
    """Whether the words around a size put right bring in, deny or ask nothing."""
    return _is_light(before, claim, state) and _is_light(behind, claim, state)


def _is_light(words: str, claim: SizeClaim, state: State) -> bool:
    for told in _GROUND.finditer(words):
        if not _has_ground(state, gauge(told["size"])):
            return False
    words = _GROUND.sub(" ", words)
    for remark in _REST_REMARKS:
        words = remark.sub(" ", words)
    for told in _SAME.finditer(words):
        if not _is_known(told, claim, state):
            return False
    words = _SAME.sub(" ", words)
    for remark in _WIRE_REMARKS:
        words = remark.sub(" ", words)
    return not _WEIGHS.search(words) and not SPOKEN_VALUE.search(_without_one(words))


def _without_one(words: str) -> str:
    """ "One" beside a size points; it counts nothing."""
    return words.replace("one", "   ")


def _has_ground(state: State, awg: int) -> bool:
    return any(
        isinstance(item.content, Grounds) and item.content.awg == awg for item in state.items
    )


def _is_known(told: re.Match[str], claim: SizeClaim, state: State) -> bool:
    """Whether a size said again is the one that is told, or of what stays one of the box."""
    awg = gauge(told["size"])
    if awg == claim.now.awg:
        return True
    stays = told["who"].endswith(("stay", "still"))
    return stays and any(getattr(item.content, "awg", None) == awg for item in state.items)
