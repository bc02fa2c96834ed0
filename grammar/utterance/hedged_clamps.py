"""Clamps of which nothing is told yet: there may be some, they are looked for, nobody knows."""

from __future__ import annotations

import re

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

#: Characters before a thing in which it is hedged: no clause is longer.
_HEDGE_WITHIN = 200
_HEDGED = lazy_pattern(
    r"(?i)\b(?:might|may|maybe|perhaps|possibly|could(?! you)|whether)\b[^,.;:]*$"
)


def hedged_clamps(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Might have clamps in", "whether there's a clamp in it, no idea": where they are is not
    known by that, and stays to be asked."""
    told = (acts.SetClamps, acts.NoneOfThem)
    kept = [
        act for act in made if not (isinstance(act, told) and _HEDGED.search(_before(heard, act)))
    ]
    return kept or [acts.DontKnow(words=heard, span=(0, len(heard)))]


def _before(heard: str, act: Act) -> str:
    return heard[max(0, act.span[0] - _HEDGE_WITHIN) : act.span[0]]


#: What else is looked for: "find out what size it is", "look up the volume".
_OF_THE_BOX = (
    r"(?!(?: out| up| at| for| about| of| on)? (?:what|which|how|the|its|that|a)(?: box(?:['’]s)?)?"
    r" (?:size|deep|big|large|volume|depth|stamp|marking|light|torch)\b)"
)
_LOOK = (
    r"(?:(?:let me|i will|i'll|i have to|i've got to|i got to|i gotta|i need to|i must|i should"
    r"|i want to|i am going to|i'm going to|i'm gonna|gotta|have to|need to|got to|going to|gonna"
    r"|will|i go|we will|we'll|somebody has to)(?: go| just| still| first| better| now)*"
    r" (?:look|check|see|peek|open|find|ask|verify|count|feel|take a look|have a look)\b"
    rf"{_OF_THE_BOX}"
    r"|(?:let me|hold on|hang on|one (?:second|sec|moment|minute)|(?:just )?a (?:second|sec|moment"
    r"|minute)|wait a (?:second|sec|moment|minute))$|give me a (?:second|sec|moment|minute))"
)
_HM = r"(?:hm+|um+|uh+|er|well|wait|so|oh|ok|okay|no|hold on|hang on|and|but|the|cable|about|now)"
_BREAK = r"[\s,.;:?!…–—-]+"
_NOT_KNOWN = (
    r"(?:i|we) forget\b(?! (?:to (?:say|mention|tell|add)|it|that|them)\b)"
    r"|(?:forgot|forget) to (?:check|look|see|note|count|write|ask)\b"
    r"|(?:do not|don't|dont|can not|cannot|can't|cant|could not|couldn't)"
    r"(?: really| even| quite)? (?:remember|recall|know|tell|say|(?:see|make out)(?: from here)?"
    r" (?:whether|if))\b"
    r"|(?:hard|impossible) to (?:tell|say|see)\b|who knows\b"
    r"|(?:could not|couldn't|did not|didn't|have not|haven't|havent)(?: really| even)?"
    r" (?:check|look)(?:ed)?\b"
    r"|(?:have not|haven't|havent|never|did not|didn't)(?: really| even| actually)?"
    r" (?:seen?|found|opened|unscrewed)\b(?! (?:any|one|a|no)\b)"
    r"|(?:not|am not|i'm not)(?: really| so| too)? (?:sure|certain)\b|no (?:idea|clue)\b"
)
_OF_THEM = (
    r"(?: (?:about|of|at|on|for|what|which|kind|the|those|any|these|cable|type|where|how"
    r"|whether|if|there(?:['’]s)?|is|are|it(?:['’]s)?|has|got|a|an|some|inside))*"
)
_CLAMPS = r"(?<![a-z])(?:clamps?)(?![a-z])"
#: "Clamps, hm, let me look inside": where they are is looked for.
_LOOKED_FOR = lazy_pattern(
    rf"(?i){_CLAMPS}{_BREAK}(?:{_HM}{_BREAK})*{_LOOK}"
    rf"|(?<![a-z]){_LOOK}{_OF_THEM} {_CLAMPS}"
)
#: "I forget clamps", "no idea about the clamps", "clamps, I don't remember", "whether there's a
#: clamp in it, no idea".
_UNKNOWN = lazy_pattern(
    rf"(?i)(?<![a-z])(?:{_NOT_KNOWN}){_OF_THEM} {_CLAMPS}"
    rf"|{_CLAMPS}{_BREAK}(?:(?:{_HM}|in it|in there|inside|or not|i|we|of|those|them|i am|i have)"
    rf"{_BREAK})*(?:{_NOT_KNOWN}){_OF_THE_BOX}"
)


def clamps_looked_for(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Clamps, hm, let me look inside", "I forget clamps": neither that there are some nor where
    they are is told by that."""
    looked = _LOOKED_FOR.search(heard)
    found = looked or _UNKNOWN.search(heard)
    if found is None or (
        not _INSIDE.match(heard, found.end()) and any(_is_certain(one, heard) for one in made)
    ):
        return made
    if looked and (told := _found_behind(made, heard, looked.end())):
        return told
    kept = [
        act for act in made if not (isinstance(act, _OF_CLAMPS) and act.span[1] > found.start())
    ]
    if any(not isinstance(act, (acts.Social, acts.No, acts.Yes)) for act in kept):
        return kept
    if looked:
        return [acts.Social(what="pause", words=heard, span=(0, len(heard)))]
    return [acts.DontKnow(words=heard, span=(0, len(heard)))]


#: Where it is looked, and not what is found there.
_INSIDE = lazy_pattern(r"(?i) (?:inside|outside|in there|in here|in the box|behind it)\b")
_OF_CLAMPS = (acts.SetClamps, acts.Place, acts.DontKnow, acts.OtherTalk)


#: "Never mind the clamps", "forget about those clamps": they are left aside, and not denied.
_LEFT_OUT = lazy_pattern(
    r"(?i)\b(?:never ?mind|forget|skip|ignore|leave out|don['’]?t (?:mind|worry about|count on))"
    r"(?: about)? $"
)


def _is_certain(act: Act, heard: str) -> bool:
    """Whether an act tells where clamps are, or that there are none."""
    if not isinstance(act, acts.SetClamps) or act.where == "present":
        return False
    if act.where == "none" and _LEFT_OUT.search(_before(heard, act)):
        return False
    return not (act.where == "none" and act.function == "request")  # "I forget clamps"


def _found_behind(made: list[Act], heard: str, end: int) -> list[Act]:
    """ "Clamps, let me look, yes, inside": what was found is told; empty where nothing is."""
    for act in made:
        if not isinstance(act, (acts.Place, acts.NoneOfThem)):
            continue
        if not re.search(r"[,.;:?!…–—-]", heard[end : act.span[0]]):
            continue  # "let me look inside"
        where = act.where if isinstance(act, acts.Place) else "none"
        clamps = acts.SetClamps(where=where, words=act.words, span=act.span)
        return [
            *(one for one in made if not isinstance(one, (*_OF_CLAMPS, acts.Yes, acts.NoneOfThem))),
            clamps,
        ]
    return []
