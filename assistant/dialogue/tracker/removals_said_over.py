"""What goes told twice in one breath, and what goes of what came in last: "I pulled it. Minus one
14-2", "forget those two"."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Reference
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.rules.contents import Cable, Yoke

_THAT = re.compile(r"(?i)that\b")
_LESS = re.compile(r"(?i)(?:so |that's |thats |makes |making it )*(?:minus|less) (?:one|1|a)\b")


def said_over(turn: Turn, act: acts.Remove) -> bool:
    """Whether the same breath took it out already; it is then understood, and takes no more."""
    again = (
        _taken_just_now(turn, act)
        or _pointed_at_again(turn, act)
        or _fewer_by_now(turn, act)
        or _another_by_now(turn, act.target)
    )
    if again:
        turn.understood.append(act.words)
    return again


_PASSED = (acts.OtherTalk, acts.Social, acts.Keep)
_IT = re.compile(r"(?i)(?:it|that|that one|this one)")


def _pointed_at_again(turn: Turn, act: acts.Remove) -> bool:
    """ "One of the 14-2s is coming out. Pull it": the one that went a moment ago, and none that
    stays."""
    before = next((one for one in reversed(turn.done[:-1]) if not isinstance(one, _PASSED)), None)
    target = act.target
    pronoun = target.kind == "anything" and target.item is None and target.count is None
    return (
        pronoun
        and isinstance(before, acts.Remove)
        and before.target.count == 1
        and _IT.fullmatch(target.words.strip()) is not None
    )


def _taken_just_now(turn: Turn, act: acts.Remove) -> bool:
    """ "One of them goes nowhere, I'm taking that 14-2 out", "I pulled it. Minus one 14-2": the one
    that went a moment ago."""
    before = turn.done[-2] if len(turn.done) > 1 else None
    taken = turn.state.recalled[-1].content if turn.state.recalled else None
    if not isinstance(before, acts.Remove) or not isinstance(taken, Cable):
        return False
    nth = act.target.ordinal  # "that one goes past the box. Forget the fourth": it was the fourth
    if nth is not None and _GOES_BY.search(before.words):
        held = references.find(turn.state, Reference(kind="cable"))
        return held is not None and held.content.count == nth - 1
    one = before.target.count == 1 == taken.count and act.target.count in (None, 1)
    like = act.target.kind == "cable" and act.target.awg == taken.awg
    told = _THAT.match(act.target.words) or _LESS.match(act.words)
    return one and like and told is not None


_GOES_BY = lazy_pattern(
    r"(?i)\b(?:that|this) one(?: just| only)?(?:['’]s| is)? (?:(?:just|only) )?"
    r"(?:goes|going|runs|running|passes|passing|went|heads) (?:(?:right|straight|on) )*"
    r"(?:by|past|behind|around|over|along)\b[^.;!?]*[.,;]?[^.;!?]{0,24}$"
)


def that_goes_by(turn: Turn, act: acts.Remove) -> acts.Remove:
    """ "That one goes by behind the box. It's not in here": a cable that passes, one of those there
    are, and neither a device nor all that came in last."""
    target = act.target
    pointed = target.kind == "anything" and target.item is None and target.count is None
    if not pointed or not _GOES_BY.search(turn.heard[: act.span[1]]):
        return act
    return replace(act, target=Reference(kind="wire", count=1))


_THOSE = re.compile(r"(?i)\b(?:those|these|them|the last) (?:two|three|four|five|six|[2-6])\b")


def those_of_late(turn: Turn, act: acts.Remove) -> Reference:
    """ "Forget those two", of two that came in last: these, whatever else there are two of."""
    last = turn.state.item(turn.state.last)
    bare = act.target.kind == "anything" and act.target.item is None and not act.target.words
    if last is None or not bare or not _THOSE.search(act.words):
        return act.target
    came = turn.state.added == act.target.count == last.content.count
    return replace(act.target, item=last.key) if came else act.target


def _another_by_now(turn: Turn, target: Reference) -> bool:
    """ "That's a plain duplex here, the GFCI's in the next box": what the same breath made another,
    of which none is left."""
    if target.kind != "device" or target.name in (None, "device") or turn.supposed:
        return False
    if not any(isinstance(one, (acts.Restate, acts.Replace)) for one in turn.done):
        return False
    like = replace(target, words="", count=None, which="said")
    was, now = (
        any(references.agrees(item, like) for item in state.items)
        for state in (turn.began, turn.state)
    )
    return was and not now


def _fewer_by_now(turn: Turn, act: acts.Remove) -> bool:
    """ "Actually one receptacle and a blank. Take one device off": what the same breath has put
    right already."""
    target = act.target
    if target.kind != "device" or target.name not in (None, "device") or turn.supposed:
        return False
    if not any(isinstance(one, acts.Restate) for one in turn.done):
        return False
    before, now = (
        sum(item.content.count for item in state.items if isinstance(item.content, Yoke))
        for state in (turn.began, turn.state)
    )
    return before - now == (target.count or 1)
