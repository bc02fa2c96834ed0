"""Undo, redo, scratch that, start over: going through what was said, exactly."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.nlg.sentences import say, shortened
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Reference
from boxaloud.grammar.clauses.act_fields import KIND_OF

MOST = 100
"""Steps taken at one word; more than anybody means."""


def undo(turn: Turn, act: acts.Undo) -> None:
    """Take steps back; what was said earlier in the same breath is taken back first.

    "Scratch that, five 12-2s": what is said anew takes the place of what was said last. Where
    several things were told then, it only marks a correction: the others stand.
    """
    if _minds_nothing(turn, act):
        turn.state = altered(turn.state, mistaken=False)
        turn.answer(say("echo.kept"), act.words)
        return
    if _of_a_denial(turn):
        turn.understood.append(act.words)
        return
    if _of_another_step(turn, act):
        turn.unplaced.append(act.words)
        return
    corrects = bool(turn.ahead) and turn.ahead[0].function == "correction" and not turn.marks
    step = turn.history.last if corrects and turn.history is not None else None
    if step is not None and step.told > 1:
        turn.understood.append(act.words)
        return
    now = turn.state
    _step(turn, act.words, act.count, _undo, "nothing_to_undo")
    _point_back(turn, now)
    if (
        step is not None
        and _only_came_in(step.state, now)
        and not _as_many_as_before(step.state, now, turn.ahead[0])
    ):
        anew = turn.ahead[0]  # what it would restate is gone again
        turn.ahead[0] = anew.thing if isinstance(anew, acts.Restate) else anew


#: What tells of no thing behind it: "never mind, it goes to the two gang".
_OF_NOTHING = (acts.NameBoxKind, acts.OtherTalk, acts.Social)
#: Said of what was said last, and of nothing where that changed nothing.
_NEVER_MIND = re.compile(
    r"(?i)(?:never ?mind|forget (?:it|that)"
    r"|(?:(?:nope|no|nah|ok|okay|well|so)\b\W*)*leave (?:it|that|this|everything)\b.*)\W*$"
)


def _minds_nothing(turn: Turn, act: acts.Undo) -> bool:
    """ "Would it pass with seven? Never mind": what was only asked is not gone on with, and what
    was told before it stays."""
    idle = turn.history is not None and turn.history.idle
    alone = not turn.marks and all(isinstance(one, _OF_NOTHING) for one in turn.ahead)
    return idle and alone and _NEVER_MIND.match(act.words) is not None


def _of_a_denial(turn: Turn) -> bool:
    """ "No receptacle. I take that back, there is one": what was said last changed nothing, and
    none like what is told behind it is there. What was told before the denial stays."""
    told = next((one for one in turn.ahead if not isinstance(one, acts.Yes)), None)
    if turn.marks or turn.history is None or not turn.history.idle:
        return False
    kind = KIND_OF.get(type(told)) if told is not None else None
    if told is None or kind is None or told.function == "correction":
        return False
    return references.find(turn.state, Reference(kind, getattr(told, "name", None))) is None


#: "Undo the swap": a step that put something in the place of something else.
_SWAP = re.compile(r"(?i)\b(?:swap|trade|replacement|exchange|substitution)\b")


def _of_another_step(turn: Turn, act: acts.Undo) -> bool:
    """Whether what is to be taken back is named as a swap, and was not the last step."""
    if not _SWAP.search(act.words):
        return False
    step = turn.history.last if turn.history is not None else None
    return turn.marks != [] or step is None or not _swapped(step.state, turn.state)


def _swapped(before: State, now: State) -> bool:
    """Whether something went and something else came."""
    went = any(_more_of(item, now) for item in before.items)
    return went and any(_more_of(item, before) for item in now.items)


def _more_of(item: Item, state: State) -> bool:
    known = state.item(item.key)
    if known is None or known.content.count < item.content.count:
        return True
    return replace(known.content, count=item.content.count) != item.content


def _only_came_in(before: State, now: State) -> bool:
    """Whether all that changed is that things of one kind came in."""
    item, known = now.item(now.last), before.item(now.last)
    others = tuple(one for one in before.items if one is not known)
    if item is None or others != tuple(one for one in now.items if one is not item):
        return False
    return known is None or item.content.count - known.content.count == now.added


def _as_many_as_before(before: State, now: State, told: acts.Act) -> bool:
    """ "Add one more switch. Scratch that, only one switch", of one: to take one back for one more
    would make no sense, so that is all there are."""
    known = before.item(now.last)
    count = getattr(getattr(told, "thing", told), "count", None)
    return known is not None and count == known.content.count == now.added


def redo(turn: Turn, act: acts.Redo) -> None:
    """Take steps forward again; "bring it back" after starting over takes that back."""
    cleared = turn.history is not None and turn.history.cleared
    if cleared and not (turn.history and turn.history.future):
        _step(turn, act.words, 1, _undo, "nothing_to_redo")
        return
    if turn.history and not turn.history.future and turn.state.recalled:
        from boxaloud.assistant.dialogue.tracker import restorations

        restorations.put_back(turn, acts.PutBack(target=Reference(), words=act.words))
        return
    _step(turn, act.words, act.count, _redo, "nothing_to_redo")


def _step(turn: Turn, words: str, count: int, take: Callable[[Turn], bool], nothing: str) -> None:
    turn.understood.append(words)
    done = 0
    for _ in range(min(count, MOST)):
        if not take(turn):
            break
        done += 1
    if not done:
        turn.echoes.append(say(nothing))
    turn.state = altered(turn.state, mistaken=False)
    turn.stepped = True


def _undo(turn: Turn) -> bool:
    if turn.marks:
        mark = turn.marks.pop()
        turn.echoes.append(say("echo.undone", words=shortened(mark.words)))
        turn.state = mark.state
        turn.echoes[mark.echoes : -1] = []
        turn.understood[mark.understood : -1] = []
        return True
    found = turn.history.back(turn.state) if turn.history else None
    if found is None:
        return False
    turn.state = turn.base = found.state
    turn.echoes.append(say("echo.undone", words=shortened(found.words)))
    return True


def _point_back(turn: Turn, undone: State) -> None:
    """ "Only two 12-2s … never mind, three of them": what is told behind is of the one thing that
    what was taken back was about."""
    following = turn.ahead[0] if turn.ahead else None
    if not isinstance(following, acts.Recount) or following.target.kind != "anything":
        return
    if following.target.which != "said" or following.of is not None:
        return
    changed = [
        item
        for item in turn.state.items
        if (known := undone.item(item.key)) is not None and known.content != item.content
    ]
    if len(changed) == 1:
        target = replace(following.target, item=changed[0].key)
        turn.ahead[0] = replace(following, target=target)


def _redo(turn: Turn) -> bool:
    found = turn.history.forward(turn.state) if turn.history and not turn.marks else None
    if found is None:
        return False
    turn.state = turn.base = found.state
    turn.echoes.append(say("echo.redone", words=shortened(found.words)))
    return True


def start_over(turn: Turn, act: acts.StartOver) -> None:
    """Empty the box; the edition and the form of talk stay, and undo brings it all back."""
    turn.understood.append(act.words)
    turn.echoes[:] = [say("echo.started_over")]
    if turn.history is not None:
        turn.history.keep(turn.state, say("start_over"))
    turn.marks.clear()
    turn.state = State(edition=turn.state.edition, form=turn.state.form)
    turn.base = turn.state
    turn.stepped = True
