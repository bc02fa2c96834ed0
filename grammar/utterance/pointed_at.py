"""Things pointed at while they are told: "and that one, that's a 12-2 to the garage", "one of
those smart switches", "let me pull it"."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.running_passes import Pass

_WAY = lazy_pattern(
    r"(?i)[\w -]*?\b(?:to|from|up|down|out|over|off|for|toward|towards|through|upstairs|downstairs"
    r"|left|right|back|feeding|going|coming|heading|headed|running)\b"
)
_WRONG = lazy_pattern(
    r"(?i)\b(?:no|nope|wait|sorry|actually|i mean|i meant|rather|wrong|oops|correction|again"
    r"|really|not)\b[^.!?;]*$"
)
_FEEDS = ("feed", "in")
_OTHER_WAY = lazy_pattern(r"(?i)[^.!?;]*\b(?:actually|really|sorry|not|instead|after all)\b")


def another_pointed_at(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "A 12-2 feeds it. And that one, that's a 12-2 to the garage.": a further cable, since the
    same size said anew with a way of its own puts nothing right."""
    told: list[acts.AddCable] = []
    kept: list[Act] = []
    for act in made:
        if isinstance(act, acts.Restate) and act.instead_of is None and _goes_on(act, told, heard):
            act = replace(act.thing, function="inform")
        if isinstance(act, acts.AddCable):
            told.append(act)
        kept.append(act)
    return kept


def _goes_on(act: acts.Restate, told: list[acts.AddCable], heard: str) -> bool:
    cable = act.thing
    if not isinstance(cable, acts.AddCable) or cable.count != 1 or not told:
        return False
    size = (cable.awg, cable.conductors)
    same = [one for one in told if (one.awg, one.conductors) == size]
    if not same or (cable.role == "feed" and any(one.role in _FEEDS for one in same)):
        return False
    start, end = act.span
    if _WRONG.search(heard[:start]) or _OTHER_WAY.match(heard, end):
        return False
    return _WAY.match(heard, cable.span[0]) is not None


_OF_A_KIND = lazy_pattern(
    r"(?i)(?:one|two|three|four|a couple|[1-4]) of (?:those|these|them) (?:[\w-]+ )+[\w-]+"
)
_IT_IS = lazy_pattern(
    r"(?i)\b(?:it|that|they|those|these|this|he|which|switch|receptacle|dimmer|one|device)"
    r"(?:['’]s|['’]re| is| are| was| were)(?: all| both| actually| just)* *$"
)


def further_of_a_kind(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "A switch. One of those smart switches.": a device of that kind beside what was told, and
    no word on it."""
    told = False
    kept: list[Act] = []
    for act in made:
        if (
            told
            and isinstance(act, acts.Restate)
            and (act.instead_of is None or act.instead_of.words == act.words)
            and isinstance(act.thing, acts.AddDevice)
            and _OF_A_KIND.fullmatch(act.words)
            and not _IT_IS.search(heard[: act.span[0]])
        ):
            act = replace(act.thing, function="inform")
        told = told or isinstance(act, acts.AddDevice)
        kept.append(act)
    return kept


_LOOK = lazy_pattern(
    r"(?i)(?:let me|lemme|let us|let['’]s|i(?:['’]ll| will)(?: just| have to| need to)?"
    r"|i(?:['’]m| am) (?:going to|gonna)|gotta|hang on while i)\s+(?:just )?"
    r"(?:pull|slide|ease|work) (?:it|that|this|him|her)(?: (?:out|off|forward|back|loose))*"
)


#: What somebody does who only looks behind a device: "I'm pulling it out to check the wires".
_PULLED = lazy_pattern(r"(?i)\b(?:pull|tak|took|slid|eas|work|lift|get|got)[a-z]* .*\bout\b")
_SEE = lazy_pattern(
    r"(?i)(?: (?:of (?:it|the box|there)|here|now|a bit|a little|first|just|,))*"
    r" (?:to|so (?:that )?(?:i|we) (?:can|could)) (?:just )?(?:see|look|check|peek|count|find out"
    r"|get at|get to|reach|read|trace|inspect|have a look|take a look|make sure)\b"
)


def _to_see(act: Act, heard: str) -> bool:
    return (
        isinstance(act, acts.Remove)
        and _PULLED.search(act.words) is not None
        and _SEE.match(heard, act.span[1]) is not None
    )


def pulled_to_look(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "The thermostat's warm. Let me pull it. One 12-2 going up.": pulled forward, so that what is
    behind it can be told, or "out to check the wires", and not taken out."""
    return [
        act
        for place, act in enumerate(made)
        if not _to_see(act, heard)
        and not (
            isinstance(act, acts.Remove)
            and act.target.kind == "anything"
            and place
            and isinstance(made[place - 1], acts.AddDevice)
            and _LOOK.fullmatch(act.words.strip())
            and any(isinstance(one, acts.AddCable) for one in made[place + 1 :])
        )
    ]


OF_POINTING = (
    Pass(another_pointed_at, (acts.Restate,), 2),
    Pass(further_of_a_kind, (acts.Restate,), 2, (" of th",)),
    Pass(pulled_to_look, (acts.Remove,), 1),
)
