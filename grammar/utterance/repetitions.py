"""What is said twice, taken back or restated within one utterance."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.act_fields import KIND_OF, THINGS
from boxaloud.grammar.clauses.act_kinds import counted, is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern

#: Behind a cable: "one old 14-2 that's got no ground".
_WHICH = lazy_pattern(r"(?i),? (?:that|which|who)(?:'s| |$)[^,.;:]*$")
_OF_THOSE = lazy_pattern(
    r"(?i) ?(?:(?:with|on|for|in|to|either) (?:those|these|them|that|it|either)\b"
    r"|of (?:their|its) own\b)"
)


def grounds_of_those(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Two more number 12s, no green with those": it denies no ground of anything else."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        denied = isinstance(act, acts.Deny) and act.target.kind == "grounds"
        of_last = isinstance(last, acts.AddCable) and _WHICH.match(
            heard[last.span[1] : act.span[0]]
        )
        if denied and (of_last or _OF_THOSE.match(heard, act.span[1])):
            if any(isinstance(one, acts.AddConductors) for one in _nearest(made, act)):
                continue
            if isinstance(last, acts.AddCable):
                kept[-1] = replace(last, ground=False, ground_awg=None)
                continue
        kept.append(act)
    return kept


def _nearest(made: list[Act], denial: Act) -> list[Act]:
    """The thing that stands right before a denial; what was put together of words apart may stand
    behind it in the list."""
    before = [act for act in made if is_thing(act) and act.span[1] <= denial.span[0]]
    return [max(before, key=lambda act: act.span[1])] if before else []


_SIZED = lazy_pattern(
    r"(?i)(?:the |and )?(?:bare |green |equipment )?(?:ground|green|bare|egc)(?: wire)?"
    r"(?: is)?(?: an?)? (?:14|12|10|8|6|fourteen|twelve|ten|eight|six)"
    r"|(?:and |the |a )*(?:14|12|10|8|6|fourteen|twelve|ten|eight|six) (?:bare |green |equipment )?"
    r"(?:ground|egc|bare|green)(?: wire)?"
)


def sized_grounds(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Ground twelve", "ten ground": one of that size, and no dozen of them."""
    return [
        replace(act, awg=act.count, count=None, doubts=())
        if isinstance(act, acts.AddGrounds) and act.awg is None and _SIZED.fullmatch(act.words)
        else act
        for act in made
    ]


def _meant(thing: acts.Thing) -> acts.Reference:
    """The thing of the box that a definite noun group points at."""
    return acts.Reference(
        kind=KIND_OF[type(thing)],
        name=getattr(thing, "name", None),
        awg=getattr(thing, "awg", None),
        conductors=getattr(thing, "conductors", None),
        words=thing.words,
    )


#: Before a thing that others are at: "the pigtails on the receptacle, I cut those".
_OF_OTHERS = lazy_pattern(r"(?i)\b[a-z]+[^s\W]s (?:on|to|of|for|at|behind|off|from) $")
_THOSE = lazy_pattern(r"(?i)\b(?:those|them|these|they)\b")


def _left_out(kept: list[Act], order: acts.Remove, left: list[Unread]) -> None:
    """What is taken out is what is at a thing, and not the thing: nothing where it counts nothing,
    else nobody knows."""
    at = next((one for one in reversed(kept[:-1]) if one.span[1] <= order.span[0]), None)
    if not isinstance(at, acts.AddUncounted):
        left.append(Unread(order.words, order.span, True))


def topic_of_order(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "The 14-2, take it off", "that 14-2, I meant 12-2": what is named first is what is meant."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        if (
            isinstance(act, acts.Remove)
            and act.target.kind == "anything"
            and is_thing(last)
            and last.count is None
            and last.words.lower().startswith(("the ", "that ", "those "))
            and re.fullmatch(r"\s*[,:-]?\s*", heard[last.span[1] : act.span[0]])
        ):
            if _OF_OTHERS.search(heard[: last.span[0]]) and _THOSE.search(act.words):
                _left_out(kept, act, left)
                continue
            kept[-1] = replace(act, target=_meant(last), words=heard[last.span[0] : act.span[1]])
            continue
        if (
            isinstance(act, acts.Restate)
            and act.instead_of is None
            and is_thing(last)
            and type(last) is type(act.thing)
            and last.count is None
            and last.words.lower().startswith(("the ", "that ", "those "))
            and len(heard[last.span[1] : act.span[0]]) < 16
        ):
            span = (last.span[0], act.span[1])
            kept[-1] = acts.Replace(
                target=_meant(last),
                thing=act.thing,
                words=heard[slice(*span)],
                span=span,
                function="correction",
            )
            continue
        kept.append(act)
    return kept


def denials_last(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "No ground in these old cables, two 14-2s": the order of what is told does not matter."""
    grounds = [act for act in made if isinstance(act, acts.Deny) and act.target.kind == "grounds"]
    if not grounds or any(isinstance(act, acts.AddGrounds) for act in made):
        return made
    rest = [act for act in made if act not in grounds]
    last = max((n for n, act in enumerate(rest) if isinstance(act, acts.AddCable)), default=-1)
    if last < 0:
        return made
    return [*rest[: last + 1], *grounds, *rest[last + 1 :]]


_SUMMING = lazy_pattern(
    r"(?:i count|i make it|that is|that's|that makes|comes to|in all|total of)\s*$"
)


def without_sums(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "… I count sixteen conductors": what sums up the cables is no further conductor; "every
    last one of them" opens no box."""
    cables = any(isinstance(act, acts.AddCable) for act in made)
    kept: list[Act] = []
    for act in made:
        loose = isinstance(act, acts.AddConductors) and act.awg is None and cables
        if loose and _SUMMING.search(heard[max(0, act.span[0] - 20) : act.span[0]].lower()):
            continue
        opened = isinstance(act, acts.OpenBox) and act.which == "previous"
        if opened and len(made) > 1 and act.words.lower() in ("last one", "the last one"):
            continue
        kept.append(act)
    return kept


_ROLE = (
    r"(?:the )?(?:(?:power |hot )?feed|power(?: in| out)?|line(?: in)?|load(?: out)?|source"
    r"|home ?run|switch(?:ed)? (?:leg|loop)|travell?ers?|in|out)"
)
_ROLES = lazy_pattern(
    rf"\s*[,(–-]\s*(?P<roles>{_ROLE}(?:\s*(?:,\s*and\b|,|\band\b|&|/)\s*{_ROLE})+)(?=\s*[,.;)]|\s*$)",
    re.IGNORECASE,
)


def _named_behind(behind: str, count: int) -> int:
    """How many of the cables just counted the words behind them name by what they do: any number
    behind a colon, all of them where as many stand in a list ("two 14-2, feed and load")."""
    if behind.lstrip().startswith(":"):
        return count
    listed = _ROLES.match(behind)
    if listed is None:
        return 0
    named = len(re.findall(rf"(?:^|[\s,&/]){_ROLE}(?=$|[\s,&/])", listed["roles"], re.IGNORECASE))
    return count if named == count else 0


def listed_roles(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Three 14-2s: feed, load, and one going on": the roles of the cables just counted."""
    kept: list[Act] = []
    uncounted = 0
    for act in made:
        role = isinstance(act, acts.AddCable) and any(d.reason == "carried" for d in act.doubts)
        if uncounted and role:
            uncounted -= counted(act) or 1
            continue
        if uncounted and isinstance(act, acts.OtherTalk) and " " not in act.words.strip():
            uncounted -= 1  # "load" is talk of something else anywhere else
            continue
        uncounted = 0
        if isinstance(act, acts.AddCable) and (act.count or 0) > 1:
            uncounted = _named_behind(heard[act.span[1] :], act.count or 0)
        kept.append(act)
    return kept


_JOINED = lazy_pattern(r"(?i)\b(?:more|another|plus|and|also|with|then)\b")


def _counted_so(kept: list[Act], act: Act, heard: str) -> bool:
    """Whether a thing says once more what was just counted: "two 14-2, no, three of them. Three
    14-2"."""
    last, before = kept[-1], kept[-2] if len(kept) > 1 else None
    thing = before.thing if isinstance(before, acts.Restate) else before
    return (
        isinstance(last, acts.Recount)
        and last.target.kind == "anything"
        and is_thing(act)
        and is_thing(thing)
        and type(act) is type(thing)
        and act.count == last.count
        and all(
            getattr(act, slot, None) == getattr(thing, slot, None)
            for slot in ("awg", "conductors", "name", "role")
        )
        and not _JOINED.search(heard[last.span[1] : act.span[0]] + act.words)
    )


def once_corrected(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """What a correction says twice is said once: "it's a 14-2 after all. Two 14-2s."; and what
    comes beside it by role alone ("the fan feed") is what was just counted."""
    kept: list[Act] = []
    corrected = False
    for act in made:
        last = kept[-1] if kept else None
        corrected = corrected or isinstance(last, (acts.Restate, acts.Remove, acts.Recount))
        if isinstance(last, acts.Restate) and is_thing(act) and type(act) is type(last.thing):
            same = all(
                getattr(act, slot, None) == getattr(last.thing, slot, None)
                for slot in ("awg", "conductors", "name", "role")
            ) and (getattr(act, "ground", None) is False) == (
                getattr(last.thing, "ground", None) is False
            )
            if (
                same
                and act.count is not None
                and not _JOINED.search(heard[last.span[1] : act.span[0]] + act.words)
            ):
                kept[-1] = replace(last, thing=replace(last.thing, count=act.count))
                continue
        if isinstance(last, acts.Recount) and _counted_so(kept, act, heard):
            kept.pop()
            before = kept[-1]
            if isinstance(before, acts.Restate):
                kept[-1] = replace(before, thing=replace(before.thing, count=last.count))
            elif is_thing(before):
                kept[-1] = replace(before, count=last.count)
            continue
        role = (
            isinstance(act, acts.AddCable)
            and act.role is not None
            and act.count is None
            and any(d.reason == "carried" for d in act.doubts)
        )
        if role and corrected:
            continue
        if (
            isinstance(act, acts.Remove)
            and act.target.kind == "anything"
            and isinstance(last, acts.Remove)
            and re.match(r"(?i)(?:it|that|they)\b", act.words)
        ):
            continue
        kept.append(act)
    go_ahead = [
        act for act in kept if isinstance(act, acts.DoIt) and "go ahead" in act.words.lower()
    ]
    if go_ahead and any(
        isinstance(act, (*THINGS.values(), acts.Remove, acts.Replace, acts.More)) for act in kept
    ):
        kept = [act for act in kept if act not in go_ahead]
    if any(map(is_thing, kept)):
        kept = [
            act
            for act in kept
            if not (isinstance(act, acts.Undo) and re.match(r"(?i)forgot", act.words))
        ]
    return kept


def ungrounded(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """Beside cables that are said to have no ground, "ground" by itself is none."""
    return [
        act
        for act in made
        if not (isinstance(act, acts.AddGrounds) and act.count is None and act.awg is None)
    ]
