"""Things that are only told of: where they go, what they are for, what was said of them already."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.neighbours import joining

_ON = lazy_pattern(
    r"(?i)\s*(?:(?:in|inside) (?:it|there|here|this one)\s*)?,?\s*on (?:the |that )?$"
)
_DEFINITE = lazy_pattern(r"(?i)(?:the|that) ")


def landed_behind(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "There's a switch in it, on the twelve-two": what lands where, and no cable more."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        if (
            isinstance(act, acts.AddCable)
            and act.count is None
            and act.awg is not None
            and isinstance(last, acts.AddDevice)
            and last.awg is None
            and _ON.fullmatch(heard, last.span[1], _start(act))
        ):
            kept[-1] = replace(last, awg=act.awg, words=heard[last.span[0] : act.span[1]])
            if not _only_cable(act, made):
                continue
        kept.append(act)
    return kept


def _only_cable(act: acts.AddCable, made: list[Act]) -> bool:
    """ "A range receptacle, two gangs wide, on six-three, 34 cubic inches": in a box described
    whole, with no other cable, what the device lands on is the cable that comes in."""
    if _DEFINITE.match(act.words):
        return False
    others = (acts.AddCable, acts.AddConductors)
    boxed = any(isinstance(one, (acts.SetVolume, acts.SetSize)) for one in made)
    return boxed and not any(isinstance(one, others) and one is not act for one in made)


def _start(act: Act) -> int:
    """Where an act begins, without its article."""
    article = _DEFINITE.match(act.words)
    return act.span[0] + (article.end() if article else 0)


_FOR_ANOTHER = lazy_pattern(
    r"(?i)\b(?:for|to|feeding|feeds|controls|controlling) (?:(?:the|my|her|his|their|our|that|your"
    r"|an?|\w+'s) )?(?:(?!switch|dimmer|gfci|gfi|receptacle|outlet|timer|smart|three|four|single"
    r"|double|duplex|other|and|with|then|plus)[a-z]+ ){1,3}$"
)
_COMES_IN = lazy_pattern(
    r"(?i)\b(?:add(?:ed|ing)?|another|more|plus|also|extra|put(?:ting)? in|bring(?:ing)?"
    r"|need(?:s|ed)?)\b"
)


def for_others(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Add a 12-2 for the floor outlet": what the cable is for, which is elsewhere."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        wire = isinstance(last, (acts.AddCable, acts.AddConductors, acts.More))
        if (
            isinstance(act, acts.AddDevice)
            and act.count is None
            and wire
            and last is not None
            and _COMES_IN.search(heard[: last.span[1]])
            and _FOR_ANOTHER.search(heard[last.span[1] : act.span[0]])
            and not set(heard[last.span[1] : act.span[0]]) & set(",.;:!?")
        ):
            continue
        kept.append(act)
    return kept


_ITS_WAY = lazy_pattern(r"(?i)[ ]*(?:(?:just|both|all|then|will|do|does) )*")
_GOES = lazy_pattern(r"(?i)(?:go|goes|going) (?:back )?(?:on |over |up |down |out )?to the ")


def goes_there(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Both 14-3s go to the hall": where they go, and no box to go to."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        if (
            isinstance(act, acts.OpenBox)
            and is_thing(last)
            and _GOES.match(act.words)
            and _ITS_WAY.fullmatch(heard, last.span[1], act.span[0])
        ):
            continue
        kept.append(act)
    return kept


_SENTENCE = lazy_pattern(r"[.!?…]")
_MORE = lazy_pattern(r"(?i)\b(?:and|another|plus|more|also|then|too|second|other|add|again)\b")
_FEW_WORDS = 24
"""Characters between two sayings of one thing, with which nothing of its own is told."""


SAID_AGAIN = 3
"""Devices in one utterance beyond which they are a list."""


def said_once(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "A four-way. Hm. Fine, a four-way.": one thing, said again."""
    if sum(isinstance(act, acts.AddDevice) for act in made) > SAID_AGAIN:
        return made
    kept: list[Act] = []
    for act in made:
        if not any(_again(act, before, heard) for before in kept[-1:]):
            kept.append(act)
    return kept


def _again(act: Act, before: Act, heard: str) -> bool:
    if not isinstance(act, acts.AddDevice) or not isinstance(before, acts.AddDevice):
        return False
    between = heard[before.span[1] : act.span[0]]
    if len(between) > _FEW_WORDS or not _SENTENCE.search(between) or _MORE.search(between):
        return False
    one, other = (replace(each, words="", span=(0, 0)) for each in (before, act))
    return one == other and act.count in (None, 1) and not _MORE.search(act.words)


_SWEARING = (
    r"(?:god)?(?:damn(?:ed)?|darn(?:ed)?|stupid|freaking|friggin[g']?|stinking|bloody|blasted) "
)
_SWORN = lazy_pattern(rf"(?i){_SWEARING}")
_EXPLETIVE = lazy_pattern(rf"(?i)(?:^|[.!?,] *){_SWEARING}$")
_ENDS = lazy_pattern(r"\s*(?:[.!,?]|$)")


def sworn_at(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Two 14-3s. Damn three-way.": who swears at a thing brings none in."""
    return [
        act
        for act in made
        if not (
            isinstance(act, acts.AddDevice)
            and act.count is None
            and (_SWORN.match(act.words) or _EXPLETIVE.search(heard[: act.span[0]]))
            and _ENDS.match(heard, act.span[1])
        )
    ]


_IT_IS = lazy_pattern(
    r"(?i)\b(?:it'?s|it is|that'?s|that is|they'?re|they are)(?: (?:really|actually|just"
    r"|one of those|all))* $"
)
_BOTH = lazy_pattern(r"(?i)(?:both|the two|those two|these two)\b")


def one_combined(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "It's a double switch", "both are on one yoke, it's a combo": what the devices that are
    there come to, 314.16(B)(4), said once or twice."""
    kept: list[Act] = []
    for act in made:
        combined = isinstance(act, acts.AddDevice) and act.name == "combination device"
        if not isinstance(act, acts.AddDevice) or not combined or act.count not in (None, 1):
            if not (_YOKE.search(act.words) and any(map(_combines, kept))):
                kept.append(act)
            continue
        said = _IT_IS.search(heard[: act.span[0]]) is not None
        if said and any(map(_combines, kept)):
            continue
        if said or _BOTH.match(act.words):
            kept.append(
                acts.Restate(
                    thing=act, words=act.words, span=act.span, doubts=act.doubts,
                    function="correction",
                )
            )  # fmt: skip
            continue
        kept.append(act)
    return kept


@joining
def said_to_be(last: Act, act: Act, heard: str) -> Act | None:
    """ "The receptacle's a GFI": what the one that is there is, and no further one."""
    if (
        isinstance(act, acts.AddDevice)
        and isinstance(last, acts.AddDevice)
        and last.count is None
        and _THE_ONE.fullmatch(last.words)
        and act.words.lower().startswith(("a ", "an "))
        and not heard[last.span[1] : act.span[0]].strip()
    ):
        span = (last.span[0], act.span[1])
        return acts.Replace(
            target=acts.Reference("device", name=last.name, words=last.words),
            thing=replace(act, count=None), words=heard[slice(*span)], span=span,
            doubts=act.doubts, function="correction",
        )  # fmt: skip
    return None


_THE_ONE = lazy_pattern(r"(?i)(?:(?:the|that|this|my) )?[a-z -]+['’]s")


_YOKE = lazy_pattern(r"(?i)\b(?:yoke|strap)$")


def _combines(act: Act) -> bool:
    thing = act.thing if isinstance(act, acts.Restate) else None
    return isinstance(thing, acts.AddDevice) and thing.name == "combination device"


_THOSE_ARE = lazy_pattern(
    r"(?i)(?:the|those|these|my) \w+ (?:cables?|wires?|runs?) (?:is|are|was) "
)


@joining
def some_of_those(last: Act, act: Act, heard: str) -> Act | None:
    """ "One of the two cables is a 12-3": so many of those that are there."""
    value = last.value if isinstance(last, acts.Number) else None
    if (
        isinstance(act, acts.AddCable)
        and last is not None
        and value is not None
        and value == int(value)
        and _THOSE_ARE.match(act.words)
        and heard[last.span[1] : act.span[0]].strip().lower() == "of"
    ):
        span = (last.span[0], act.span[1])
        target = acts.Reference("cable", count=int(value), words=heard[slice(*span)])
        return acts.Replace(
            target=target, thing=replace(act, count=None, doubts=()), words=target.words,
            span=span, function="correction",
        )  # fmt: skip
    return None


_SOME_ARE = lazy_pattern(
    r"(?i)(?P<those>\w+ of (?:the|those|these|my|our|your) \w+ (?:cables?|wires?|runs?))"
    r" (?:is|are|was|were|['’]s)\b"
)


def _some_are(act: Act) -> Act:
    """So many of those that are there, where an act tells it all."""
    told = act.thing if isinstance(act, acts.Restate) else act
    said = _SOME_ARE.match(told.words) if isinstance(told, acts.AddCable) else None
    if said is None or not isinstance(told, acts.AddCable):
        return act
    target = acts.Reference("cable", count=told.count or 1, words=said["those"])
    return acts.Replace(
        target=target, thing=replace(told, count=None, doubts=()), words=act.words, span=act.span,
        function="correction",
    )  # fmt: skip


def some_are_others(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The same, "one of the two cables is a 12-3", where one phrase holds all of it."""
    return [_some_are(act) for act in made]
