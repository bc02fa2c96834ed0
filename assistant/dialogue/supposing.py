"""Suppositions: "what if …", "how many more …", "will a … still fit". Nothing is entered."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from decimal import Decimal

from assistant.dialogue import boxing, entering, naming
from assistant.dialogue.assessing import Assessment, assess
from assistant.dialogue.finding import TYPES
from assistant.dialogue.saying import counted, listed, marked, say, sentence, volume
from assistant.dialogue.state import State, to_box
from assistant.dialogue.turn import Turn
from grammar.statements import Statement
from rules import RulesError, room_for
from rules.contents import Content, TableBox

Runner = Callable[[Turn, Sequence[Statement]], None]


def what_if(turn: Turn, statement: Statement, run: Runner) -> None:
    """Try the statements that follow on a copy, and say both totals."""
    tried = list(turn.ahead)
    turn.ahead.clear()
    if not tried:
        turn.refused.append(say("what_if.nothing"))
        return
    words = " ".join([statement.words, *(item.words for item in tried)])
    copy = Turn(turn.state, turn.asked, turn.subject)
    run(copy, [replace(item, doubts=()) for item in tried])
    turn.refused.extend(copy.refused)
    turn.unplaced.extend(copy.unplaced)
    if copy.state.partial is not None and copy.state.partial != turn.state.partial:
        turn.answer(_each_depth(copy.state, turn.state), words)
    elif copy.trail:
        new, now = outcome(assess(copy.state)), outcome(assess(turn.state))
        what = listed([text for text in copy.understood if text])
        turn.answer(say("what_if.with", what=what, new=new, now=now), words)


def outcome(found: Assessment) -> str:
    """A total, and the margin where there is one, in a few words."""
    sheet = found.sheet
    if sheet.capacity is None:
        return say("what_if.total", total=volume(sheet.total))
    margin = sheet.capacity - sheet.total
    key = "margin" if margin >= 0 else "over"
    return say(f"what_if.{key}", total=volume(sheet.total), margin=volume(abs(margin)))


def _each_depth(supposed: State, now: State) -> str:
    """A box named without its depth: every depth with its outcome."""
    assert supposed.partial is not None
    told = []
    for row in boxing.rows_of(supposed.partial):
        part = TableBox(row.id, supposed.partial.gangs)
        found = assess(replace(supposed, box=(part,), partial=None))
        margin = found.sheet.margin or Decimal(0)
        key = "what_if.each_margin" if margin >= 0 else "what_if.each_over"
        told.append(say(key, row=row.name, volume=marked(row.volume), margin=volume(abs(margin))))
    total = volume(assess(supposed).sheet.total)
    return say("what_if.each", total=total, new="; ".join(told), now=outcome(assess(now)))


def room(turn: Turn, statement: Statement) -> None:
    """ "how many more 14-2s can I bring in", "will a 12-3 still fit"."""
    operand = turn.take() if turn.next_is(*TYPES) else None
    if operand is None:
        turn.refused.append(say("room.of_what"))
        return
    asked = statement.get("count") if statement.get("count") is not None else operand.get("count")
    one = replace(operand, slots={**operand.slots, "count": 1})
    try:
        content: Content = entering.content_of(one, turn.state)[0]
    except RulesError as refusal:
        turn.refused.append(say("refused", words=operand.words, why=str(refusal)))
        return
    words = f"{statement.words} {operand.words}"
    if assess(turn.state).sheet.capacity is None:
        turn.answer(say("room.no_box"), words)
        return
    found = room_for(to_box(turn.state), content)
    if asked is not None:
        turn.answer(_will_it(content, int(asked), found.least, found.most), words)
    else:
        turn.answer(_how_many(turn, content, found.least, found.most), words)


def _plain_name(content: Content, count: int) -> str:
    """The name for a count, without it: "14-2 cables with ground"."""
    name = naming.shown(replace(content, count=max(count, 1)))
    return name.removeprefix(counted(max(count, 1)) + " ")


def _will_it(content: Content, count: int, least: int, most: int) -> str:
    what = naming.heard(replace(content, count=count))
    if count <= least:
        return say("room.yes", what=what)
    return say("room.depends" if count <= most else "room.no", what=what)


def _how_many(turn: Turn, content: Content, least: int, most: int) -> str:
    what = _plain_name(content, most)
    if most == 0:
        sheet = assess(turn.state).sheet
        left = max(sheet.margin or Decimal(0), Decimal(0))
        return say("room.none", what=what, margin=volume(left))
    if least == most:
        return sentence(say("room.exact", count=counted(most), what=what))
    return sentence(say("room.between", least=counted(least), most=counted(most), what=what))
