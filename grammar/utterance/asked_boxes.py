"""How a question names the box that it is about: "is the den over?", "what's kitchen at".

The grammar knows the forms; which boxes there are, and what they may be called, it is told.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import lru_cache

from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.headings import ROOMS
from boxaloud.grammar.utterance.mentioned_boxes import FIGURED, LEAD, CalledBox, Mention

_BOXES = 256
"""Boxes of which it is remembered how they are asked about, which hangs on their names alone."""
_ASKING = (
    r"(?:is|are|was|were|wasn't|isn't|does|do|did|how|how's|hows|what|what's|whats|will|would"
    r"|which)"
)
#: One of these stands in every question by which a box is asked about.
_SIGNS = ("?", "is", "are", "was", "were", "do", "did", "how", "what", "will", "would", "which")


def asked_of_box(heard: str, called: Sequence[CalledBox]) -> Mention | None:
    """The box that a question is about: "is the den over?", "and the den?"."""
    low = heard.lower()
    if not any(sign in low for sign in _SIGNS):  # most of what is said: no box is looked for in it
        return None
    for box in called:
        numbered = FIGURED.fullmatch(box.said) or _WITH_NUMBER.fullmatch(box.said)
        if (numbered and _asked_by_number(heard, box)) or _asked_how_full(heard, box):
            return Mention(box.name, 0, len(heard), "how full is ")
        found = _about(box).match(heard)
        if found is not None:
            return Mention(box.name, *found.span("mention"))
    return None


@lru_cache(maxsize=_BOXES)
def _about(box: CalledBox) -> re.Pattern[str]:
    return re.compile(rf"(?i)\s*{LEAD}{_ASKING}\b[^.;,]*?\b(?P<mention>the {box.may})(?!\w)")


_STANDS = (
    r"(?:(?:at|now|still|too|also|then|yet|ok|okay|good|fine|over|full|under|fit|fits|pass|passing"
    r"|work|sit|sitting|stand|standing|look|looking|do|doing|come|coming|came|out|again)\b ?)+"
)


def _asked_how_full(heard: str, box: CalledBox) -> bool:
    """ "And the den?", "what's the den at", "where does kitchen stand", "did porch fit"."""
    alone, stands = _how_full(box)
    return bool(alone.fullmatch(heard) or stands.fullmatch(f"{heard.strip(' ?.!')} "))


@lru_cache(maxsize=_BOXES)
def _how_full(box: CalledBox) -> tuple[re.Pattern[str], re.Pattern[str]]:
    """The name alone, and what is asked of it."""
    alone = (
        rf"(?:(?:how|what) about |and )?(?:the )?{box.may}(?: then| again| now)?(?:,? please)?\s*\?"
    )
    the = "(?:the )?" if box.is_room or box.named_alone else "the "
    asking = rf"(?:(?:what|where|how)(?:['’]s| is| was| does| did)|{_ASKING})"
    stands = rf"{asking} {the}{box.may} {_STANDS}"
    bare = rf"how(?:['’]s| is| was) {the}{box.may} "
    return (
        re.compile(rf"(?i)\s*{LEAD}{alone}"),
        re.compile(rf"(?i)\s*{LEAD}(?:{stands}|{bare})[?.! ]*"),
    )


_BEFORE = lazy_pattern(
    rf"(?i)\s*{LEAD}(?:(?:did|does|was|is|how did|how is|how was) )?the"
    r" (?:(?:one|box) (?:right |just )?before(?: that| this| it)?(?: one| box)?"
    r"|previous (?:one|box)),?"
    r" (?:(?:did|does|was|is|how did|how is|how was) (?:it|that|that one) )?(?:still )?"
    r"(?:fit|ok|okay|over|full|good|fine|do|doing|work|come out|pass)(?: too| as well| then)?\s*\?"
)


def asked_of_one_before(heard: str) -> bool:
    """ "The one before that, did it fit?": the box before the one at hand is asked about."""
    return _BEFORE.fullmatch(heard.strip()) is not None


_WITH_NUMBER = lazy_pattern(r"(?i)[a-z]+(?: [a-z]+)? \d{1,4}[a-z]?")


def _asked_by_number(heard: str, box: CalledBox) -> bool:
    """ "Is 210 still ok", "what about E3", "what's room 20 at", "20 was bad, right?"."""
    return any(form.fullmatch(heard) for form in _of_number(box))


@lru_cache(maxsize=_BOXES)
def _of_number(box: CalledBox) -> tuple[re.Pattern[str], ...]:
    number = rf"(?:room |number |classroom )?{box._words}"
    forms = [
        rf"(?:how|what) about {number}(?: then| again| now)?[ ?.!]*",
        rf"{number} (?:is|was) (?:still |also )*(?:the )?(?:bad|over|full|good|fine|ok|okay|worst"
        r"|tight|tightest|fullest)(?: one)?,? (?:right|huh|yeah|then|correct)[ ?.!]*",
        rf"{_ASKING}\b {number} (?:still |too |also |now |really )*(?:ok|okay|good|fine|over|full"
        r"|at|overfull|legal|alright|looking|doing|in trouble)[ ?.!]*",
    ]
    if _WITH_NUMBER.fullmatch(box.said):  # "what was unit 12?" names no wire
        forms.append(rf"(?:how|what)(?:['’]s| is| was) {number}(?: again| at| like| doing)*[ ?.!]*")
    return tuple(re.compile(rf"(?i)\s*{LEAD}{form}") for form in forms)


_OF_A_PLACE = lazy_pattern(
    rf"(?i)\s*{LEAD}{_ASKING}\b[^.;,]*?\b(?P<mention>the "
    rf"(?P<name>(?:[a-z]+ )??(?:{'|'.join(sorted(ROOMS - {'box'}))}))(?: box| one)?)(?!\w)"
)


def asked_of_place(heard: str) -> Mention | None:
    """The place, in small letters, that a question is about: "is the pantry over?"."""
    found = _OF_A_PLACE.match(heard)
    return found and Mention(found["name"].lower(), *found.span("mention"))
