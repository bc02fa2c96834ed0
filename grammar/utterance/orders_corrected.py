"""An order to take something out that is corrected, or told more exactly, in the same breath."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.act_kinds import is_thing, pointed_at
from boxaloud.grammar.lazy_patterns import lazy_pattern

_NO = r"(?:no|nope|wait|sorry|actually|i mean|i meant|rather|correction|oops|hold on|my bad)"
_CORRECTS = lazy_pattern(rf"(?i)[\s,.;–-]*(?:{_NO}[\s,.;]+)+(?:(?:not that,? )?(?:make that )?)?")
_NAMES = lazy_pattern(r"(?i)\s*[,:–-]+\s*(?:that is |that's )?")
_ORDERS = lazy_pattern(
    r"(?i)\b(?:take|pull|leave|rip|knock|cross|strike|cut|throw|kick|yank|remove|drop|lose|delete"
    r"|scratch|ditch|kill|nix|scrap|lift|clear)(?:\s+(?:out|off|away))?\s+$"
)
_FORBIDS = lazy_pattern(r"(?i)(?:\bnot|\bnever|n['’]t)(?:\s+[a-z]+)?\s+$")
_DEFINITE = lazy_pattern(r"(?i)(?:the|that) ")
_TOO = lazy_pattern(r"(?i)[^,.;]*\b(?:too|also|as well|both)\b")


def orders_corrected(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Drop the switch, no wait, drop the 14-3": the second alone; "take one out, the 14-3": that
    one."""
    kept: list[Act] = []
    for told in made:
        act = _kept_in(told, heard)
        if kept and _of_no_order(kept[-1], act, heard):
            continue
        first = _order_before(kept, heard)
        if first is None or isinstance(act, acts.No):
            kept.append(act)
            continue
        order = kept[first]
        between = heard[order.span[1] : act.span[0]]
        if (anew := _anew(order, act, between, heard)) is not None:
            kept[first:] = [anew]
        else:
            kept.append(act)
    return kept


def _kept_in(act: Act, heard: str) -> Act:
    """ "Don't take out a 14-2, no": what is forbidden is no denial."""
    before = _ORDERS.search(heard[: act.span[0]]) if isinstance(act, acts.Deny) else None
    if before is None or not _FORBIDS.search(heard[: before.start()]):
        return act
    span = (before.start(), act.span[1])
    return acts.Keep(words=heard[slice(*span)], span=span)


_UNTOLD = (acts.Keep, acts.Suppose, acts.Ask, acts.AskMeaning, acts.AskUnknown)
_TAKES = lazy_pattern(
    r"(?i).*\b(?:take|pull|leave|remove|drop|lose|delete|scratch|ditch|yank|cut)\b.*\b(?:one|a|cable)\b"
)


def _of_no_order(untold: Act, act: Act, heard: str) -> bool:
    """ "Should I take one out, the 14-3?": which one is meant, and none comes in."""
    if not isinstance(untold, _UNTOLD) or not is_thing(act) or not _TAKES.match(untold.words):
        return False
    between = heard[untold.span[1] : act.span[0]]
    named = _NAMES.fullmatch(between) or _CORRECTS.fullmatch(between)
    return named is not None and _DEFINITE.match(act.words) is not None


def _order_before(kept: list[Act], heard: str) -> int | None:
    """Where the order stands that was given last; a “no” may stand behind it."""
    place = len(kept) - 1
    while place >= 0 and isinstance(kept[place], acts.No):
        place -= 1
    return place if place >= 0 and _takes_out(kept[place], heard) else None


def _takes_out(act: Act, heard: str) -> bool:
    """ "Take out a 14-2, no, the 14-3": read as a denial, it is an order all the same."""
    ordered = isinstance(act, acts.Deny) and _ORDERS.search(heard[: act.span[0]]) is not None
    return ordered or isinstance(act, acts.Remove)


_IT_IS = lazy_pattern(
    r"(?i)(?:it|that)(?:['’]s| is| was) (?:(?:really|actually|just|only|in fact) )*"
    r"(?:an?|another|one more|the|one|yet another) "
)
_BREAK = lazy_pattern(r"[\s,.;:!–—-]*")


def _really(order: Act, act: Act, between: str) -> Act | None:
    """ "Strike the 12-3. It's a third 12-2": the one is the other; "it's a dead 12-3": none is."""
    if not isinstance(order, acts.Remove) or not isinstance(act, acts.Restate):
        return None
    thing, target = act.thing, order.target
    if act.instead_of is not None or not isinstance(thing, (acts.AddCable, acts.AddDevice)):
        return None
    new = pointed_at(thing, thing.words)
    told = _IT_IS.match(act.words) and _BREAK.fullmatch(between)
    if not told or target.kind != new.kind or target.count not in (None, 1):
        return None
    if (new.awg, new.conductors, new.name) == (target.awg, target.conductors, target.name):
        return order
    return acts.Replace(
        target=target, thing=replace(thing, count=1), words=f"{order.words}{between}{act.words}",
        span=(order.span[0], act.span[1]), function="correction",
    )  # fmt: skip


def _anew(order: Act, act: Act, between: str, heard: str) -> Act | None:
    if (really := _really(order, act, between)) is not None:
        return really
    corrects = _CORRECTS.fullmatch(between) is not None
    if isinstance(act, acts.Remove):
        corrects = corrects or _CORRECTS.match(act.words) is not None
        return act if corrects and not _TOO.match(heard, act.span[0]) else None
    span = (order.span[0], act.span[1])
    if isinstance(act, acts.Restate) and act.instead_of is None:
        act = act.thing
    if not is_thing(act) or not _DEFINITE.match(act.words):
        return None
    if not isinstance(order, (acts.Remove, acts.Deny)):
        return None
    target = pointed_at(act, act.words)
    same = order.target.awg in (None, target.awg) and order.target.name in (None, target.name)
    if not corrects and not (same and _NAMES.fullmatch(between)):
        return None
    return acts.Remove(
        target=replace(target, count=order.target.count or 1),
        words=heard[slice(*span)], span=span, function="request",
    )  # fmt: skip
