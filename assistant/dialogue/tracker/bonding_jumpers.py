"""Whether a bonding jumper comes in from outside and counts among the grounds, 314.16(B)(5)."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.assistant.dialogue.nlg.sentences import say
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar.acts import AddJumper
from boxaloud.rules.contents import BondingJumper


def answer(turn: Turn, enters: bool, words: str) -> None:
    """Every jumper of which it is open comes in, or stays inside."""
    _settle(turn, [i for i in turn.state.items if is_open(i)], enters, words)


def is_open(item: Item) -> bool:
    """True for a jumper of which nobody said whether it enters."""
    return isinstance(item.content, BondingJumper) and item.content.enters is None


def mention(turn: Turn, thing: AddJumper) -> bool:
    """ "The bonding jumper comes in": said of those that are there; False where it is another."""
    if thing.enters is None or thing.count is not None:
        return False
    known = [
        item
        for item in turn.state.items
        if isinstance(item.content, BondingJumper) and thing.awg in (None, item.content.awg)
    ]
    found = [item for item in known if is_open(item)] or known[-1:]
    if found:
        _settle(turn, found, thing.enters, thing.words)
    return bool(found)


def _settle(turn: Turn, items: list[Item], enters: bool, words: str) -> None:
    state = turn.state
    for item in items:
        if isinstance(item.content, BondingJumper):
            state = state.closed(item.key, replace(item.content, enters=enters))
    turn.enter(state, say("echo.jumper_enters" if enters else "echo.jumper_stays"), words)
