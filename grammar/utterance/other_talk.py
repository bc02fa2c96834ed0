"""Talk that is not about the box: small talk, remarks about other things."""

from __future__ import annotations

import re
from functools import lru_cache

from boxaloud.grammar import acts, grammar_data
from boxaloud.grammar.acts import Act
from boxaloud.grammar.clauses.act_fields import THINGS
from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.phrases.vocabulary import known_words
from boxaloud.grammar.utterance.headings import ROOM_WORDS, ROOMS

_SOCIAL = grammar_data.table("social")
#: Acts of which nothing may be left standing where a clause is about something else.
TELLS = (
    *THINGS.values(),
    acts.SetClamps,
    acts.SetVolume,
    acts.SetSize,
    acts.NameBoxKind,
    acts.AddPart,
    acts.AddBarrier,
    acts.AddClampAssembly,
    acts.Hang,
    acts.InSpace,
    acts.ShareSpaces,
    acts.Number,
    acts.Size,
    acts.Place,
    acts.NoneOfThem,
    acts.Deny,
    acts.Land,
    acts.More,
    acts.Recount,
    acts.Remove,
    acts.Restate,
    acts.RestateNumber,
    acts.Replace,
    acts.SetEdition,
    acts.NothingElse,
    acts.Undo,
    acts.OpenBox,
    acts.NameBox,
    acts.DeleteBox,
    acts.Reclassify,
    acts.Resize,
    acts.PutBack,
    acts.Widen,
    acts.Route,
    acts.Unground,
    acts.SetCanopy,
)


#: "CEC 2024", "the 2020 code": a code by its name; a place alone may be where somebody lives.
_A_CODE = lazy_pattern(r"code|edition|\b(?:nec|cec|irc|ce|rule)\b")


def is_weak(act: Act) -> bool:
    """An act that a remark about anything could hold: nothing counted, sized or marked."""
    match act:
        case (
            acts.Number()
            | acts.Size()
            | acts.Place()
            | acts.NoneOfThem()
            | acts.OtherTalk()
            | acts.AskUnknown()
        ):
            return True
        case acts.AddUncounted() | acts.AddBarrier() | acts.AddJumper() | acts.Hang():
            return True
        case acts.AddDevice() | acts.AddGrounds() | acts.AddConductors() | acts.AddFitting():
            return (
                act.count is None and act.awg is None
                if not isinstance(act, acts.AddFitting)
                else act.count is None
            )
        case acts.AddCable():
            return act.count is None and act.awg is None
        case acts.Resize() | acts.Recount() | acts.Remove():
            return act.target.kind == "anything"
        case acts.SetSize():
            return act.depth is None and (
                bool(act.doubts) or (act.material is None and "box" not in act.words.lower())
            )
        case acts.SetEdition():
            return _A_CODE.search(act.words.lower()) is None
        case _:
            return False


def about_other_things(made: list[Act], parts: list[Clause]) -> bool:
    """Whether an utterance holds nothing firm of a box, and words that no description has."""
    if not made or not all(map(is_weak, made)) or not any(isinstance(act, TELLS) for act in made):
        return False
    if (
        all(isinstance(act, (acts.Number, acts.Size, acts.Place, acts.NoneOfThem)) for act in made)
        and len(parts) == 1
    ):
        least = 3
    else:
        least = 2
    return len(strange_words(parts)) >= least


def strange_words(parts: list[Clause]) -> set[str]:
    """The words of no thing that no description has; a room of the building may stand in one."""
    return {
        element.tag
        for clause in parts
        for element in clause.elements
        if element.found is None
        and element.tag.isalpha()
        and len(element.tag) > 2
        and element.tag not in known_words()
        and element.tag not in ROOMS
        and element.tag not in ROOM_WORDS
    }


_WEAK = (
    acts.Number, acts.Size, acts.Place, acts.NoneOfThem, acts.Undo, acts.AddGrounds,
    acts.AddFitting, acts.AddDevice, acts.SetClamps, acts.OpenBox,
)  # fmt: skip
"""What a remark about other things may seem to tell."""


_OWN_COUNT = lazy_pattern(
    r"(?:(?:but|and|so|well|now|actually|really|only) )*(?:i|we) (?:only |just |really |actually )*"
    r"(?:count|see|find|get|have|got|make it|am seeing|am counting) "
    r"(?:only |just |really )*<n:[^>]*>"
)


def remark(made: list[Act], parts: list[Clause]) -> acts.OtherTalk | None:
    """The talk of something else that an utterance is, whatever little it seems to tell."""
    if any(_OWN_COUNT.fullmatch(part.line) for part in parts):
        return None  # "my helper counted four, I get three"
    others = [act for act in made if isinstance(act, acts.OtherTalk)]
    telling = [act for act in made if isinstance(act, TELLS)]
    if all(isinstance(act, (acts.Number, acts.Size)) for act in telling):
        alone = all(isinstance(act, (*_BARE, acts.No, acts.Yes, acts.AskUnknown)) for act in made)
        if alone and others and telling and all(part.closes in (",", "", "end") for part in parts):
            # "half inch EMT, ten foot sticks, I need about nine": in one sentence, of one thing
            return others[0]
    said = [part for part in parts if len(part.elements) > 1 or part.found]  # and no "hello"
    if not others or len(others) * 2 < len(said):
        return None
    weak = all(
        _little(act) and not (_by_itself(act, parts) or _begins(act, parts, others))
        for act in telling
    )
    alone = all(
        isinstance(act, (*TELLS, acts.OtherTalk, acts.No, acts.Yes, acts.Social)) for act in made
    )
    return others[0] if weak and alone else None


def _by_itself(act: Act, parts: list[Clause]) -> bool:
    """ "20 amp circuit. One duplex.": a thing that is a sentence of its own is told."""
    thing = act.thing if isinstance(act, acts.Restate) else act
    if not isinstance(thing, (acts.AddDevice, acts.AddGrounds, acts.AddFitting, acts.SetClamps)):
        return False
    if isinstance(thing, acts.AddDevice) and thing.count is None:
        return False
    return any(_is_all_of(part, act) for part in parts) or _is_headed(act, parts)


#: "Desk wall, two duplexes": where a box is, as its heading.
_PLACE = lazy_pattern(
    r"(?:the )?(?:[a-z-]+ ){1,2}(?:wall|side|end|corner|area|counter|bench|door|landing|window)"
)


def _is_headed(act: Act, parts: list[Clause]) -> bool:
    """Whether a thing is all that stands behind a place at the beginning."""
    return (
        len(parts) > 1
        and _PLACE.fullmatch(parts[0].line) is not None
        and parts[1].span[0] <= act.span[0] < parts[1].span[1]
        and _JUST_ONE.fullmatch(parts[1].line) is not None
    )


def _begins(act: Act, parts: list[Clause], others: list[acts.OtherTalk]) -> bool:
    """ "Hello, it gets a switch. Lunch.": a thing told in words that are all known, with no other
    talk before it in its sentence."""
    thing = act.thing if isinstance(act, acts.Restate) else act
    told = isinstance(thing, (acts.AddDevice, acts.AddGrounds, acts.AddFitting, acts.SetClamps))
    if not told or (isinstance(thing, acts.AddDevice) and thing.count is None):
        return False
    sentence = 0
    for part in parts:
        if part.opens in _STOPS:
            sentence = part.span[0]
        if part.span[0] <= act.span[0] < part.span[1]:
            first = not any(sentence <= other.span[0] < part.span[0] for other in others)
            return first and not strange_words([part])
    return False


def _is_all_of(part: Clause, act: Act) -> bool:
    """Whether a sentence is nothing but the thing, and "and" or "also" before it."""
    if part.thing and part.opens in _STOPS and part.span == act.span:
        return True
    first = part.opens == "" and part.closes in _STOPS
    return first and part.span[1] == act.span[1] and bool(_JUST_ONE.fullmatch(part.line))


_STOPS = (".", ";", "\n")
_JUST_ONE = lazy_pattern(r"(?:(?:and|plus|also|then|oh|ok|okay|with) )*<(?:device|fitting):[^>]*>")
_BARE = (acts.Number, acts.Size, acts.OtherTalk)


_FURTHER = lazy_pattern(r"(?i)(?:another|one more|two more|an extra)\b")


def _little(act: Act) -> bool:
    """ "… with the burnt neutral, …": a conductor neither counted nor sized tells little too."""
    thing = act.thing if isinstance(act, acts.Restate) else act
    if isinstance(thing, acts.AddConductors):
        bare = thing.count is None and thing.awg is None
        return bare or _COLOURED.fullmatch(thing.words) is not None
    if isinstance(act, acts.AddDevice) and _FURTHER.match(act.words):
        return False  # "and another switch, since she wants …"
    if isinstance(act, acts.Undo) and act.words.lower().startswith(_ORDERS_BACK):
        return False  # "undo that, the inspector was wrong"
    if isinstance(act, acts.SetClamps) and _CLAMPS_TOLD.match(act.words):
        return False  # "no clamps, the kid had his thumb over them"
    return isinstance(act, _WEAK) or (
        isinstance(act, acts.Recount) and _OF_THEM.search(act.words) is not None
    )


_ORDERS_BACK = ("undo", "scratch", "strike", "cancel", "erase", "delete", "ignore", "disregard")
"""How an order to take back what was said last begins, whatever reason stands behind it."""
_CLAMPS_TOLD = lazy_pattern(
    r"(?i)(?:(?:there (?:is|are)|there['’]s|it has|it['’]s got|the|its) )*"
    r"(?:no (?:inside |internal )?clamps?|clamps? (?:are |is )?(?:inside|outside|none)"
    r"|(?:inside|internal) clamps?)\b"
)
#: "There's a truck in the driveway, it's a white one", "we need breakers, I think three of them".
_COLOURED = lazy_pattern(
    r"(?i)(?:it['’]?s |that['’]?s |the |an? )*(?:black|white|red|blue|green|orange|brown|yellow"
    r"|gr[ae]y) one"
)
_OF_THEM = lazy_pattern(
    r"(?i)\b(?:i think|maybe|probably|about|like|i guess)\b.* of (?:them|those)\b"
)


def small_talk(heard: str) -> Act | None:
    """ "Thanks", "hold on": an utterance of nothing else."""
    text = " ".join(re.findall(r"[a-z']+|\d[\w./-]*", heard.lower().replace("’", "'")))
    if not text or len(text) > 80:
        return None
    for what, pattern in _social_patterns():
        if pattern.fullmatch(text):
            return acts.Social(what=what, words=heard.strip(), span=(0, len(heard)))
    return None


@lru_cache(maxsize=1)
def _social_patterns() -> tuple[tuple[acts.SocialKind, re.Pattern[str]], ...]:
    return tuple((row["what"], re.compile(row["say"])) for row in _SOCIAL["social"])


_PUT_TO_YES = frozenset({"confirm", "clamps", "grounds", "canopy", "connectors"})


def dismay_answers(social: Act, expect: str | None) -> bool:
    """ "Oh no" in answer to a question of yes or no, where elsewhere it is dismay alone."""
    dismay = isinstance(social, acts.Social) and social.what == "dismay"
    return dismay and expect in _PUT_TO_YES and re.search(r"(?i)\bno\b", social.words) is not None
