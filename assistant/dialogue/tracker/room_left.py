"""Room for more: "how many more 14-2s", "will a dimmer still fit", "the most 12s in a 4 square".

Nothing is entered: what such a question names of the box is tried on a copy.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from decimal import Decimal

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.answer_figures import Figure
from boxaloud.assistant.dialogue.assessment import assess
from boxaloud.assistant.dialogue.belief.held_figures import held_text
from boxaloud.assistant.dialogue.divided_box import spaces_in
from boxaloud.assistant.dialogue.enclosures import conduit_body
from boxaloud.assistant.dialogue.nlg import item_names
from boxaloud.assistant.dialogue.nlg.sentences import (
    counted,
    joined,
    marked,
    say,
    sentence,
    volume,
)
from boxaloud.assistant.dialogue.state import State, sizes_present, to_box
from boxaloud.assistant.dialogue.tracker import added_items, conductors_allowed, table_box
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.rules import RulesError, room_for, work_out
from boxaloud.rules.contents import Box, Cable, Conductors, Content, TableBox

Runner = Callable[[Turn, Sequence[Act]], None]
_OF_COUNT_UNSAID = (acts.AddConductors, acts.AddCable)


def room(turn: Turn, act: acts.RoomFor, run: Runner) -> None:
    """ "How many more 14-2s can I bring in", "will a 12-3 still fit"."""
    if held := _held(turn.state, act):
        turn.answer(held, act.words)
        return
    of_wires = act.thing is None or isinstance(act.thing, acts.AddConductors)
    state = _with_given(turn, act, run)
    if state is None:
        return
    if of_wires and _by_its_raceway(turn, act):
        return
    if of_wires and conductors_allowed.left_by_table(turn, act, state):
        return
    thing = _sized(turn.state, act.thing) if act.thing is not None else _meant(turn.state)
    if thing is None or (isinstance(thing, acts.AddCable) and thing.awg is None):
        turn.answer(say("room.of_what"), act.words)
        return
    try:
        content: Content = added_items.content_of(replace(thing, count=1), state)[0]
        _answered(turn, act, replace(thing, doubts=()), content, state)
    except RulesError as refusal:  # a size that the rules in force do not know
        turn.refuse(thing.words, str(refusal))


def _held(state: State, act: acts.RoomFor) -> str:
    """What holds the answer back; not the thing itself that is asked about, named without a
    count."""
    meant = _meant(state) if act.thing is None else None
    rest = tuple(one for one in state.pending if one.act is not meant)
    return held_text(altered(state, pending=rest)) if rest != state.pending else held_text(state)


def _by_its_raceway(turn: Turn, act: acts.RoomFor) -> bool:
    """The most that may pass through a conduit body by its raceway, 314.16(C)(1); False where it is
    not asked of one that goes by it."""
    body = turn.state.body
    if not conduit_body.named(turn.state) or turn.state.box or body.spliced or body.size is None:
        return False
    thing = act.thing or _meant(turn.state)
    if act.given or not isinstance(thing, acts.AddConductors) or thing.awg is None:
        return False
    from boxaloud.assistant.dialogue.enclosures import body_telling

    body_telling.fill(turn, acts.AskFill(awg=thing.awg, words=act.words, span=act.span))
    return True


def _with_given(turn: Turn, act: acts.RoomFor, run: Runner) -> State | None:
    """The state with what the question names of the box; None where that was refused."""
    given = [one for one in act.given if not (isinstance(one, acts.NameBoxKind) and _known(turn))]
    alone = any(isinstance(one, acts.NothingElse) for one in given)
    given = [one for one in given if not isinstance(one, acts.NothingElse)]
    if not given and not alone:
        return turn.state
    copy = Turn(turn.state, turn.asked, turn.subject)
    run(copy, [replace(one, doubts=()) for one in given])
    if copy.refused:
        turn.refused.extend(copy.refused)
        turn.understood.append("")
        return None
    if alone:  # of the box by itself, whatever is told of it so far
        clamps = copy.state.clamps if copy.state.clamps != "unknown" else "none"
        return altered(copy.state, items=(), clamps=clamps, assumed=frozenset())
    return copy.state


def _known(turn: Turn) -> bool:
    return bool(turn.state.box) or turn.state.partial is not None


def _answered(
    turn: Turn, act: acts.RoomFor, thing: acts.Thing, content: Content, state: State
) -> None:
    """The answer for one kind of content, in the box as the question has it."""
    if assess(state).sheet.capacity is None:
        if state.partial is not None and act.count is None:
            _answer_each_depth(turn, act, state, content)
            return
        turn.answer(say("room.no_box"), act.words)
        return
    if spaces_in(state) > 1:
        turn.answer(say("room.divided"), act.words)
        return
    found = room_for(to_box(state), content)
    figure = _counts(found.least, found.most)
    if act.count is not None:
        turn.answer(_will_it(content, act.count, found.least, found.most), act.words, figure)
        turn.state = altered(turn.state, proposed=(replace(thing, count=act.count),))
    elif not state.items:
        turn.answer(_at_most(state, content, found.least, found.most), act.words, figure)
    else:
        turn.answer(_how_many(state, content, found.least, found.most), act.words, figure)


def _answer_each_depth(turn: Turn, act: acts.RoomFor, state: State, content: Content) -> None:
    """A box named without its depth: how many at each."""
    told, figures = [], []
    for row in table_box.rows_of(state.partial) if state.partial is not None else ():
        part = TableBox(row.id, state.partial.gangs if state.partial is not None else 1)
        found = room_for(to_box(altered(state, box=(part,), partial=None)), content)
        count = _range(found.least, found.most)
        told.append(say("room.each_depth", row=row.name, volume=marked(row.volume), count=count))
        figures.append(_counts(found.least, found.most))
    what = _plain_name(content, 2)
    turn.answer(say("room.by_depth", what=what, each=joined(told, by="; ")), act.words, *figures)


def _range(least: int, most: int) -> str:
    if least == most:
        return counted(most)
    return say("room.range", least=counted(least), most=counted(most))


def _meant(state: State) -> acts.Thing | None:
    """ "How many of them may I have": of what was named without a number, or of the one size."""
    for held in state.pending:
        if isinstance(held.act, _OF_COUNT_UNSAID) and held.act.count is None:
            return held.act
    sizes = sizes_present(state)
    return acts.AddConductors(awg=sizes[0]) if len(sizes) == 1 else None


def _at_most(state: State, content: Content, least: int, most: int) -> str:
    """How many a box holds of one kind with nothing else in it, and with clamps inside."""
    sheet = assess(state).sheet
    what = item_names.heard(replace(content, count=most))
    if most == 0:
        return _how_many(state, content, least, most)
    one = work_out(Box(contents=(replace(content, count=1),), clamps="none", edition=state.edition))
    capacity = marked(sheet.capacity or Decimal(0), sheet.unit)
    each = volume(one.total, one.unit)
    plain = isinstance(content, Conductors) and sheet.unit == "in3"
    key = "room.alone" if plain else "room.alone_of"
    text = sentence(say(key, what=what, capacity=capacity, each=each))
    if least == most:
        return text
    return joined((text, sentence(say("room.with_clamps", count=counted(least)))))


def _counts(least: int, most: int) -> Figure:
    return Figure("room", Decimal(least), Decimal(most), "count")


def _sized(state: State, thing: acts.Thing) -> acts.Thing:
    """ "Two more cables": of the kind that is in the box, where that is one kind."""
    if not isinstance(thing, acts.AddCable) or thing.awg is not None:
        return thing
    kinds = {
        (i.content.awg, i.content.conductors) for i in state.items if isinstance(i.content, Cable)
    }
    if len(kinds) != 1:
        return thing
    awg, conductors = kinds.pop()
    return replace(thing, awg=awg, conductors=conductors)


def _plain_name(content: Content, count: int) -> str:
    """The name for a count, without it: "14-2 cables"."""
    name = item_names.brief(replace(content, count=max(count, 1)))
    return name.removeprefix(counted(max(count, 1)) + " ")


def _will_it(content: Content, count: int, least: int, most: int) -> str:
    what = item_names.heard(replace(content, count=count))
    if count <= least:
        return say("room.yes", what=what)
    return say("room.depends" if count <= most else "room.no", what=what)


def _how_many(state: State, content: Content, least: int, most: int) -> str:
    what = _plain_name(content, most)
    if most == 0:
        sheet = assess(state).sheet
        left = max(sheet.margin or Decimal(0), Decimal(0))
        return say("room.none", what=what, margin=volume(left, sheet.unit))
    if least == most:
        return sentence(say("room.exact", count=counted(most), what=what))
    return sentence(say("room.between", least=counted(least), most=counted(most), what=what))
