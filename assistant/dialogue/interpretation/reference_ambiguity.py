""" "One of them", "the other one" where that may be more than one thing of the box: it is asked."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.assistant.dialogue import merging
from boxaloud.assistant.dialogue.belief import held_acts
from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.nlg import item_names
from boxaloud.assistant.dialogue.nlg.sentences import listed
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.state_parts import Item, Pending
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference, Thing
from boxaloud.rules.contents import Cable, Conductors, Grounds, Uncounted, Yoke

WHICH = "which"
"""The slot of a held act of which it is open what it means."""


def resolved(state: State, target: Reference) -> Reference | None:
    """The reference, made exact where a pronoun can mean one thing only; None where it can mean
    several."""
    if target.item is not None or target.awg is not None:
        return target
    if target.kind in ("cable", "wire", "device") and target.name in (None, "device"):
        return None if _of_kinds(state, target) else target
    if target.kind != "anything":
        return target
    if target.name is not None:
        return target
    if target.ordinal is not None:
        return None if len(_nth_of_kinds(state, target)) > 1 else target
    proposed = [one.target for one in state.proposed if isinstance(one, acts.Remove)]
    if proposed and target.count is not None:
        return replace(proposed[-1], count=target.count)
    if target.which in ("other", "others"):
        found = _others(state)
    elif target.count is not None and (target.which == "said" or _bare(target)):
        found = _some(state, target.count)
    else:
        return target
    if len(found) > 1:
        return None
    return replace(target, item=found[0].key) if found else target


def _bare(target: Reference) -> bool:
    """ "Take out two": so many, of nothing that was named."""
    return target.which == "last" and not target.words and (target.count or 0) > 1


def _of_kinds(state: State, target: Reference) -> bool:
    """Whether "one of the cables" may be of several kinds, none of them said last."""
    if target.count is None or target.ordinal is not None or target.which != "said":
        return False
    found = references.find_all(state, replace(target, words=""))
    last = state.item(state.last)
    return (
        len(found) > 1 and last not in found and sum(i.content.count for i in found) > target.count
    )


def _some(state: State, count: int) -> list[Item]:
    """What "one of them" can mean: the thing said last if there are more of it, else any."""
    last = state.item(state.last)
    if last is not None and last.content.count > count:
        return [last]
    return [item for item in _counted(state) if item.content.count >= count]


def _nth_of_kinds(state: State, target: Reference) -> list[Item]:
    """Of each kind of which there are so many, the things that "the second one" can mean; none
    where it is the one that came in last."""
    last, nth = state.item(state.last), target.ordinal or 0
    if nth < 2 or (last is not None and state.added == 1 and last.content.count == nth):
        return []
    kinds = [
        [item for item in _counted(state) if isinstance(item.content, kind)]
        for kind in (Cable, Conductors, Yoke, Grounds)
    ]
    enough = [found for found in kinds if sum(item.content.count for item in found) >= nth]
    return [item for found in enough for item in found] if len(enough) > 1 else []


def _counted(state: State) -> list[Item]:
    """The things that take an allowance."""
    return [item for item in state.items if not isinstance(item.content, Uncounted)]


def _others(state: State) -> list[Item]:
    """What "the other one" can mean: what is left of the thing some of which were just taken out,
    else any that was not said last."""
    last = state.item(state.last)
    taken = state.recalled[-1].content if state.recalled else None
    if last is not None and taken is not None and merging.alike(taken, last.content):
        return [last]
    return [item for item in _counted(state) if item is not last]


def ask_which(turn: Turn, act: Act) -> None:
    """Hold an act until it is said which thing it means."""
    held_acts.wait(turn, act, WHICH, "conflict")


def is_open(state: State) -> bool:
    """True where it is asked which thing a held act means."""
    return bool(state.pending) and state.pending[0].slot == WHICH


def choices(state: State, pending: Pending) -> str:
    """What it may mean, in words: "the cables, the switch or the receptacle"."""
    target = getattr(pending.act, "target", Reference())
    names = dict.fromkeys(f"the {_noun(item)}" for item in meant(state, target))
    return " or ".join(listed(list(names)).rsplit(" and ", 1))


def meant(state: State, target: Reference) -> list[Item]:
    """The things that words may point at where it is open which."""
    if target.kind != "anything":
        return references.find_all(state, replace(target, words=""))
    if target.ordinal is not None:
        return _nth_of_kinds(state, target)
    if target.which in ("other", "others"):
        return _others(state)
    return _some(state, target.count) if target.count is not None else _counted(state)


def _noun(item: Item) -> str:
    return item_names.brief(item.content).partition(" ")[2]


def answered(turn: Turn, thing: Thing) -> Act | None:
    """The act that was held, of the thing now named; None where none of it is in the box."""
    held = turn.state.pending[0].act
    if isinstance(held, acts.Land):
        named = replace(references.to_thing(thing), count=thing.count)
        if references.find(turn.state, named) is None:
            return None
        return replace(held, target=named, words=thing.words, span=thing.span)
    if isinstance(held, acts.Recount):
        return _left(turn, held, thing)
    if not isinstance(held, acts.Remove | acts.Unground):
        return None
    meant = replace(references.to_thing(thing), count=thing.count or held.target.count or 1)
    if references.find(turn.state, meant) is None:
        return None
    if isinstance(held, acts.Unground):
        return replace(held, target=meant, words=thing.words, span=thing.span)
    return acts.Remove(target=meant, words=thing.words, span=thing.span, function="request")


def _left(turn: Turn, held: acts.Recount, thing: Thing) -> Act | None:
    """What is left of the devices: one that is there, or all of them on one yoke."""
    if isinstance(thing, acts.AddDevice) and thing.name == "combination device":
        return acts.ShareYoke(words=thing.words, span=thing.span, function="correction")
    stays = references.to_thing(thing)
    if references.find(turn.state, replace(stays, count=None, words="")) is None:
        return None
    return replace(held, stays=stays, words=thing.words, span=thing.span)
