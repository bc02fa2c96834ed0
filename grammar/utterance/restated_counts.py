"""Counts that are said anew: what corrects or sums up adds nothing."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.building.plain_things import just_like
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.neighbours import joining

_MORE = lazy_pattern(r"(?i)\b(?:more|another|extra|additional|other)\b")
_SUMS = lazy_pattern(
    r"(?:so|that makes|that would make|that is|makes|making|which makes|for a total of"
    r"|so that makes|so now)(?: (?:it is|that is|there are|there is|i have|we have|it|is|now))* <"
)
_ADDING = lazy_pattern(
    r"(?i)\b(?:add(?:ed|ing)?|put(?:ting)?|throw|run|bring|stick|include|plus|also)(?: in| on)? $"
)
_SIGNED = lazy_pattern(r"[-–−](?=\d)")


def sums_up(clause: Clause, made: list[Act]) -> bool:
    """ "… there's a third 14-2, so three 14-2s", "that makes three": what is now, behind what
    was just changed."""
    if clause.mood != "declarative" or not _SUMS.match(clause.line):
        return False
    corrected = clause.line.startswith("so ") and any(act.function == "correction" for act in made)
    return corrected or any(_changed_alike(clause, act) for act in made)


def _changed_alike(clause: Clause, act: Act) -> bool:
    """Whether an act took away, or brought in more of, what the clause counts; so many are never
    fewer than were told before, or it counts others: "two 14-3s, I need a red, so a 14-3"."""
    if isinstance(act, (acts.Remove, acts.More, acts.Recount)):
        return True
    if not is_thing(act) or act.count is None:
        return False
    alike = [found for found in clause.found if found.get("count") is not None]
    return bool(alike) and all(
        int(str(found.get("count"))) >= act.count
        and all(
            (found.get(slot) or None) == getattr(act, slot, None)
            for slot in ("awg", "conductors", "name")
        )
        for found in alike
    )


def _awg(thing: acts.Thing) -> int | None:
    return getattr(thing, "awg", None)


def named_again(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "No, two. Two 14-2s.": the number, and then what it counts, is one correction."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        named = act.thing if isinstance(act, acts.Restate) else act
        if isinstance(last, acts.Size) and is_thing(named) and _awg(named) == last.awg:
            kept[-1] = act  # "I meant twelves, they're twelve-twos"
            continue
        if (
            isinstance(last, acts.RestateNumber)
            and last.of is None
            and is_thing(act)
            and act.count == last.value
            and not _MORE.search(act.words)
        ):
            span = (last.span[0], act.span[1])
            kept[-1] = acts.Restate(
                thing=act,
                instead_of=just_like(act),
                words=heard[slice(*span)],
                span=span,
                doubts=act.doubts,
                function="correction",
            )
            continue
        kept.append(act)
    return kept


def only_added(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Add only 1 14-2": so many come in, and those that are there stay."""
    return [
        act.thing
        if isinstance(act, acts.Restate) and _ADDING.search(heard[: act.span[0]])
        and act.words.lower().startswith(("only ", "just "))
        else act
        for act in made
    ]  # fmt: skip


_BEFORE = lazy_pattern(r"(?i)(?:\s|,|um|uh|er|hello|hi|hey|ok|okay|so|and|no|well|oh)*")
_IT = lazy_pattern(r"(?i)\b(?:it|that|them|those|this|out)\b")
#: "One switch no, take it out", "one 14-2 is dead, I pulled it out".
_PUT_OUT = lazy_pattern(
    r"(?i)\s*(?:(?:is|was|are|were|looks|turned out)(?: [a-z']+){1,4})?\s*,?"
    r"\s*(?:no|not|nope|so|and)?\s*,?\s*(?:(?:i|we|he|they)(?: just| already)?\s)?"
)


def put_out(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "One switch no, take it out": so many of those that are there go."""
    kept: list[Act] = []
    for act in made:
        told = [one for one in kept if not isinstance(one, acts.No)]
        last = told[-1] if told else None
        if (
            isinstance(act, acts.Remove)
            and act.target.kind == "anything"
            and _IT.search(act.words)
            and len(told) == 1
            and is_thing(last)
            and last.count is not None
            and _PUT_OUT.fullmatch(heard, last.span[1], act.span[0])
            and _BEFORE.fullmatch(heard, 0, last.span[0])
        ):
            span = (last.span[0], act.span[1])
            target = replace(just_like(last), count=last.count)
            kept = [acts.Remove(target=target, words=heard[slice(*span)], span=span)]
            continue
        kept.append(act)
    return kept


_TO_THAT = lazy_pattern(
    r"(?i)(?:please |so |then |and )*(?:change|swap|switch|set|make)\s+(?:it|the box|that|this)"
    r"(?:\s+(?:to|for|into) (?:that|this|it)(?: one)?|(?: out)?\s*(?=[.,!]|$))"
)


def _says_again(run: Unread, made: list[Act], heard: str) -> bool:
    box = any(isinstance(act, (acts.SetSize, acts.SetVolume)) for act in made)
    order = _TO_THAT.search(heard)
    return box and order is not None and order.start() <= run.span[0] < order.end()


def ordered_again(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "… the 3x2x3-1/2 one. Please change it to that": the order says no more than the box."""
    left[:] = [run for run in left if not _says_again(run, made, heard)]
    return made


def taken_off(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "-1 12/2", said by itself: one of them goes. In a list the sign may be a bullet."""
    told = [act for act in made if not isinstance(act, (acts.Social, acts.No, acts.Yes))]
    act = told[0] if len(told) == 1 else None
    if not is_thing(act) or "\n" in heard or not _SIGNED.match(act.words):
        return made
    if act.count is None or act.count >= 0:
        return made
    target = replace(just_like(act), count=-act.count)
    gone = acts.Remove(target=target, words=act.words, span=act.span, function="request")
    return [gone if one is act else one for one in made]


_COUNTED = (acts.AddCable, acts.AddConductors, acts.AddDevice)


def counted_aloud(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "One, two, three, four 14-2s": who counts aloud says one number for each, and the last
    with the thing; the numbers before it are of the same things."""
    kept: list[Act] = []
    for act in made:
        count = act.count if isinstance(act, _COUNTED) else None
        if count is not None and count > 1:
            from_one, from_two = kept[-count + 1 :], kept[-count + 2 :] if count > 2 else []
            if _run_up(from_one, 1, act, heard):
                del kept[-count + 1 :]
            elif _run_up(from_two, 2, act, heard) and _ONE.search(heard[: from_two[0].span[0]]):
                del kept[-count + 2 :]
        kept.append(act)
    return kept


#: "I've counted one, two, three cables": the "one" is of no act by itself.
_ONE = lazy_pattern(r"(?i)\b(?:one|1)[ ,.…-]*$")


def _run_up(numbers: list[Act], first: int, counted: Act, heard: str) -> bool:
    """Whether bare numbers, each one more than the last, lead up to the thing counted."""
    count = counted.count if isinstance(counted, _COUNTED) else None
    values = [one.value if isinstance(one, acts.Number) else None for one in numbers]
    spans = [*(one.span for one in numbers), counted.span]
    return (
        bool(numbers)
        and count is not None
        and len(values) == count - first  # a huge count makes no list of its numbers
        and values == list(range(first, count))
        and not any(heard[a[1] : b[0]].strip(" ,.-…") for a, b in pairwise(spans))
    )


def passes_through_again(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Four whites, four blacks, two of those whites and two blacks run straight through": some
    of those counted. A conductor through without a splice counts once, 314.16(B)(1), as the
    counted ones do."""
    return [
        act for place, act in enumerate(made) if not _of_those_through(act, made[:place], heard)
    ]


_OF_THOSE = lazy_pattern(r"(?i)\bof (?:those|these|the|them) (?:[a-z]+ )?and $")


def _of_those_through(act: Act, before: list[Act], heard: str) -> bool:
    return (
        isinstance(act, acts.AddConductors)
        and act.path == "through"
        and any(doubt.reason == "carried" for doubt in act.doubts)
        and _OF_THOSE.search(heard[max(0, act.span[0] - 40) : act.span[0]]) is not None
        and any(
            isinstance(other, acts.AddConductors)
            and (other.role, other.awg) == (act.role, act.awg)
            and (other.count or 1) >= (act.count or 1)
            for other in before
        )
    )


_THOUGHT = lazy_pattern(
    r"(?i)\b(?:i|we|he|she|they)(?:['’]d| had| have|['’]ve)?"
    r" (?:thought|figured|guessed|expected|assumed|believed|remembered|first saw|saw at first)"
    r"(?: (?:that|there|it|they|i|we|was|were|had|only|just|about|all))* $"
)
_BUT = lazy_pattern(
    r"(?i)[ ,.;]*(?:but|and|only|now|turns out)\b[^.;?!]{0,60}?"
    r"|[.;]+ *(?:turns out|it turns out|but|now|no)\b[ ,]*[^.;?!]{0,40}?"
)
_COUNT_ONLY = lazy_pattern(
    r"(?i)(?:(?:but|and|so|now) )*(?:(?:there|it|that|they)(?:['’]?s|['’]?re| is| are| were| was)?"
    r" |i (?:see|count|found|have|got) )?(?:really |actually |only |just |all )*[a-z0-9]+"
)


@joining
def thought_before(last: Act, act: Act, heard: str) -> Act | None:
    """ "I thought two 14-2s, but now there are three": so many, and not those that were thought."""
    value = act.value if isinstance(act, (acts.Number, acts.RestateNumber)) else None
    if (
        value is not None
        and value == int(value)
        and 0 < value < 10
        and is_thing(last)
        and last.count is not None
        and _THOUGHT.search(heard[: last.span[0]])
        and _BUT.fullmatch(heard, last.span[1], act.span[0])
        and _COUNT_ONLY.fullmatch(act.words)
    ):
        thing = replace(last, count=int(value), words=act.words, span=act.span)
        return acts.Restate(
            thing=thing, instead_of=just_like(last), words=act.words, span=act.span,
            doubts=act.doubts, function="correction",
        )  # fmt: skip
    return None
