""" "Put it back": what was taken out or replaced comes again."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from boxaloud.assistant.dialogue import merging
from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.nlg import item_names
from boxaloud.assistant.dialogue.nlg.sentences import say
from boxaloud.assistant.dialogue.state_parts import Item, Recalled
from boxaloud.assistant.dialogue.tracker import clamps, mentions
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts

_STAYS = re.compile(r"\bstay(?:s|ing)?\b", re.IGNORECASE)


def put_back(turn: Turn, act: acts.PutBack) -> None:
    """ "Put back the 14-2", "put both back": what was taken out or replaced comes again."""
    if act.target.kind == "clamps" and turn.state.clamps in ("none", "outside"):
        _clamps_again(turn, act)
        return
    # what became another in the same breath is not what comes back
    before = tuple(one for one in turn.state.recalled if one in turn.began.recalled)
    recalled = before or turn.state.recalled
    item = references.find(turn.state, act.target)
    if _STAYS.search(act.words) and item is not None and not _was_taken(recalled, act.target):
        turn.understood.append(act.words)  # "the switch stays": it was never taken out
        return
    if act.target.kind != "anything":
        recalled = tuple(one for one in recalled if _was_taken((one,), act.target))
    if not recalled and item is None and _never_told(act):
        device = acts.AddDevice(
            count=act.target.count or 1, name=act.target.name, words=act.words, span=act.span
        )
        mentions.mention(turn, device)
        return
    if not recalled:
        turn.refused.append(
            say("nothing_to_redo")
            if item is None
            else say("not_taken_out", what=item_names.heard(item.content))
        )
        turn.unplaced.append(act.words)
        return
    many = act.target.which in ("both", "all") or (
        references.plural(act.target.words) and act.target.kind == "anything"
    )
    take = 2 if act.target.which == "both" else len(recalled) if many else 1
    for one in reversed(recalled[-take:]):
        _restore(turn, one, act.target.count)
        _is_out_with_it(turn, one)


_GOES_BACK = re.compile(r"\b(?:goes|going|went) back\b", re.IGNORECASE)


def _never_told(act: acts.PutBack) -> bool:
    """ "The three-way goes back in", of which nothing was told before: it is in the box."""
    named = act.target.kind == "device" and act.target.name is not None
    return named and _GOES_BACK.search(act.words) is not None


def _is_out_with_it(turn: Turn, back: Recalled) -> None:
    """ "Put the 14-2 back in, take that 14-3 out": what had come in its place is out already."""
    by = turn.began.item(back.by) if back.by is not None else None
    following = turn.upcoming
    if by is None or not isinstance(following, acts.Remove) or following.target.kind == "anything":
        return
    alone = following.target.count in (None, 1) and not _ON_TOP.search(following.words)
    if alone and references.agrees(by, replace(following.target, count=None)):
        turn.understood.append(following.words)
        turn.take()


#: One more besides, and not the one that is out already.
_ON_TOP = re.compile(r"\b(?:another|more|other|also|too|as well|else)\b", re.IGNORECASE)


def _clamps_again(turn: Turn, act: acts.PutBack) -> None:
    """ "The clamps are back in": inside, if they were there before; else it is asked where."""
    past = turn.history.past if turn.history is not None else []
    were_inside = any(step.state.clamps == "inside" for step in past)
    where: acts.Placing = "inside" if were_inside else "present"
    clamps.clamps(turn, acts.SetClamps(where=where, words=act.words, span=act.span))


_THERE_IS = re.compile(r"(?i)\bthere(?:['’]s| is| was) (?:actually |really |still )?one\b")


def after_all(turn: Turn, act: acts.RestateNumber) -> bool:
    """ "I lied, there is one", of what was just said not to be there: it comes again. False where
    nothing was taken out whole, so that it may be a count."""
    state = turn.state
    gone = state.recalled[-1] if state.recalled else None
    if gone is None or act.value != 1 or not _THERE_IS.search(act.words):
        return False
    if gone.by is not None or any(type(i.content) is type(gone.content) for i in state.items):
        return False
    _restore(turn, gone, 1)
    return True


def _was_taken(recalled: Sequence[Recalled], target: acts.Reference) -> bool:
    """Whether what was taken out last is what words point at."""
    if not recalled or target.kind == "anything":
        return bool(recalled)
    return references.agrees(Item(0, recalled[-1].content, ""), target)


def _restore(turn: Turn, recalled: Recalled, wanted: int | None) -> None:
    state = turn.state
    by = state.item(recalled.by) if recalled.by is not None else None
    if by is not None:
        left = by.content.count - (recalled.came or recalled.content.count)
        state = (
            state.without(by.key)
            if left <= 0
            else state.with_content(by.key, replace(by.content, count=left))
        )
    count = min(wanted or recalled.content.count, recalled.content.count)
    content = replace(recalled.content, count=count)
    twin = next((i for i in state.items if merging.alike(i.content, content)), None)
    if twin is not None:
        state = state.with_content(
            twin.key, replace(content, count=twin.content.count + content.count)
        )
    else:
        state = state.with_item(content, recalled.words)
    rest = tuple(one for one in state.recalled if one is not recalled)
    turn.enter(altered(state, recalled=rest), say("echo.back", what=item_names.heard(content)))
