"""Cables said anew beside others: one of them by where it goes, or how many they are in all."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.assistant.dialogue.tracker import item_changes, replacements
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Reference
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.rules.contents import Cable


def of_some_or_all(turn: Turn, act: acts.Restate, item: Item) -> bool:
    """Change what is said of some of the cables that are there, or of all; False for others."""
    if _of_a_part(turn, act, item):
        return True
    if (same := _in_all(turn.state, act, item)) is not None:
        item_changes.recount(turn, item, 0, act.words)
        item_changes.recount(turn, same, act.thing.count or 0, act.words)
        return True
    if _one_by_role(act, item):
        replacements.replace_some(turn, item, 1, replace(act.thing, count=1))
        return True
    return False


def _of_a_part(turn: Turn, act: acts.Restate, item: Item) -> bool:
    """ "A 12-3, not a 12-2", of two 14-2s, is not placed; "one smart, not one plain" of two is."""
    named = act.instead_of
    if named is None or named.count is None or act.thing.count is None:
        return False
    if named.count >= item.content.count:
        return False
    if named.conductors and not references.agrees(item, replace(named, count=None)):
        turn.unplaced.append(act.words)
        return True
    if named.count != act.thing.count:
        return False
    replacements.replace_some(turn, item, named.count, act.thing)
    return True


_THOSE = lazy_pattern(r"(?i)\b(?:those|they|these|them)\b(?! all\b)")


def of_every_kind(turn: Turn, act: acts.Restate) -> bool:
    """ "It's all 14-2", of cables of more than one kind: all of them are; False for others."""
    thing = act.thing
    if not isinstance(thing, acts.AddCable) or thing.count is not None or act.instead_of:
        return False
    kinds = {
        (item.content.awg, item.content.conductors)
        for item in turn.state.items
        if isinstance(item.content, Cable)
    }
    whole = thing.awg is not None and thing.conductors is not None and thing.role is None
    if not whole or len(kinds) <= 1 or not thing.words.lower().startswith("all "):
        return False
    every = Reference("cable", which="all", words=thing.words)
    replacements.replace_act(
        turn,
        acts.Replace(
            target=every, thing=thing, words=act.words, span=act.span, function=act.function
        ),
    )
    return True


def of_several_sizes(found: Sequence[Item], act: acts.Resize) -> bool:
    """ "Those are twelves", where wires of two other sizes are there: nobody can say which."""
    pointed = _THOSE.search(act.target.words) or _THOSE.search(act.words)
    if not pointed or act.target.awg is not None:
        return False
    sizes = {getattr(item.content, "awg", None) for item in found} - {act.awg, None}
    return len(sizes) > 1


def some_resized(turn: Turn, found: Sequence[Item], act: acts.Resize) -> bool:
    """ "One of those cables is twelve", of two 14-2s: that one, and not both; of cables of several
    kinds nobody can say which. False where all that are meant change."""
    some = act.target.count
    others = [item for item in found if getattr(item.content, "awg", None) != act.awg]
    if act.target.kind != "cable" or act.target.which != "said" or some is None or not others:
        return False
    content = others[0].content
    if len(others) > 1:
        turn.unplaced.append(act.words)
        return True
    if not isinstance(content, Cable) or some >= content.count:
        return False
    thing = acts.AddCable(
        count=some, awg=act.awg, conductors=content.conductors, words=act.words, span=act.span
    )
    replacements.replace_some(turn, others[0], some, thing)
    return True


def _in_all(state: State, act: acts.Restate, item: Item) -> Item | None:
    """ "No 12-3, it's four 12-2", of three 12-2s and a 12-3: the cables that are four in all, where
    that is just as many as both were; None for any other."""
    thing = act.thing
    if not isinstance(thing, acts.AddCable) or thing.count is None or act.instead_of is None:
        return None
    same = references.find(state, replace(references.to_thing(thing), count=None))
    if same is None or same.key == item.key or not isinstance(same.content, Cable):
        return None
    return same if thing.count == same.content.count + item.content.count else None


def _one_by_role(act: acts.Restate, item: Item) -> bool:
    """ "Not 12-4, 12-3 going out": of the cables that are there, the one that goes out."""
    thing, content = act.thing, item.content
    if not isinstance(thing, acts.AddCable) or not isinstance(content, Cable):
        return False
    other = (thing.awg, thing.conductors) != (content.awg, content.conductors)
    alone = thing.count is None and thing.role is not None and other
    return alone and content.count > 1 and _SEVERAL_SAID.search(thing.words) is None


_SEVERAL_SAID = lazy_pattern(r"(?i)[0-9]['’]?s\b|cables|\b(?:both|all|they|those|these)\b")


_AGAIN = lazy_pattern(r"(?i)\s+(?:once )?again\b")


def all_again(turn: Turn, act: acts.Restate) -> bool:
    """ "Make it two 12-2s again", where one of the two became a 12-3: all there are."""
    thing = act.thing
    if not isinstance(thing, acts.AddCable) or thing.awg is None or act.instead_of is not None:
        return False
    if not _AGAIN.search(act.words):
        return False
    cables = [one.content for one in turn.state.items if isinstance(one.content, Cable)]
    if len(cables) < 2 or thing.count != sum(one.count for one in cables):
        return False
    every = acts.Reference("cable", which="both" if thing.count == 2 else "all", words=act.words)
    replacements.replace_act(
        turn, acts.Replace(target=every, thing=thing, words=act.words, span=act.span)
    )
    return True
