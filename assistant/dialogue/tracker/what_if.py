"""Suppositions: "what if …". Nothing is entered."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import replace

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.assessment import assess
from boxaloud.assistant.dialogue.interpretation import reference_ambiguity
from boxaloud.assistant.dialogue.job_acts import EVENTS
from boxaloud.assistant.dialogue.nlg.sentences import (
    Told,
    for_ear,
    joined,
    listed,
    lowered,
    say,
    sentences,
    unstopped,
)
from boxaloud.assistant.dialogue.tracker import more_of_those
from boxaloud.assistant.dialogue.tracker.proposals_said_over import (
    names_it_again,
    spells_out,
)
from boxaloud.assistant.dialogue.tracker.supposed_outcome import each_depth, outcome
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference

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
    of_new = empty and (_describes_new(turn, act) or (act.asks_fit and bool(things)))
    if of_new or (not things and _describes(turn, act)):
        turn.ahead[:0] = list(act.acts)
        return
    if len(act.acts) == 1 and isinstance(size := act.acts[0], acts.Size) and size.awg:
        if empty:  # "How many 12s? And if it was 14s": with nothing in the box, how many of those
            of = acts.AddConductors(awg=size.awg, words=size.words, span=size.span)
            turn.ahead.insert(0, acts.RoomFor(thing=of, words=act.words, span=act.span))
            return
        if not turn.state.pending:
            act = replace(act, acts=(_resized(size, size.awg),))
    act = replace(act, acts=_by_volume(act.acts))
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
        turn.answer(_unchanged(turn, copy), act.words)


#: "Am I over in a 4 by 2-1/8 square?", "what about the one in the den, the 3 x 2 x 2-3/4?": of the
#: box that is there; "would it fit in an 18" may be of any.
_OF_THIS_BOX = re.compile(
    r"(?i)^(?:(?:so|ok|okay|and|now|well),? )*(?:(?:am i|are we|is (?:it|this|that))(?: still)? "
    r"(?:over|under|ok|okay|good|fine|legal|full|too full|all right)(?: or not)? (?:in|with) "
    r"|(?:what|how) about (?:the|this|that|my|our) )"
)
_CONTENTS = (acts.AddCable, acts.AddConductors)


def _describes(turn: Turn, act: acts.Suppose) -> bool:
    """Whether the box that is asked about is that of contents told in the same breath, where no
    box was told."""
    boxes = (acts.SetVolume, acts.SetSize)
    breath = [*turn.done, *turn.ahead]
    return (
        not turn.state.box
        and not turn.supposed
        and _OF_THIS_BOX.match(act.words) is not None
        and not any(isinstance(one, boxes) for one in breath)
        and any(isinstance(one, boxes) for one in act.acts)
        and any(isinstance(one, _CONTENTS) for one in breath)
        and not turn.began.items
    )


#: "Suppose a four square holds …", "picture two 14-2s in a 16": a box that is described.
_SETS_OUT = re.compile(
    r"(?i)^(?:(?:so|ok|okay|and|now|well|then|class|students),? )*(?:let(?:['’]s| us) )?"
    r"(?:suppose|supposing|imagine|picture|say|assume|assuming|consider|take|given)\b"
)
#: "Can two 12-2s and a switch go in an 18": asked of a box of which nothing is told yet.
_GOES_IN = re.compile(
    r"(?i)^(?:(?:so|ok|okay|and|now|well|then|hi|hello|hey),? )*(?:can|could|will|would|do|may)\b"
    r".*\b(?:go|sit|live|squeeze|be put|be placed) in(?:to|side)?\b"
)
_TELLS = (
    *DESCRIBING,
    *_CONTENTS,
    acts.AddDevice,
    acts.AddGrounds,
    acts.AddFitting,
)


def _describes_new(turn: Turn, act: acts.Suppose) -> bool:
    """Whether a supposition sets out a box of which nothing is told yet."""
    if turn.supposed or not all(isinstance(one, _TELLS) for one in act.acts):
        return False
    contents = any(isinstance(one, _CONTENTS) for one in act.acts)
    box = any(isinstance(one, (acts.SetVolume, acts.SetSize)) for one in act.acts)
    if contents and box and not turn.state.box and _GOES_IN.match(act.words):
        return True
    return bool(_SETS_OUT.match(act.words)) and (contents or (box and not turn.state.box))


def _by_volume(supposed: Sequence[Act]) -> tuple[Act, ...]:
    """ "What if I cut in a 22.5": the number beside a sort of box is its volume."""
    if not any(isinstance(one, acts.NameBoxKind) for one in supposed):
        return tuple(supposed)
    return tuple(
        acts.SetVolume(volume=one.value, words=one.words, span=one.span)
        if isinstance(one, acts.Number)
        else one
        for one in supposed
    )


def _resized(size: acts.Size, awg: int) -> acts.Resize:
    """ "What if it was 12s": the wires that are there, of that size."""
    wires = acts.Reference(kind="wire", words=size.words)
    return acts.Resize(target=wires, awg=awg, words=size.words, span=size.span)


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


def _unchanged(turn: Turn, copy: Turn) -> str:
    now = outcome(turn.state, turn.state)
    if copy.unplaced:  # "what if it's 12": nobody can tell of what
        return say("what_if.unplaced", words=listed(copy.unplaced), now=now)
    return say("what_if.same", now=now)


def _sure(act: Act) -> Act:
    """The act without its doubts: a supposition is tried as it was said."""
    if isinstance(act, (acts.Restate, acts.Replace)):
        act = replace(act, thing=replace(act.thing, doubts=()))
    return replace(act, doubts=())


def do_it(turn: Turn, act: acts.DoIt) -> None:
    """ "Do it": what was supposed or proposed last is done."""
    proposed = turn.state.proposed
    if act.place is not None:  # which of the boxes told, where none were
        turn.unplaced.append(act.words)
        return
    if not proposed and _TAKEN_OUT.match(act.words):
        last = Reference("anything", which="said", words="that one")
        turn.ahead[:0] = [acts.Remove(target=last, words=act.words, span=act.span)]
        return
    if _TAKEN_OUT.match(act.words) and not any(isinstance(one, _CHANGES) for one in proposed):
        turn.unplaced.append(act.words)  # of what was only supposed to come in, nothing is out
        return
    if not proposed and _TAKES.search(act.words) and assess(turn.state).verdict == "over":
        turn.answer(say("nothing_proposed"), act.words)
        return
    if not proposed and _adds_unsaid(turn, act):
        turn.unplaced.append(act.words)  # of what nobody said: there may be more than was told
        return
    if _PUT_IN.search(act.words) and any(isinstance(one, acts.Remove) for one in proposed):
        turn.unplaced.append(act.words)  # of what was only supposed to go, nothing is put in
        return
    if not proposed:
        turn.social.append(say("fine"))
        turn.understood.append(act.words)
        _without_volume(turn)
        return
    turn.state = altered(turn.state, proposed=())
    if turn.ahead and spells_out(turn.ahead[0], proposed):
        turn.understood.append(act.words)
        return
    following = turn.ahead[0] if turn.ahead and len(proposed) == 1 else None
    if following is not None and (
        names_it_again(following, proposed[0])
        or more_of_those.makes_so_many(turn.state, proposed[0], following)
    ):
        turn.understood.append(turn.ahead.pop(0).words)
    turn.ahead[:0] = [replace(_sure(one), function="request") for one in proposed]


def _adds_unsaid(turn: Turn, act: acts.DoIt) -> bool:
    """ "I put it in", "add them", where nobody said what."""
    if turn.trail or not turn.state.items:
        return False
    ordered = not turn.ahead and _ADD_IT.fullmatch(turn.heard) is not None
    return ordered or _PUT_IN.search(act.words) is not None


_ADD_IT = re.compile(
    r"(?i)\W*(?:(?:ok|okay|so|well|um|uh|hello|hi|hey|please|yes|yeah|yep|fine|and|then|now"
    r"|all ?right|go ahead(?: and)?|just|let['’]s)\b\W*)*"
    r"(?:add|put|throw|stick|bring|count|include)"
    r" (?:it|that|them|those|['’]?em|that one|both|those two|them both)(?: in| on)?"
    r"(?:\W+(?:please|then|now|too|as well|thanks))*\W*"
)
_CHANGES = (acts.Remove, acts.Replace, acts.Recount, acts.Restate)
#: What is to be done, and no "they are" or "keep it".
_TAKES = re.compile(r"(?i)\b(?:use|take|go (?:with|for)|run with|switch|swap|change|do|try|add)\b")


#: "I put it in": something is in the box.
_PUT_IN = re.compile(
    r"(?i)\b(?:i|we|he|she|they)(?:['’]ve| have| just| did| already| went ahead and| ended up)*"
    r" (?:(?:put|stuck|threw|pulled|ran|got|added|squeezed|did) (?:it|that|one|that one|them)"
    r" (?:in|(?:in )?(?:anyways?|regardless|all the same))\b|(?:add|added|adding|installed) )"
)


def _without_volume(turn: Turn) -> None:
    """ "Do that, 20": where nothing was proposed, the number is of no box that was."""
    following = turn.ahead[0] if turn.ahead else None
    if isinstance(following, acts.SetVolume) and _BARE.fullmatch(following.words):
        turn.ahead[0] = acts.Number(
            value=following.volume, words=following.words, span=following.span
        )


#: "Take that one out", where nothing was proposed: what was said last.
_TAKEN_OUT = re.compile(
    r"(?i)(?:take|pull|get|leave|drop) (?:that|this) one (?:back )?(?:out|off)\b"
    r"|(?:so |and |now |no,? )*(?:it|that one)(?:['’]s| is) (?:back )?(?:out|gone)\b"
)
_BARE = re.compile(r"(?i)[\d.]+|[a-z -]+(?<!cubes)(?<!inches)(?<!box)")
