"""Corrections: they act on the last thing they can mean, and say what changed from and to."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace
from decimal import Decimal

from assistant.dialogue import boxing, entering, finding, naming
from assistant.dialogue.saying import counted, say, sentence
from assistant.dialogue.state import Item, State
from assistant.dialogue.turn import Turn
from grammar.statements import Statement
from rules import RulesError, ground_for, validate
from rules.contents import (
    Cable,
    Content,
    Marked,
    SupportFitting,
    TerminalBlock,
    Uncounted,
    Yoke,
)

CONTENT_KINDS = frozenset(finding.TYPES)
BARE = ("number", "size")
LEAST_BOX = 6
"""Cubic inches that a bare number can mean of a box; fewer are a count (common practice)."""


def change_content(turn: Turn, item: Item, content: Content, words: str) -> None:
    """Put `content` in place of an item's, and say from what to what."""
    try:
        validate(content)
    except RulesError as refusal:
        turn.refused.append(say("refused", words=words, why=str(refusal)))
        return
    if content == item.content:
        turn.answer(say("echo.already", what=naming.heard(content)), naming.shown(content))
        return
    echo = _changed(item.content, content)
    turn.enter(turn.state.with_content(item.key, content), echo, naming.shown(content))


def _changed(old: Content, new: Content) -> str:
    """From what to what; where one thing alone changed, no more than that."""
    if type(old) is type(new):
        if replace(old, count=new.count) == new:
            return say("echo.recounted", old=counted(old.count), new=naming.heard(new))
        unsized = isinstance(old, Yoke | TerminalBlock) and old.awg is None
        if unsized and naming.bare(old) == naming.bare(new):
            return sentence(naming.heard(new))
    return say("echo.changed_item", old=naming.heard(old), new=naming.heard(new))


def make_that(turn: Turn, statement: Statement) -> None:
    """ "make that …": the next statement in place of the last thing it can mean."""
    count = statement.get("count")
    if count is not None and statement.get("of") == "cable":
        cable = finding.last_of_type(turn.state, replace(statement, kind="cable"))
        if cable is None:
            turn.refused.append(say("not_in_box", words="cable"))
        else:
            recount(turn, cable, int(count), statement.words)
        return
    if count is not None:
        bare(turn, replace(statement, kind="number", slots={"value": Decimal(int(count))}))
        return
    operand = turn.take()
    if operand is None:
        turn.refused.append(say("make_what"))
        return
    replace_with(turn, operand)


def replace_with(turn: Turn, operand: Statement) -> None:
    """Put what `operand` says in place of what it can mean."""
    if operand.kind in BARE:
        bare(turn, operand)
    elif operand.kind in CONTENT_KINDS:
        _replace_item(turn, operand)
    else:
        turn.ahead.insert(0, operand)  # a box, clamps, an edition: saying it again replaces it


def _replace_item(turn: Turn, operand: Statement) -> None:
    state = turn.state
    item = finding.matching(state, operand) or finding.last_of_type(state, operand)
    item = item or finding.last_item(state)
    if item is None:
        entering.enter(turn, operand)
        return
    try:
        contents = entering.content_of(_with_count(operand, item), state.without(item.key))
    except RulesError as refusal:
        turn.refused.append(say("refused", words=operand.words, why=str(refusal)))
        return
    change_content(turn, item, _kept(item.content, contents[0], operand), operand.words)


def _with_count(operand: Statement, item: Item) -> Statement:
    """The operand with the item's count where it names none ("make that twelve-two")."""
    if operand.get("count") is not None:
        return operand
    return replace(operand, slots={**operand.slots, "count": item.content.count})


def _kept(old: Content, new: Content, operand: Statement) -> Content:
    """What the operand did not mention stays: the size a device lands on, its width."""
    if isinstance(old, Yoke) and isinstance(new, Yoke):
        awg = new.awg if operand.get("awg") is not None else old.awg
        gangs = new.gangs if operand.get("gangs") is not None else old.gangs
        return replace(new, awg=awg, gangs=gangs)
    return new


def bare(turn: Turn, operand: Statement) -> None:
    """ "make that three", "no, twelve": a value alone, for the last thing said."""
    state = turn.state
    for_box = state.last == "box" or _is_fraction(operand) or _only_the_box(state, operand)
    if operand.kind == "number" and for_box and (state.box or turn.asked == "box"):
        boxing.set_volume(turn, Decimal(str(operand.get("value"))), operand)
        return
    item = finding.last_item(state)
    if item is None:
        turn.unplaced.append(operand.words)
        return
    if operand.kind == "size":
        _resize(turn, item, int(operand.get("awg") or 0), operand)
    elif _is_fraction(operand):
        turn.unplaced.append(operand.words)
    else:
        recount(turn, item, int(Decimal(str(operand.get("value")))), operand.words)


def _only_the_box(state: State, operand: Statement) -> bool:
    """ "no, 20" after clamps or an edition: what was said before them, and can be twenty."""
    marked_box = any(isinstance(part, Marked) for part in state.box)
    value = operand.get("value")
    large = isinstance(value, Decimal) and value >= LEAST_BOX
    return marked_box and large and state.last in ("clamps", "edition")


def _is_fraction(operand: Statement) -> bool:
    value = operand.get("value")
    return isinstance(value, Decimal) and value != int(value)


def _resize(turn: Turn, item: Item, awg: int, operand: Statement) -> None:
    content = item.content
    if isinstance(content, SupportFitting | Uncounted):
        turn.unplaced.append(operand.words)
        return
    if isinstance(content, Cable) and content.ground is not None:
        # a size the rules refuse is refused by change_content, in the rules' own sentence
        with suppress(RulesError):
            content = replace(content, ground=ground_for(awg))
    change_content(turn, item, replace(content, awg=awg), operand.words)


def recount(turn: Turn, item: Item, count: int, words: str) -> None:
    """Give an item another count; none takes it out."""
    if count == 0:
        turn.enter(
            turn.state.without(item.key), say("echo.taken_out", what=naming.heard(item.content))
        )
        return
    change_content(turn, item, replace(item.content, count=count), words)


def take_off(turn: Turn, statement: Statement) -> None:
    """ "take off one of the fourteen-twos", "lose the switch"."""
    operand = turn.take() if turn.next_is(*CONTENT_KINDS, "clamps") else None
    if statement.get("awg") is not None:
        size = {slot: statement.get(slot) for slot in ("awg", "conductors")}
        operand = replace(statement, kind="cable", slots=size)
    if operand is not None and operand.kind == "clamps":
        boxing.set_clamps(turn, "none")
        return
    state = turn.state
    item = finding.matching(state, operand) if operand else finding.last_item(state)
    if item is None:
        words = (operand or statement).words.removeprefix("the ")
        turn.refused.append(say("not_in_box", words=words))
        return
    said = statement.get("count")
    if said is None and operand is not None:
        said = operand.get("count")
    left = 0 if said is None else item.content.count - int(said)
    if left < 0:
        turn.refused.append(say("fewer_than_that", what=naming.heard(item.content)))
        return
    recount(turn, item, left, statement.words)


def change(turn: Turn, statement: Statement) -> None:
    """ "change the box to 22.5", "the clamps should be outside"."""
    of = str(statement.get("of", ""))
    operand = turn.take()
    if operand is None:
        turn.refused.append(say("make_what"))
        return
    if of == "box" and operand.kind == "number":
        boxing.set_volume(turn, Decimal(str(operand.get("value"))), operand)
        return
    key = statement.get("item")
    if key is None:
        item = finding.by_name(turn.state, of) if of else None
    elif (item := turn.state.item(int(key))) is None:
        turn.refused.append(say("not_in_box", words=statement.words))
        return
    if item is not None:
        turn.state = replace(turn.state, last=item.key)
        if operand.get("count") == 1 and item.content.count > 1:
            _change_one(turn, item, operand)
            return
    replace_with(turn, operand)


def _change_one(turn: Turn, item: Item, operand: Statement) -> None:
    """ "change the switch to a dimmer" where there are two switches: one of them stays."""
    try:
        new = entering.content_of(operand, turn.state)[0]
    except RulesError as refusal:
        turn.refused.append(say("refused", words=operand.words, why=str(refusal)))
        return
    new = _kept(item.content, new, operand)
    old, all_ = replace(item.content, count=1), naming.heard(item.content)
    state = turn.state.with_content(
        item.key, replace(item.content, count=item.content.count - 1)
    ).with_item(new, operand.words)
    echo = say("echo.changed_one", old=counted(old.count), all=all_, new=naming.heard(new))
    turn.enter(state, echo, naming.shown(new))


def lands_on(turn: Turn, statement: Statement) -> None:
    """ "the switch goes on the twelves": the largest conductor landed on a device."""
    state = turn.state
    name = str(statement.get("name") or "")
    item = state.item(int(statement.get("item") or 0)) or finding.by_name(state, name)
    if item is None and not name:
        item = state.item(turn.subject or "") or finding.last_sized(state)
    if item is None and name and finding.last_sized(state) is None:
        # with no device in the box yet, this is the first mention of one
        entering.enter(turn, replace(statement, kind="device"))
        return
    if item is None or not isinstance(item.content, Yoke | TerminalBlock):
        turn.refused.append(say("not_in_box", words=name or statement.words))
        return
    land(turn, item, statement)


def land(turn: Turn, item: Item, statement: Statement) -> None:
    """Set the size on a device; on some of several where a count is said."""
    content = item.content
    assert isinstance(content, Yoke | TerminalBlock)
    awg = int(statement.get("awg") or 0)
    some = statement.get("count")
    if some is not None and int(some) < content.count:
        rest = replace(content, count=content.count - int(some))
        part = replace(content, count=int(some), awg=awg)
        try:
            validate(part)
        except RulesError as refusal:
            turn.refused.append(say("refused", words=statement.words, why=str(refusal)))
            return
        state = turn.state.with_content(item.key, rest).with_item(part, item.words)
        turn.enter(state, sentence(naming.heard(part)), naming.shown(part))
        return
    change_content(turn, item, replace(content, awg=awg), statement.words)


def more(turn: Turn, statement: Statement) -> None:
    """ "and one more of those", "same again"."""
    state = turn.state
    item = finding.last_item(state)
    if turn.next_is(*CONTENT_KINDS):
        operand = turn.take()
        assert operand is not None
        count = statement.get("count") or operand.get("count") or 1
        entering.enter(turn, replace(operand, slots={**operand.slots, "count": count}))
        return
    if item is None or isinstance(item.content, Uncounted):
        turn.refused.append(say("more_of_what"))
        return
    extra = int(statement.get("count") or item.content.count)
    recount(turn, item, item.content.count + extra, statement.words)
