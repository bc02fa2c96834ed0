"""Suppositions: "what if …", "how many more …", "will a … still fit". Nothing is entered."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from decimal import Decimal

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.assessment import assess
from boxaloud.assistant.dialogue.divided_box import spaces_in
from boxaloud.assistant.dialogue.interpretation import reference_ambiguity
from boxaloud.assistant.dialogue.job_acts import EVENTS
from boxaloud.assistant.dialogue.nlg import item_names
from boxaloud.assistant.dialogue.nlg.sentences import (
    Told,
    counted,
    for_ear,
    joined,
    listed,
    lowered,
    say,
    sentence,
    sentences,
    unstopped,
    volume,
)
from boxaloud.assistant.dialogue.state import State, to_box
from boxaloud.assistant.dialogue.tracker import added_items
from boxaloud.assistant.dialogue.tracker.supposed_outcome import each_depth, outcome
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.clauses.act_fields import KIND_OF
from boxaloud.rules import RulesError, room_for
from boxaloud.rules.contents import Cable, Content

Runner = Callable[[Turn, Sequence[Act]], None]
DESCRIBING = (acts.SetVolume, acts.SetSize, acts.SetClamps, acts.NameBoxKind, acts.AddPart)


def suppose(turn: Turn, act: acts.Suppose, run: Runner) -> None:
    """Try the acts on a copy, and say both outcomes; "is an 18 enough for three 12-2s" of an
    empty box describes it."""
    if any(isinstance(one, EVENTS) for one in act.acts):
        turn.answer(say("what_if.of_job"), act.words)
        return
    things = [one for one in act.acts if not isinstance(one, DESCRIBING)]
    pulls = turn.state.pulls is not None and any(one.entering for one in turn.state.pulls.pulls)
    empty = not turn.state.items and not turn.state.pending and not pulls
    if act.asks_fit and things and empty:
        turn.ahead[:0] = list(act.acts)
        return
    copy = _tried(turn, act.acts, run)
    if len(copy.state.pending) > len(turn.state.pending) and (
        each := _each_meant(turn, copy, act, run)
    ):
        now = outcome(turn.state, turn.state)
        turn.answer(say("what_if.each_meant", new=joined(each, by="; "), now=now), act.words)
        return
    turn.refused.extend(copy.refused)
    if copy.state.partial is not None and copy.state.partial != turn.state.partial:
        turn.answer(each_depth(copy.state, copy.state.partial, turn.state), act.words)
    elif copy.state.pulls != turn.state.pulls:
        from boxaloud.assistant.dialogue.enclosures import pull_telling

        turn.answer(say("what_if.pulled", new=pull_telling.told(copy.state)), act.words)
    elif told := _of_body(copy, turn):
        turn.answer(say("what_if.pulled", new=told), act.words)
        turn.state = altered(turn.state, proposed=act.acts)
    elif copy.trail and copy.state != turn.state:
        new, now = outcome(copy.state, turn.state), outcome(turn.state, turn.state)
        turn.answer(say("what_if.with", what=_what(copy), new=new, now=now), act.words)
        turn.state = altered(turn.state, proposed=act.acts)
    elif not copy.refused:
        turn.answer(_unchanged(turn), act.words)


def _of_body(copy: Turn, turn: Turn) -> str:
    """Where a conduit body would stand that goes by its raceway; empty for any other box."""
    from boxaloud.assistant.dialogue.enclosures import body_telling

    return body_telling.told(copy.state) if copy.state != turn.state else ""


def _tried(turn: Turn, told: Sequence[Act], run: Runner) -> Turn:
    """The acts done on a copy."""
    copy = Turn(turn.state, turn.asked, turn.subject)
    run(copy, [_sure(one) for one in told])
    return copy


def _each_meant(turn: Turn, copy: Turn, act: acts.Suppose, run: Runner) -> list[str]:
    """ "What if I pulled one cable out": the outcome for each cable that it may be."""
    held = copy.state.pending[0]
    target = getattr(held.act, "target", None)
    if target is None or not reference_ambiguity.is_open(copy.state):
        return []
    told = []
    for item in reference_ambiguity.meant(turn.state, target):
        exact: Act = replace(held.act, target=replace(target, item=item.key))  # type: ignore[call-arg]
        tried = _tried(turn, [exact if one.span == exact.span else one for one in act.acts], run)
        new = outcome(tried.state, turn.state)
        told.append(say("what_if.one_meant", what=_what(tried), new=new))
    return told


def _what(copy: Turn) -> str:
    """What was supposed, in a few words."""
    echoes = [_supposed(unstopped(text)) for text in copy.echoes if text]
    text = listed([*echoes[:1], *map(lowered, echoes[1:])])
    return text or listed([text for text in copy.understood if text])


def _supposed(text: str) -> str:
    """An echo as it is put to the ear where nothing was done."""
    ear = for_ear(text)
    for done, instead in sentences()["supposed_aloud"].items():
        if ear.startswith(done):
            return Told(text, instead + ear.removeprefix(done))
    return Told(text, for_ear(lowered(ear)))


def _unchanged(turn: Turn) -> str:
    return say("what_if.same", now=outcome(turn.state, turn.state))


def _sure(act: Act) -> Act:
    """The act without its doubts: a supposition is tried as it was said."""
    if isinstance(act, (acts.Restate, acts.Replace)):
        act = replace(act, thing=replace(act.thing, doubts=()))
    return replace(act, doubts=())


def do_it(turn: Turn, act: acts.DoIt) -> None:
    """ "Do it": what was supposed or proposed last is done."""
    proposed = turn.state.proposed
    if not proposed:
        turn.social.append(say("fine"))
        turn.understood.append(act.words)
        return
    turn.state = altered(turn.state, proposed=())
    if len(proposed) == 1 and turn.ahead and _says(turn.ahead[0], proposed[0]):
        turn.understood.append(act.words)
        return
    turn.ahead[:0] = [replace(_sure(one), function="request") for one in proposed]


def _says(told: Act, proposed: Act) -> bool:
    """ "Yes, add it, one more 12-3": what is done is only said once more."""
    slots = ("awg", "conductors", "name")
    same = type(told) is type(proposed) and isinstance(told, tuple(KIND_OF))
    return same and all(getattr(told, one, None) == getattr(proposed, one, None) for one in slots)


def room(turn: Turn, act: acts.RoomFor) -> None:
    """ "How many more 14-2s can I bring in", "will a 12-3 still fit"."""
    if act.thing is None:
        turn.answer(say("room.of_what"), act.words)
        return
    thing = _sized(turn.state, act.thing)
    if isinstance(thing, acts.AddCable) and thing.awg is None:
        turn.answer(say("room.of_what"), act.words)
        return
    try:
        content: Content = added_items.content_of(replace(thing, count=1), turn.state)[0]
    except RulesError as refusal:
        turn.refuse(act.thing.words, str(refusal))
        return
    if assess(turn.state).sheet.capacity is None:
        turn.answer(say("room.no_box"), act.words)
        return
    if spaces_in(turn.state) > 1:
        turn.answer(say("room.divided"), act.words)
        return
    try:
        found = room_for(to_box(turn.state), content)
    except RulesError as refusal:  # a size that the rules in force do not know
        turn.refuse(act.thing.words, str(refusal))
        return
    if act.count is not None:
        turn.answer(_will_it(content, act.count, found.least, found.most), act.words)
        turn.state = altered(turn.state, proposed=(replace(thing, count=act.count, doubts=()),))
    else:
        turn.answer(_how_many(turn, content, found.least, found.most), act.words)


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


def _how_many(turn: Turn, content: Content, least: int, most: int) -> str:
    what = _plain_name(content, most)
    if most == 0:
        sheet = assess(turn.state).sheet
        left = max(sheet.margin or Decimal(0), Decimal(0))
        return say("room.none", what=what, margin=volume(left, sheet.unit))
    if least == most:
        return sentence(say("room.exact", count=counted(most), what=what))
    return sentence(say("room.between", least=counted(least), most=counted(most), what=what))
