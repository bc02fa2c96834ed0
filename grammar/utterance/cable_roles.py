"""Cables told by what each of them does: "two 14-2s, feed and load"."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.grammar import acts, grammar_data
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_NAMED: dict[str, list[str]] = grammar_data.table("lexicon")["names"]["role"]
ROLE_NAMES = tuple(name for names in _NAMED.values() for name in names)
ROLE_PATTERN = "(?:{})s?".format("|".join(sorted(ROLE_NAMES, key=len, reverse=True)))
_WAY = "(?: (?:in|out|coming in|going out))?"
#: Of what it is the feed: "fan feed and porch light feed".
OF_WHAT = (
    r"(?:(?!(?:and|or|plus|with|then|also|a|an|the|to|for|from|in|is|as|one|another|has|have|are"
    r"|was|needs|gets|no|not|some|more|two|three|four|five|six|eight|ten|twelve|fourteen)\b)"
    r"[a-z]+(?:['’]s)? ){0,3}"
)
_ROLES = lazy_pattern(
    rf"[ ,:;(-]*(?:(?:a|an|the|one|for|for the) )*(?:{OF_WHAT})?{ROLE_PATTERN}{_WAY}"
    rf"(?:[ ,/&+]+(?:and )?(?:(?:a|an|the|one) (?:[a-z]+ )??|{OF_WHAT})?{ROLE_PATTERN}{_WAY})+\b",
    re.IGNORECASE,
)
_EACH = lazy_pattern(rf"\b{ROLE_PATTERN}\b", re.IGNORECASE)
_IS_BUT_A_ROLE = lazy_pattern(rf"(?:(?:a|an|the|one|my) )?{ROLE_PATTERN}\b", re.IGNORECASE)
_ENDS_IN_ROLE = lazy_pattern(rf"\b{ROLE_PATTERN}$", re.IGNORECASE)


def named_by_role(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """As many roles in a row as cables were counted name those cables, and no further ones; "14-2
    line and load" is two of them.

    Each conductor of each cable counts, 314.16(B)(1), so that fewer roles than cables, or more,
    are left as they were read.
    """
    for cable in made:
        if not isinstance(cable, acts.AddCable) or cable.awg is None or cable.doubts:
            continue
        if _IS_BUT_A_ROLE.match(cable.words):
            continue  # "feed in, feed out and a switch leg, all 14-2": one of those itself
        said = _ENDS_IN_ROLE.search(cable.words.rstrip())
        begin = cable.span[0] + said.start() if said else cable.span[1]
        match = _ROLES.match(heard, begin)
        if match is None:
            continue
        count = len(_EACH.findall(match.group()))
        if cable.count not in (None, count) or _is_pointed_at(cable):
            continue
        where = range(match.start(), match.end() + 1)
        left[:] = [run for run in left if run.span[0] not in where]
        made = [
            _with_roles(cable, count, heard, match.end()) if act is cable else act
            for act in made
            if act is cable or act.span[0] not in where or not is_role(act)
        ]
    return made


def _with_roles(cable: acts.AddCable, count: int, heard: str, end: int) -> acts.AddCable:
    """The cable with its roles among its words, so that each can be told of by them later."""
    span = (cable.span[0], max(end, cable.span[1]))
    return replace(cable, count=count, words=heard[slice(*span)], span=span)


#: Words before a role that name nothing: "so feed, two 14-2s" may be a list.
_LISTS = lazy_pattern(
    r"(?i)\b(?:a|an|the|one|and|with|also|plus|then|have|got|there)\b"
    r"|(?:^|\b(?:um|uh|er|so|well|ok|okay|now)|[^a-z\s])\s*$"
)


def headed_by_role(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Hot tub feed, two 6-3s": who begins with what a box feeds names the box, and counts its
    cables behind that. Where another is named by what it does, it may be a list of them."""
    role, *behind = made
    if (
        not is_role(role)
        or not isinstance(role, acts.AddCable)
        or role.count is not None
        or any(map(is_role, behind))
    ):
        return made
    first = behind[0]
    if not isinstance(first, acts.AddCable) or _LISTS.search(heard[: role.span[0]]):
        return made
    between = heard[role.span[1] : first.span[0]]
    counted = first.count is not None and first.count > 1 and between.strip() in ("", ",", ":")
    return behind if counted or _sized_behind(first, between, heard) else made


#: What a feed is for, and the break behind what was announced.
_ANNOUNCED = lazy_pattern(
    r"(?i)(?: (?:for|to) (?:an?|the|my|our|his|her)(?: [a-z]+){1,3})? ?[.:;!-]\s*"
)
_NO_MORE = lazy_pattern(r"(?i)(?: (?:here|in here|in (?:it|this box|the box)))?\s*(?:[.,;!]|$)")


def _sized_behind(cable: acts.AddCable, between: str, heard: str) -> bool:
    """ "Range feed. One 10-3.": what was announced is told by a sentence of its own."""
    told = _ANNOUNCED.fullmatch(between) and _NO_MORE.match(heard, cable.span[1])
    return bool(told) and cable.count is not None and cable.role is None


def _is_pointed_at(cable: acts.AddCable) -> bool:
    """ "The 14-2, feed and load": one that is there."""
    return cable.words.lower().startswith(("the ", "that ", "this ", "my "))


def is_role(act: Act) -> bool:
    """A cable named by no more than what it does, or words that are talk of something else."""
    if isinstance(act, acts.AddCable):
        return any(doubt.reason == "carried" for doubt in act.doubts)
    if isinstance(act, acts.AddConductors):
        return act.awg is None  # "a white switch leg"
    return isinstance(act, acts.OtherTalk)


def drop_named(kept: list[Act]) -> None:
    """Take cables that are named by what they do, and lent their size, off the end; two at most."""
    named = [
        act
        for act in kept[-2:]
        if isinstance(act, acts.AddCable)
        and act.count in (None, 1)
        and any(doubt.reason == "carried" for doubt in act.doubts)
    ]
    if named and kept[-len(named) :] == named:
        del kept[-len(named) :]


_BOTH = lazy_pattern(r"(?i)\bboth (?:of (?:them|those|these) )?are $")
_ALL = lazy_pattern(
    r"(?i)\ball (?:of (?:them|those|these|it) )?(?:are|is) $|\b(?:all|each|every one) of"
    r" (?:them|those|these|it),? $"
)


def all_of_unknown(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Feed and leg and one more, all 14-2": of cables that nobody counted: it is asked. "Both are
    14-2" are two."""
    if sum(isinstance(act, acts.AddCable) for act in made) != 1:
        return made
    return [_of_all(act, heard) for act in made]


def _of_all(act: Act, heard: str) -> Act:
    if not isinstance(act, acts.AddCable) or act.count is not None:
        return act
    before = heard[: act.span[0]]
    if _BOTH.search(before):
        return replace(act, count=2)
    low = act.words.lower()
    if (low.startswith("all ") and not low.startswith("all the ")) or _ALL.search(before):
        return replace(act, doubts=(*act.doubts, acts.Doubt("count", "vague")))
    return act


_BOTH = lazy_pattern(rf"{ROLE_PATTERN},? (?:are |is )?both\b", re.IGNORECASE)
_JOINED = lazy_pattern(r"\s*(?:,|and|&|/|\+)\s*(?:the\s+)?", re.IGNORECASE)


def both_named(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Feed and load both 12-2": two cables, one of each name."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        if (
            isinstance(act, acts.AddCable)
            and isinstance(last, acts.AddCable)
            and act.count == 2
            and last.count in (None, 1)
            and _EACH.fullmatch(last.words)
            and _BOTH.match(act.words)
            and _JOINED.fullmatch(heard, last.span[1], act.span[0])
            and not _of_three(kept)
        ):
            kept.pop()
        kept.append(act)
    return kept


def _of_three(kept: list[Act]) -> bool:
    """Whether another role stands before those two: "line, load and leg, both 12-2" is unclear."""
    before = kept[-2] if len(kept) > 1 else None
    return isinstance(before, acts.AddCable) and _EACH.fullmatch(before.words) is not None


_WHICH = lazy_pattern(
    r"\s*,?\s*(?:(?:that|which|what|who|it|and it|this one|they)\s+)?"
    r"(?:(?:that|also|just|only|then|will|now)\s+)*(?:feeds?|feeding|going to feed)",
    re.IGNORECASE,
)

#: "A 14-3 fan feed", "two 14-2 porch light legs": what stands between says of what.
_FOR_WHAT = lazy_pattern(
    r"(?: (?!(?:and|or|plus|with|then|also|a|an|the|to|for|from|in|is|as|one|another|has|have|are"
    r"|was|needs|gets)\b)[a-z]+){1,2} ",
    re.IGNORECASE,
)


_IS_ROLE = lazy_pattern(
    r"(?i)\s*(?:is|was|being|['’]s|as)\s+(?:(?:just|only|also|actually|really)\s+)*"
    rf"(?:(?:the|a|an|my|our)\s+)?(?:[a-z]+ )?{ROLE_PATTERN}"
)


def feeding_on(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Plus one 14-2 what feeds the closet", "one 14-2 is the feed": what it does, and no further
    cable."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        if (
            isinstance(act, acts.AddCable)
            and isinstance(last, acts.AddCable)
            and act.count is None
            and last.count is not None
            and is_role(act)
            and (
                any(told.fullmatch(heard, last.span[1], act.span[1]) for told in (_WHICH, _IS_ROLE))
                or _FOR_WHAT.fullmatch(heard, last.span[1], act.span[0])
            )
        ):
            continue
        kept.append(act)
    return kept


_OF_BOX = lazy_pattern(
    r"(?i)(?:\b(?:box|boxes|gang|square|octagon|octo|handy)"
    r"(?: (?:up |down |out |over )?(?:in|at|by|on|near|behind|under|above|over|beside) (?:the )?"
    r"[a-z]+(?: [a-z]+)?)?,?"
    r"|\b(?:this|that|it|here)(?: is|['’]s) the (?:one|1)),?"
    r" (?:(?:that|which|what)(?:['’]s| is)? )?(?:(?:just|also|only|then) )?"
    r"(?:feeds?|feeding|fed|supplies|supplying)\b"
)


def box_that_feeds(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "The box that feeds the freezer has two 12-2s": a box is told by what it feeds, and that is
    no cable of its own."""
    fed = [found.span() for found in _OF_BOX.finditer(heard)]
    return [
        act
        for act in made
        if not (
            isinstance(act, acts.AddCable)
            and act.count is None
            and is_role(act)
            and any(start < act.span[1] <= end for start, end in fed)
        )
    ]


def passing_through(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Then one 12-2 passes too": of a cable, and no question is skipped."""
    cables = any(isinstance(act, (acts.AddCable, acts.AddConductors)) for act in made)
    return [
        act
        for act in made
        if not (cables and isinstance(act, acts.Skip) and act.words.lower().startswith("pass"))
    ]
