"""What is said to be counted twice, and how many there are of what is counted once or never."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Thing, Unread
from boxaloud.grammar.clauses.act_kinds import is_thing, pointed_at
from boxaloud.grammar.clauses.text_before import just_before
from boxaloud.grammar.lazy_patterns import lazy_pattern

_COUNTED = lazy_pattern(
    r"(?i)(?:^|.*[\s,.;:])(?P<said>(?:i|you|we)(?:['’](?:ve|d)| have| had)?(?: \w+ly| just)*"
    r" (?:(?P<seen>checked|tested|measured|traced|looked at|looked over|labell?ed|tightened|torqued"
    r"|mentioned|told you about|explained|said|cleaned|read)"
    r"|counted|entered|included|charged(?: me)?(?: for)?|listed|had|have|got|put(?: down| in)?)"
    r"(?: (?:one of|some of|all of))? )$"
)
#: "14-2 twice"; in "14-2 three times and 14-3 twice" it is told how many there are of each.
_TWICE = lazy_pattern(
    r"(?i)(?:(?!\btimes\b|\bonce\b)[^,.;:?!])*?\btwice\b"
    r"(?!,? (?:and )?(?:1[024]|fourteen|twelve|ten)[-/ ](?:two|three|[23])"
    r" (?:once|twice|\w+ times)\b)"
)
_NEAR = lazy_pattern(r"(?i)[^?]{0,40}")
_THEM = lazy_pattern(r"(?i).*\bof (?:them|those|these)\b")

_PUTS_RIGHT = (
    acts.Restate, acts.RestateNumber, acts.Recount, acts.Remove, acts.Replace, acts.Undo,
)  # fmt: skip
"""What says at once how many there are."""


def counted_twice(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "You counted the switch twice": what is there is put in doubt, and none comes in, nor by "I
    checked the switch twice"; of clamps nothing is, since all are one allowance, 314.16(B)(2)."""
    kept: list[Act] = []
    for place, act in enumerate(made):
        before = _COUNTED.fullmatch(heard[: act.span[0]])
        said = _TWICE.match(heard, act.span[0]) if before is not None else None
        if before is None or said is None or not is_thing(act) or _had(before, act):
            kept.append(act)
            continue
        behind = made[place + 1] if place + 1 < len(made) else None
        if isinstance(behind, acts.RestateNumber):
            made[place + 1] = _of_those(behind, act)
        span = (before.start("said"), said.end())
        words = heard[slice(*span)]
        if before["seen"]:
            kept.append(acts.OtherTalk(words=words, span=span))
        elif not any(isinstance(other, _PUTS_RIGHT) for other in made[place + 1 :]):
            kept.append(acts.Mistaken(words=words, span=span))
    return kept


_HAD = lazy_pattern(r"(?i)(?:i|we)\b.*\b(?:had|have|got) ")
_POINTING = lazy_pattern(r"(?i)(?:the|that|those|my|this|these|them)\b")


def _had(before: re.Match[str], act: Act) -> bool:
    """Whether it is told how many there are: "I've got 14-3 twice"; "the 14-3" was counted so."""
    words = before["said"] + act.words
    return bool(_HAD.fullmatch(before["said"])) and not _POINTING.search(words)


def _of_those(number: acts.RestateNumber, thing: Thing) -> Act:
    """ "…, there's only one": of what was counted twice."""
    target = replace(pointed_at(thing, thing.words), count=None)
    return acts.Recount(
        target=target, count=int(number.value), words=number.words, span=number.span,
        function="correction",
    )  # fmt: skip


def counted_of_topic(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "The clamps are inside. There are four of them": as many clamps, and of nothing else; and
    none of the box behind talk of something else, "I list each breaker, there are 24 of them".
    "Mind the grounds; there are ten of them": so many grounds, whatever was told last."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        recounted = isinstance(act, acts.Recount) and not isinstance(last, acts.AddGrounds)
        grounds = _grounds_of_topic(act, heard) if recounted else None
        if grounds is not None:
            kept.append(grounds)
            continue
        if (
            last is not None
            and (_clamps(last) or _of_no_box(last))
            and isinstance(act, acts.Recount)
            and act.target.kind == "anything"
            and _THEM.match(act.words)
            and _NEAR.fullmatch(heard, last.span[1], act.span[0])
        ):
            continue
        kept.append(act)
    return kept


#: "Mind the grounds; ": what was spoken of right before, and no thing that is told there.
_OF_GROUNDS = lazy_pattern(
    r"(?i)(?:^|.*[\s,.;:!])(?P<said>(?:the|those|these|all|your|our|its|their)"
    r"(?: (?:bare|green|equipment|ground|cable))* grounds?"
    r"(?: wires?| conductors?)?(?: too| as well)?)"
    r"[\s,.;:!–—-]*(?:(?:and|since|because|as|for|so) )?"
)


def _grounds_of_topic(act: Act, heard: str) -> Act | None:
    """The grounds that there are so many of, where they are what was spoken of right before."""
    if not isinstance(act, acts.Recount) or act.target.kind != "anything":
        return None
    if act.count is None or not _THEM.match(act.words):
        return None
    before = _OF_GROUNDS.fullmatch(just_before(heard, act.span[0]))
    if before is None:
        return None
    start = act.span[0] - len(before.group()) + before.start("said")
    span = (start, act.span[1])
    return acts.AddGrounds(count=act.count, words=heard[slice(*span)], span=span)


_OF_A_BOX = lazy_pattern(
    r"(?i)\b(?:\d\d[-/]\d|cables?|wires?|switch(?:es)?|receptacles?|outlets?|dimmers?|gfcis?|grounds?"
    r"|devices?|conductors?|(?:fourteen|twelve|ten)[- ](?:twos?|threes?)|plugs?)\b"
)


def _of_no_box(act: Act) -> bool:
    """Whether something else was spoken of, and no thing that a box may hold."""
    return isinstance(act, acts.OtherTalk) and _OF_A_BOX.search(act.words) is None


def _clamps(act: Act) -> bool:
    """Whether clamps are what was spoken of."""
    return isinstance(act, acts.SetClamps) and act.where != "none"
