"""Things counted anew once another was found: "three 14-2… there's another one, four 14-2"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.building.plain_things import just_like
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer import numbers

_NUMBER = r"(?:one|two|three|four|five|1|2|3|4|5)"
#: That there is more of what was counted, and nothing that is named.
_FOUND = lazy_pattern(
    r"(?i)\b(?:(?P<one>another(?: one)?|(?:missed|forgot|overlooked|skipped"
    rf"|didn['’]t (?:see|count)) (?:one|another))|(?P<n>{_NUMBER}) more"
    rf"|(?P<seen>{_NUMBER})(?: (?:is|was|are|were|sits?|sat|got))?"
    r" (?:(?:right|back|in|stuck|tucked|hiding|hidden|hid) )*(?:behind|hiding|hidden|hid|tucked"
    r"|(?:back )?there|in (?:the )?back)(?= *(?:[.,;:!…–—-]|$"
    r"| (?:it|that|them|there|(?:the )?others?|the (?:switch|receptacle|outlet|device|dimmer))\b))"
    r")\b"
    r"(?! (?:14|12|10|8|6|fourteen|twelve|ten)\b)"
)
#: Right before the second count: what makes it come on top.
_ON_TOP = lazy_pattern(r"(?i)\b(?:plus|and|also|add|then|with)\W*$")
_FURTHER = lazy_pattern(r"(?i)\b(?:more|another|extra|additional|other)\b")
#: Right behind it: where those go, so that they are others.
_WAY = lazy_pattern(
    r"(?i)\s+(?:more|extra|additional|others?|besides|too|also|to|for|from|going|coming|heading|up|out|down|over|in)\b"
)


_LONGEST = 60
"""Characters between the counts; behind more of them something else may be counted."""
_OF_THE_BOX = (acts.SetVolume, acts.SetSize, acts.SetClamps, acts.Land)
_BETWEEN = (acts.More, acts.Recount, acts.Number, acts.No, acts.Social, acts.OtherTalk)


def counted_anew(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The second count is of all of them, with those that were found between: none comes on top."""
    kept: list[Act] = []
    for act in made:
        act = _with_the_missed(kept, act, heard)
        if _was_missed(kept, act, heard):
            continue
        place = _first_count(kept, act, heard)
        if place is not None:
            first = kept[place]
            told = [one for one in kept[place + 1 :] if not isinstance(one, _BETWEEN)]
            counts = [one for one in told if not is_thing(one) or one.count is not None]
            seen = (counts[-1] if counts else first).span[1], act.span[0]
            left[:] = [run for run in left if not seen[0] <= run.span[0] < seen[1]]
            begins = seen[0] if told else first.span[0]
            act = replace(act, span=(begins, act.span[1]))  # all of it is read
            kept[place:] = told
        kept.append(act)
    return kept


_MISSED = lazy_pattern(r"(?i)\b(?:missed|forgot|overlooked|skipped)\b")
_NEXT = lazy_pattern(
    r"(?i)[\s,.;:–—-]*(?:so )?(?:(?:it|that|there)['’]?s |(?:it|that|there) (?:is|are) |make it )?"
)


def _was_missed(kept: Sequence[Act], act: Act, heard: str) -> bool:
    """ "Four 14-2s, I missed one": why there are four now, and no fifth."""
    last = kept[-1] if kept else None
    counted = isinstance(last, acts.Restate) or (is_thing(last) and last.count is not None)
    if last is None or not counted or not isinstance(act, acts.More):
        return False
    between = heard[last.span[1] : act.span[0]]
    missed = act.target.kind == "anything" and bool(_MISSED.search(act.words))
    return missed and _NEXT.fullmatch(between) is not None


def _with_the_missed(kept: list[Act], act: Act, heard: str) -> Act:
    """ "I missed one, three 14-2s": three in all; "I missed two, two 12-2s": those two."""
    last = kept[-1] if kept else None
    if not isinstance(last, acts.More) or last.target.kind != "anything" or not is_thing(act):
        return act
    near = _NEXT.fullmatch(heard, last.span[1], act.span[0]) and _MISSED.search(last.words)
    missed = last.count or 1
    if not near or act.count is None or act.count < missed:
        return act
    if act.count > missed and _FURTHER.search(act.words):
        return act
    kept.pop()
    if act.count == missed:
        return act
    return acts.Restate(
        thing=act, instead_of=just_like(act), words=act.words, span=act.span, doubts=act.doubts,
        function="correction",
    )  # fmt: skip


def _first_count(kept: Sequence[Act], act: Act, heard: str) -> int | None:
    """The place of the first count of the same things; None where an act counts none anew."""
    if not is_thing(act) or act.count is None:
        return None
    told = [place for place, one in enumerate(kept) if not isinstance(one, _BETWEEN)]
    like = [n for n in told if is_thing(one := kept[n]) and _same(one, act)]
    first = kept[like[-1]] if like else None
    if not is_thing(first) or first.count is None:
        return None
    if _FURTHER.search(act.words):
        return None
    place = like[-1]
    behind = [kept[one] for one in told if one > place]
    if not all(is_thing(one) or isinstance(one, _OF_THE_BOX) for one in behind):
        return None
    counts = [one for one in behind if not is_thing(one) or one.count is not None]
    between = heard[(counts[-1] if counts else first).span[1] : act.span[0]]
    found = _FOUND.search(between)
    if found is None or len(between) > _LONGEST:
        return None
    if _ON_TOP.search(between) or _WAY.match(heard, act.span[1]):
        return None
    number = found["n"] or found["seen"]
    more = numbers.value((number.lower(),)) if number else 1
    return place if more is not None and act.count == first.count + more else None


def _same(one: acts.Thing, other: acts.Thing) -> bool:
    """Whether both count things of one kind, size and name."""
    return type(one) is type(other) and all(
        getattr(one, slot, None) == getattr(other, slot, None)
        for slot in ("awg", "conductors", "name", "ground", "isolated")
    )
