"""Clamps that a box is said to come with: "a 20 cubic inch box with clamps"."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.clamps_affirmed import affirmed
from boxaloud.grammar.utterance.masked_words import masked

_BOX = (acts.SetVolume, acts.SetSize, acts.NameBoxKind)
_WITH = lazy_pattern(
    r"(?i)\s*(?:box |one )?(?:with|w/|w|(?:that |which |and )?(?:it )?(?:has|comes with)) *"
    r"(?:(?:the|its|built[- ]in|cable|some) )*"
)
_PLAIN = lazy_pattern(
    r"(?i)(?:(?:with|w/|w|has|comes with) )?(?:(?:the|its|built[- ]in|cable|some) )*clamps?"
)


_LEAD = lazy_pattern(r"(?i)(?:with|w/|w|has|comes with)(?= )")
#: "It has clamps", "with clamps", "there are clamps in it": said of the box, wherever it stands.
_SAID_OF_BOX = lazy_pattern(
    r"(?i)(?:^|[\s,.;])(?:(?:it|this|this one|that one|this box|that box|the box|box)"
    r"(?:['’]s got| has got| has| had| does have| comes with| came with)|with|w/)"
    r" (?:(?:the|its|built[- ]in|cable|some) )*clamps"
    r"(?! (?:out|on the|of the|and(?! (?:an?|one|two|three|four|[1-9])\b)))"
    r"|(?:^|[\s,.;])(?:got|has|have|having|with) (?:its|it['’]s) own (?:cable )?clamps\b"
    r"|(?:^|[,.;])\s*(?:(?:and|yes|yeah|yep|ok|okay|also|it),? )*has (?:(?:the|cable|some) )*clamps"
    r"(?=\s*(?:[.,;!]|$|and (?:an?|one|two)\b))"
    r"|(?:^|[,.;])\s*(?:and )?got (?:(?:the|cable|some) )*clamps(?=\s*(?:[.,;!]|$))"
    r"|clamps? (?:are |is |right |down |up |back )*(?:in it|in here|in there|in this (?:box|one))\b"
    r"|(?:^|[\s,.;])there(?:['’]s| is| are|['’]re) (?:(?:the|cable|some|two|built[- ]in) )*clamps"
    r"(?! (?:out|on the|of the|and) ?)"
    r"|clamps(?: (?:are|is))? included\b"
    r"|(?:^|[.;])\s*(?:(?:and|yes|yeah|yep|ok|okay|oh|well|hello|hi|hey|um|uh|er|so"
    r"|please|now),? )*(?:i have|i(?:['’]ve)? got|we have"
    r"|there(?:['’]s| is)|it(?:['’]s got| has)) (?:(?:the|cable|a|one|some) )*clamps?"
    r"(?=\s*(?:[.,;!]|$))"
    r"|^\s*(?:(?:and|also|plus|yes|yeah|yep|ok|okay)\b,? )+(?:(?:the|cable|some) )*clamps"
    r"(?=\s*[.!]?$)"
    r"|(?:^|[.;])\s*(?:(?:hello|hi|um|uh|er|so|ok|okay|well|please),? )*clamps? (?:i|we|it)"
    r" (?:have|has|got)(?=\s*(?:[.,;!]|$))"
)
_THERE_ARE = lazy_pattern(r"(?i)there(?:['’]s| is| are|['’]re)\b")
#: "Two 14-2s and clamps", "clamps too".
_AND = lazy_pattern(r"(?i)(?:\s+and)?\s*$")
_TOO = lazy_pattern(r"(?i)^\s*,?\s*(?:too|also|as well)\b")
_LEADS_ON = lazy_pattern(
    r"(?i)(?:(?:an?|the|and|with|this time|it['’]s|it is|i['’]ve got|there['’]s|there are|got) )+"
)
_ALONE = lazy_pattern(r"(?i)(?:and )?(?:(?:the|cable|two|some) )?clamps")
_TOLD = (*_BOX, acts.AddCable, acts.AddConductors, acts.AddDevice)
_BESIDE = (acts.AddFitting, acts.AddGrounds, acts.Ask, acts.AskUnknown, acts.Suppose)
#: "With a stud in it and clamps".
_BEHIND_ANOTHER = lazy_pattern(r"(?i)(?: in it)? and (?:(?:the|cable|some) )*")
_OUT = lazy_pattern(
    r"(?i)\b(?:outside|out side|(?<!find )(?<!figure )out|external|outer|connectors?)\b"
)
_ENDS = lazy_pattern(r"[,;:.!?]|\band (?=it\b|an?\b|one\b|two\b|three\b)")
_CLOSES = lazy_pattern(r"[.;!?](?!\d)")
_DENIED = lazy_pattern(r"(?i)\b(?:no|none|not)\b")
_UNSURE = lazy_pattern(
    r"(?i)\b(?:if|whether|not sure|know)\b|(?:n['’]?t|not|never) (?:even )?(?:look|check)(?:ed)?\b"
)


_NEAR = 16
"""Letters before and behind the word, in which it is said of what the clamps are."""


def clamps_of_box(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "A 20 cubic inch box with clamps", "it has clamps": its own, which are inside it and count,
    314.16(B)(2). Clamps that are only said to be there, or whose place is told too, are not meant:
    of the first it is asked where they are."""
    made = affirmed(made, heard)
    told = [act for act in made if isinstance(act, (acts.SetClamps, acts.Place))]
    if len(told) != 1:
        return made
    return [
        replace(act, where="inside") if act is told[0] and _is_of_box(act, made, heard) else act
        for act in made
    ]


def _is_of_box(act: Act, made: list[Act], heard: str) -> bool:
    if not isinstance(act, acts.SetClamps) or act.where != "present":
        return False
    if act.function == "correction" and not _THERE_ARE.match(act.words):
        return False
    if act.function not in ("inform", "correction"):
        return False
    said = _SAID_OF_BOX.search(heard, max(0, act.span[0] - _NEAR), act.span[1] + _NEAR)
    if said is not None and not _elsewhere(act, made, heard):
        return True
    if _PLAIN.fullmatch(act.words) is None:
        return False
    if _behind_a_fitting(act, made, heard) or _listed(act, made, heard):
        return not _elsewhere(act, made, heard)
    return any(
        isinstance(box, _BOX)
        and box.span[1] <= act.span[0]
        and _WITH.fullmatch(f"{heard[box.span[1] : act.span[0]]}{_lead(act)}") is not None
        for box in made
    )


def _listed(act: Act, made: list[Act], heard: str) -> bool:
    """ "A deep one, two 14-2s, one switch, clamps.": among what is in the box."""
    if not any(isinstance(one, _TOLD) for one in made) or not _ALONE.fullmatch(act.words.strip()):
        return False
    before = _AND.sub("", heard[: act.span[0]])
    next_to = any(isinstance(one, (*_TOLD, *_BOX)) and one.span[1] == len(before) for one in made)
    if not next_to and before[-1:] not in ("", ",", ".", ";", ":"):
        return False
    behind = _TOO.sub("", heard[act.span[1] :], count=1)
    if behind.strip(" ,.;!").lower() in ("", "please"):
        return True
    at = len(heard) - len(behind.lstrip(" ,.;!"))  # "clamps, dunno" is no item of a list
    goes_on = (*_TOLD, *_BOX, *_BESIDE)
    lead = _LEADS_ON.match(heard, at)
    begins = {at, lead.end() if lead is not None else at}
    return behind[:1] in ",.;" and any(
        isinstance(one, goes_on) and one.span[0] in begins for one in made
    )


def _behind_a_fitting(act: Act, made: list[Act], heard: str) -> bool:
    """ "With a fixture stud in it and clamps": both are of the box."""
    return any(
        isinstance(one, acts.AddFitting)
        and one.span[1] <= act.span[0]
        and _BEHIND_ANOTHER.fullmatch(heard, one.span[1], act.span[0]) is not None
        for one in made
    )


def _elsewhere(act: Act, made: list[Act], heard: str) -> bool:
    """Whether they may be outside the box or not be there: "out" of a cable that goes out and "not"
    of a canopy are no words of theirs."""
    sentence = heard[: act.span[1]].rpartition(". ")[2] + heard[act.span[1] :].partition(".")[0]
    if _UNSURE.search(sentence) is not None or _asked(act, heard):
        return True
    begins = heard.rfind(". ", 0, act.span[0]) + 1
    if _OUT.search(masked([one for one in made if one is not act], heard), begins) is not None:
        return True
    start, end = _ENDS.split(heard[: act.span[0]])[-1], _ENDS.split(heard[act.span[1] :])[0]
    return _DENIED.search(f"{start} {act.words} . {end}") is not None


def _asked(act: Act, heard: str) -> bool:
    """Whether the sentence that tells of them ends in a question mark."""
    closes = _CLOSES.search(heard, act.span[1])
    return closes is not None and closes.group() == "?"


def _lead(act: Act) -> str:
    """ "With" of "with clamps"."""
    found = _LEAD.match(act.words)
    return found.group() if found is not None else ""
