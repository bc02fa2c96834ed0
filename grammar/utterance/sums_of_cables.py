"""What is counted up behind cables: "two pairs of 14-2, so four cables, eight wires and grounds".

Numbers that only say again what the cables come to are no further ones. Where they are not as
many, it is open which number is right, and they are left unread (each conductor counts,
314.16(B)(1)).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import islice

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_LEADS = lazy_pattern(
    r"(?i)(?:[,;:=–-]|\.)?\s*\(?\s*(?:so|meaning|which is|which are|which makes|that makes|making"
    r"|i\.?e\.?|in other words|for a total of|totall?ing|that is|that's|all told|altogether|in all"
    r"|a total of)[, ]*(?:(?:there are|there is|i have|it is|it's|a total of|that is|that's|then)"
    r" ?[, ]*)*$"
)
_BEHIND = lazy_pattern(r"(?i),? (?:in all|altogether|all told|in total)\b")
_GOES_ON = lazy_pattern(r"(?i)\s*(?:,|and|with|plus|&|,? ?and|in all|altogether|,? ?plus)?\s*$")
_MORE = lazy_pattern(r"(?i)\b(?:more|another|extra|additional|other|also|too|further)\b")


def summed_up(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts without what only counts the cables and their conductors once more."""
    kept: list[Act] = []
    cables: list[acts.AddCable] = []
    summing = False
    end = 0
    for act in made:
        before = heard[kept[-1].span[1] : act.span[0]] if kept else ""
        gap, end = heard[end : act.span[0]], act.span[1]
        leads = bool(_LEADS.search(gap) or _BEHIND.match(heard, act.span[1]))
        summing = bool(cables) and (leads or (summing and _GOES_ON.match(gap) is not None))
        if not summing or not _is_sum(act) or _MORE.search(before + act.words):
            kept.append(act)
            cables.extend([act] if isinstance(act, acts.AddCable) else [])
            summing = summing and isinstance(act, acts.AddGrounds)
            continue
        if isinstance(act, acts.AddGrounds):
            kept.append(replace(act, count=None))  # the cables' own, 314.16(B)(5)
        elif not _agrees(act, cables):
            left.append(Unread(act.words, act.span, True))
    return kept


def _is_sum(act: Act) -> bool:
    """Whether an act counts with no size of its own."""
    if isinstance(act, acts.AddGrounds):
        return act.awg is None
    if isinstance(act, (acts.AddCable, acts.AddConductors)):
        lent = any(doubt.reason == "carried" for doubt in act.doubts)
        return act.count is not None and act.role is None and (act.awg is None or lent)
    return False


def _agrees(act: Act, cables: Sequence[acts.AddCable]) -> bool:
    """Whether a number is that of the cables, or of the conductors in them."""
    if isinstance(act, acts.AddCable):
        return act.count == sum(one.count or 1 for one in cables)
    wires = sum((one.count or 1) * (one.conductors or 0) for one in cables)
    return isinstance(act, acts.AddConductors) and act.count == wires


def split_by_way(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Six 12-2s, only splices, 3 in and 3 out": how those that were counted come and go."""
    kept: list[Act] = []
    place = 0
    while place < len(made):
        run = list(_ways(made, place))
        if len(run) > 1 and _same(run, _last_cable(kept), heard):
            place += len(run)
            continue
        kept.append(made[place])
        place += 1
    return kept


def _ways(made: Sequence[Act], place: int) -> Iterator[acts.AddCable]:
    """The numbers with a way and no size of their own that stand from a place on."""
    for act in islice(made, place, None):
        if not isinstance(act, acts.AddCable) or act.role not in ("in", "out"):
            return
        if not any(doubt.reason == "carried" for doubt in act.doubts):
            return
        yield act


def _last_cable(made: Sequence[Act]) -> acts.AddCable | None:
    """The cable that was counted last, also as what is only supposed."""
    for act in reversed(made):
        told = (act, *act.acts) if isinstance(act, acts.Suppose) else (act,)
        for one in reversed(told):
            if isinstance(one, acts.AddCable):
                return one
    return None


def _same(run: Sequence[acts.AddCable], cable: acts.AddCable | None, heard: str) -> bool:
    """Whether the numbers of a run are together those of a cable that was counted before."""
    if cable is None:
        return False
    between = heard[cable.span[1] : run[0].span[0]]
    joined = between.lower().split()[-1:] in (["and"], ["plus"], ["also"], ["then"])
    total = sum(one.count or 0 for one in run)
    return total == cable.count and not joined and not _MORE.search(between)
