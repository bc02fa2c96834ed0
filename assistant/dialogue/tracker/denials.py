"""Denials: they act on their own kind and name, and on nothing else."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import cast

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.assessment import assess
from boxaloud.assistant.dialogue.belief import held_acts
from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.nlg import item_names
from boxaloud.assistant.dialogue.nlg.sentences import joined, listed, say
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.state_parts import Item, Recalled
from boxaloud.assistant.dialogue.tracker import item_changes
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Reference, Thing
from boxaloud.grammar.clauses.act_fields import KIND_OF
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.rules.canadian_tally import CONNECTORS
from boxaloud.rules.contents import Cable, Conductors, FixtureWires, Grounds, Uncounted, Yoke

_SEVERAL = 2
"""Cables of a kind of which a denial of one may mean some."""


_SO_NOT = re.compile(r"(?i)\s*,?\s*(?:and )?not\s+(?:an? |the )?")


def _forbidden_with(turn: Turn, act: acts.Deny) -> bool:
    """ "Don't make that a 14-3 to the fan, not a 14-2": what it is not to be instead of, in one
    order that is forbidden; it denies nothing of the box."""
    before = turn.done[-2] if len(turn.done) > 1 else None
    if not isinstance(before, acts.Keep):
        return False
    return _SO_NOT.match(turn.heard, before.span[1], act.span[1]) is not None


def deny(turn: Turn, act: acts.Deny) -> None:
    """ "No switch": where one was entered it is taken out, for both cannot be so."""
    if _forbidden_with(turn, act):
        turn.understood.append(act.words)
        return
    target = act.target
    _drop_held(turn, target)
    state = turn.state
    if target.kind == "anything" and target.ordinal is not None:
        _no_nth(turn, act, target.ordinal)
        return
    if target.kind == "grounds":
        _no_grounds(turn, act)
        return
    if target.kind in ("part", "barrier"):
        rest = tuple(
            part
            for part in state.extras
            if target.name
            and not references.same_name(str(getattr(part, "label", "")), target.name)
        )
        turn.enter(altered(state, extras=rest), say("echo.no_such", what=target.name or "ring"))
        return
    if target.kind == "fixture_wires":
        fixture = [i for i in state.items if isinstance(i.content, FixtureWires)]
        _take_out(turn, fixture, act)
        return
    if target.kind in ("box", "clamps", "anything"):
        turn.understood.append(act.words)
        return
    if target.kind == "uncounted" and _connects(target.name):
        no_connectors(turn, act)
        return
    named = (
        target.name is not None
        or target.awg is not None
        or target.kind in ("fitting", "device", "terminal_block", "jumper", "uncounted")
    )
    found = references.find_all(state, replace(target, words="", count=None)) if named else []
    _take_out(turn, [item for item in found if _is_denied(item, target)], act)


def _no_nth(turn: Turn, act: acts.Deny, nth: int) -> None:
    """ "No fourth": of the four that there are one goes, and three stay three; of more of them
    nobody can tell which number is wrong."""
    counted = [item for item in turn.state.items if _may_be_nth(item, act.target)]
    so_many = [item for item in counted if item.content.count == nth]
    if len(so_many) > 1 or act.target.name:
        so_many = [item for item in so_many if item.key == turn.state.last]
    if len(so_many) == 1:
        item_changes.recount(turn, so_many[0], nth - 1, act.words)
    elif any(item.content.count >= nth for item in counted):
        turn.unplaced.append(act.words)
    else:
        turn.understood.append(act.words)


def _may_be_nth(item: Item, target: Reference) -> bool:
    """Whether "no third" or "no third switch" may be of an item."""
    if target.name is None:
        return not isinstance(item.content, Uncounted)
    of_it = target.name == "device" or target.name in references.called(item).lower()
    return isinstance(item.content, Yoke) and of_it


def _drop_held(turn: Turn, target: Reference) -> None:
    """ "No dimmers" while it is asked whether there are two hundred of them: they are dropped."""
    for pending in turn.held_before:
        if type(pending.act) not in KIND_OF or pending not in turn.state.pending:
            continue
        held = references.to_thing(cast(Thing, pending.act))
        known = ((held.awg, target.awg), (held.conductors, target.conductors))
        alike = all(None in pair or pair[0] == pair[1] for pair in known)
        if held.kind == target.kind and alike and _named_so(held.name or "", target):
            held_acts.drop(turn, pending)
            turn.echoes.append(say("echo.dropped", words=pending.act.words))


def _is_denied(item: Item, target: Reference) -> bool:
    """Whether an item is what a denial names, or one of it: "no receptacle" takes out the GFCI
    receptacle, "no GFCI receptacle" no receptacle that was called only that."""
    if not isinstance(item.content, references.TYPES[target.kind]):
        return False
    return _named_so(references.called(item), target)


def _named_so(name: str, target: Reference) -> bool:
    denied = (target.name or "").lower()
    return denied in ("", "device") or name.lower().endswith(denied)


_NOT_THIS = lazy_pattern(r"(?i)(?:\bnot|n['’]?t)(?: (?:the|a|an|really|actually|from|for))*\s*$")


_IT_IS_NOT = lazy_pattern(
    r"(?i)\b(?:it|that|this)(?: one)?(?:['’]s not|(?: is| was) not| isn['’]?t| wasn['’]?t)"
    r"(?: really| actually)?\s*$"
)


def _takes_more_than_said(turn: Turn, items: list[Item], act: acts.Deny) -> bool:
    """ "Not a 12-4", of two of them, or "12-3 on the way out, not 12-4", or "it's not a switch" of
    three: one of them, or all?"""
    if _IT_IS_NOT.search(turn.heard[: act.span[0]]):
        devices = [item for item in items if isinstance(item.content, Yoke)]
        if sum(item.content.count for item in devices) >= _SEVERAL:
            return True
    cables = [item for item in items if isinstance(item.content, Cable)]
    if sum(item.content.count for item in cables) < _SEVERAL:
        return False
    told = any(isinstance(one, acts.AddCable) for one in turn.done)
    return act.target.count == 1 or (
        told and _NOT_THIS.search(turn.heard[: act.span[0]]) is not None
    )


def _take_out(turn: Turn, items: list[Item], act: acts.Deny) -> None:
    state: State = turn.state
    if _takes_more_than_said(turn, items, act):
        turn.unplaced.append(act.words)
        return
    if len(items) == 1 and items[0].content.count >= _SEVERAL and _of_one(act.target):
        item_changes.recount(turn, items[0], items[0].content.count - 1, act.words)
        return
    for item in items:
        gone = Recalled(item.content, item.words)
        state = altered(state.without(item.key), recalled=(*state.recalled[-4:], gone))
    out = listed([item_names.heard(item.content) for item in items])
    what = _denied(act.target)
    turn.enter(state, say("echo.taken_out", what=out) if items else say("echo.no_such", what=what))


_THE = lazy_pattern(r"(?i)(?:the|that|this)\b")


def _of_one(target: Reference) -> bool:
    """ "Never mind the hall 12/2": of several that are alike, one."""
    alone = target.kind in ("cable", "device") and target.count in (None, 1)
    return alone and _THE.match(target.words) is not None and not references.plural(target.words)


def _denied(target: Reference) -> str:
    """What is not there, in words: "14-3 cable", "hickey", "wires"."""
    kind = {"wire": "wires"}.get(target.kind, target.kind.replace("_", " "))
    if target.kind == "cable" and target.awg is not None and target.conductors is not None:
        return f"{target.awg}-{target.conductors} {kind}"
    return target.name or kind


def _no_grounds(turn: Turn, act: acts.Deny) -> None:
    """ "No ground": cables said with one by default lose it, and so do grounds said apart."""
    state = turn.state
    for item in state.items:
        if isinstance(item.content, Cable) and item.content.ground is not None:
            state = state.with_content(item.key, replace(item.content, ground=None))
        elif isinstance(item.content, Grounds) and not item.content.isolated:
            state = state.without(item.key)
    turn.enter(altered(state, grounds="none", last=turn.state.last), say("echo.no_grounds"))


def _connects(name: str | None) -> bool:
    return name in CONNECTORS


def no_connectors(turn: Turn, act: acts.Act) -> None:
    """ "No wire nuts": none is left, and Canada need not ask for their number."""
    state = turn.state
    for item in state.items:
        if isinstance(item.content, Uncounted) and item.content.kind in CONNECTORS:
            state = state.without(item.key)
    turn.enter(altered(state, no_connectors=True), say("echo.no_such", what="wire connector"))


def nothing_else(turn: Turn, act: acts.NothingElse) -> None:
    """ "Nothing else in it", "that's all"."""
    state = turn.state
    if act.of == "other" or " yet" in act.words.lower():
        turn.enter(state, say("echo.no_other"))
        return
    changes: list[str] = []
    # "that's all" ends the list; only "nothing else in it" says that no clamp is there either
    bare = any(word in act.words.lower() for word in ("nothing", "empty", "not a thing", "none"))
    if (
        state.clamps == "unknown"
        and (bare or act.function == "request")
        and not _asks_on(turn)
        and not _of_ways(turn)
        and not _decides(state, turn)
    ):
        state = altered(state, clamps="none")
        changes.append(say("clamps.none"))
    if state.grounds == "unsaid" and not _has_grounds(turn) and _loose(turn):
        state = altered(state, grounds="none")
        changes.append(say("no_grounds"))
    state = altered(state, empty=state.empty or bare or bool(state.items))
    turn.closes = assess(state).verdict != "incomplete"
    plain = "" if turn.closes else say("fine")
    turn.enter(state, _nothing_more(changes) or plain, act.words)


_IN_IT = re.compile(
    r"\b(?:in|inside)(?: of)? (?:it|there|here|this|that|the|my)\b|\bin(?:side)?\W*$"
)


def _decides(state: State, turn: Turn) -> bool:
    """Whether clamps would turn "fits" into "over" that nobody said are in it or not: "nothing
    else" ends the list as often as it denies them, "nothing else in it" denies them."""
    if _IN_IT.search(turn.heard.lower()):
        return False
    without, within = (assess(altered(state, clamps=where)) for where in ("none", "inside"))
    return without.verdict == "fits" and within.verdict == "over"


_OF_WAYS = re.compile(
    r"\b(?:feeds?|feeding|comes?|coming|goes|going|enters?|leaves?)\b[^,.;]*[,.;]? (?:and )?"
    r"nothing else(?:,? (?:please|thanks|then))*\W*$"
)


def _of_ways(turn: Turn) -> bool:
    """ "A 12-3 feeds it, nothing else": nothing else does, whatever holds that cable."""
    return _OF_WAYS.search(turn.heard.lower()) is not None


_ASKS_ON = re.compile(
    r"\bwhat (?:else |more )?(?:do|did|would|will) you (?:still |also )*(?:need|want|ask)\b"
    r"|\bwhat (?:is|are|else is|'s) (?:still |you )?(?:missing|open|asking|need)"
    r"|\b(?:anything|something) else you (?:need|want)\b"
)


def _asks_on(turn: Turn) -> bool:
    """ "Nothing else. What else do you need to know?": what is asked for may still be there."""
    return _ASKS_ON.search(turn.heard.lower()) is not None


def _nothing_more(changes: list[str]) -> str:
    return say("echo.nothing_else", so=joined(changes, by=", ")) if changes else ""


def _has_grounds(turn: Turn) -> bool:
    return any(getattr(item.content, "ground", None) is not None for item in turn.state.items)


def _loose(turn: Turn) -> bool:
    return any(isinstance(item.content, Conductors) for item in turn.state.items)
