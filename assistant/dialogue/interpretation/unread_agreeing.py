"""Words left unread that only say again what was told: "six 12-2s in a 42, six, right", "I can live
without the 12-2. Delete.", "not 18, it's 16". They weigh nothing: what they could change is read.

A number stands alone between two marks, or is denied or asked; one that is joined to what was told
("two 14-2s and two") may be so many more, and goes on weighing.
"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread, Utterance
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.rewriting.spoken_values import SPOKEN_VALUE, spoken_value

_MARK = lazy_pattern(r"[,.;:?!…]")
_ALONE = lazy_pattern(
    r"(?i)\W*(?:(?:yep|yes|yeah|right|so|ok|okay|still|that['’]s|that is|it['’]s|it is|there['’]s"
    r"|checked it|checked|counted(?: them)?(?: again| twice)?|i counted|i count|all|the)\W+)*"
    r"(?P<value>[a-z]+(?:[- ][a-z]+)?|\d+)"
    r"(?:\s+of (?:them|['’]em|those))?(?:\W+(?:yep|yes|yeah|right|correct|sure))*\W*"
)
_AGREES = lazy_pattern(
    r"(?i)\b(?:yep|yes|yeah|right|still|that['’]s|it['’]s|it is|check\w*|count\w*)\W*$"
)
_AGREES_BEHIND = lazy_pattern(r"(?i)\W*(?:yep|yes|yeah|right|correct|sure)\b")
_ASKS = lazy_pattern(
    r"(?i)\W*(?:(?:so|and|but|ok|okay|well|now|um|uh|hello|hi)\W+)*(?:what|how|which|why|where"
    r"|is it|does|did|do|are we)\b[^?]*\?\W*$"
)
_DENIED = lazy_pattern(r"(?i)\bnot (?:an? |the )?$")
_OTHERS = lazy_pattern(r"(?i)\b(?:the|those|these) other $")
_ONE_MORE = lazy_pattern(r"(?i)\b(?:third|fourth|fifth|sixth|another|one more|extra)\b")
_ORDERS = lazy_pattern(
    r"(?i)\W*(?:please )?(?:(?P<out>delete|remove|lose|drop|pull|scratch|cancel|(?:take|pull) (?:it"
    r"|that|them)(?: out| off)?)|(?P<change>(?:change|swap|replace|switch)(?: it| that| them)?))\W*"
)


def unread_agreeing(read: Utterance, state: State, capacity: Decimal | None) -> Utterance:
    """The utterance without the unread words that agree with what it tells; `capacity` is that of
    the box before it, in cubic inches."""
    if not any(run.weighty for run in read.unread):
        return read
    kept = tuple(run for run in read.unread if not _agrees(run, read, state, capacity))
    return read if len(kept) == len(read.unread) else replace(read, unread=kept)


def _agrees(run: Unread, read: Utterance, state: State, capacity: Decimal | None) -> bool:
    order = _ORDERS.fullmatch(run.words)
    if order is not None:
        change = order.lastgroup == "change" and "switch" not in run.words.lower()
        wide = change and capacity is not None and _names_what(run, read)
        kind = "box" if wide else order.lastgroup
        return any(isinstance(act, _CARRIED_OUT[kind or ""]) for act in read.acts)
    number = run.words.strip(" '’").lower()
    found = SPOKEN_VALUE.fullmatch(number)
    if found is None or found["value"] != number:
        return False  # "the 12s": of a size
    value = spoken_value(number)
    before = read.heard[: run.span[0]]
    if _DENIED.search(before):
        marked = any(isinstance(act, acts.SetVolume | acts.RestateNumber) for act in read.acts)
        return marked and value == capacity
    if _OTHERS.search(before) and _ONE_MORE.search(before):
        there = value in [item.content.count for item in state.items]
        return there and any(is_thing(act) or isinstance(act, acts.More) for act in read.acts)
    if _ASKS.match(read.heard):
        return not any(is_thing(act) or isinstance(act, _CHANGES) for act in read.acts)
    alone = _stands_alone(run, read.heard)
    if alone is None:
        return False
    told = _counts_before(run, read)
    return value in told if alone else told[-1:] == [value]


_CHANGES = (acts.Restate, acts.Replace, acts.Remove, acts.Recount, acts.RestateNumber, acts.More)


_CARRIED_OUT: dict[str, tuple[type[Act], ...]] = {
    "out": (acts.Remove, acts.Deny),
    "change": (acts.Replace, acts.Restate),
    "box": (
        acts.Replace, acts.Restate, acts.SetVolume, acts.SetSize, acts.SetEdition, acts.Remove,
        acts.Deny,
    ),
}  # fmt: skip
"""What an order to take out, to change something, or to change what is named right behind it comes
to. "Switch" may be a device that was not read."""
_TO = lazy_pattern(
    r"(?i)\W*(?:(?:it|that|this|them|the box|box|one)\b)?\W*(?:(?:to|for|with|into|be|out|over|an?"
    r"|the|bigger|deeper|larger|new|other)\b\W*)*"
)


def _names_what(run: Unread, read: Utterance) -> bool:
    """ "Change it to the two and an eighth": whether what is changed follows the order at once."""
    behind = [act.span[0] for act in read.acts if act.span[0] >= run.span[1]]
    return bool(behind) and _TO.fullmatch(read.heard, run.span[1], min(behind)) is not None


def _stands_alone(run: Unread, heard: str) -> bool | None:
    """Whether a number that makes up all that stands between two marks says that it agrees, as in
    "…, six, right."; None where it does not stand alone."""
    start = max((mark.end() for mark in _MARK.finditer(heard, 0, run.span[0])), default=-1)
    if start < 0:
        return None
    end = _MARK.search(heard, run.span[1])
    last = len(heard) if end is None else end.start()
    if _ALONE.fullmatch(heard[start:last]) is None:
        return None
    says = _AGREES.search(heard[start : run.span[0]]) or _AGREES_BEHIND.match(heard, run.span[1])
    return says is not None


def _counts_before(run: Unread, read: Utterance) -> list[int]:
    """How many were told of each thing before some words, in the order told."""
    told = [act for act in read.acts if act.span[1] <= run.span[0] and _is_counted(act)]
    return [getattr(act, "count", 0) for act in sorted(told, key=lambda act: act.span[1])]


def _is_counted(act: Act) -> bool:
    return is_thing(act) and isinstance(getattr(act, "count", None), int)
