""" "Two twelves and a green in … same out", "… take those out": what was told in one breath before,
all of it."""

from __future__ import annotations

from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.assistant.dialogue.tracker import item_changes
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.rules.contents import Cable, Conductors, Grounds

_WIRES = (Cable, Conductors, Grounds)


def again(turn: Turn, act: acts.More) -> None:
    """As many again of the wires that came in last: each end of a spliced conductor counts by
    itself, 314.16(B)(1). Where none were told before, nobody knows what goes out."""
    came = _came_last(turn)
    if not came:
        turn.unplaced.append(act.words)
    for key, count in came:
        item = turn.state.item(key)
        if item is not None:
            item_changes.recount(turn, item, item.content.count + count, act.words)


def taken_out(turn: Turn, act: acts.Remove) -> bool:
    """ "Plus two more twelves and a green … take those out": where the last change brought several
    things, all of them are meant."""
    past = turn.history.past if turn.history is not None and not turn.history.idle else []
    if not past or turn.state is not turn.began:
        return False
    before = {item.key: item.content.count for item in past[-1].state.items}
    more = [(item, item.content.count - before.get(item.key, 0)) for item in turn.state.items]
    came = [(item, count) for item, count in more if count]
    if len(came) < _SEVERAL or min(count for _, count in came) < 0:
        return False
    for item, count in came:
        item_changes.recount(turn, item, item.content.count - count, act.words)
    return True


_SEVERAL = 2


def _came_last(turn: Turn) -> list[tuple[int, int]]:
    """Keys of the wires told last, and how many of each."""
    later = turn.state
    for step in reversed(turn.history.past if turn.history is not None else []):
        before = {item.key: item.content.count for item in _wires(step.state)}
        now = {item.key: item.content.count for item in _wires(later)}
        if before != now:
            more = {key: count - before.get(key, 0) for key, count in now.items()}
            only_more = before.keys() <= now.keys() and min(more.values()) >= 0
            return [(key, count) for key, count in more.items() if count] if only_more else []
        later = step.state
    return []


def _wires(state: State) -> list[Item]:
    return [item for item in state.items if isinstance(item.content, _WIRES)]
