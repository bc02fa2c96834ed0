"""The tracker folds acts into the box: which handler each act has, and in what order they go.

Only acts that inform, answer, correct or request change a box; a question is answered after
everything that was told in the same breath.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import Any

from boxaloud.assistant.dialogue import possible_items, undo
from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.assessment import assess
from boxaloud.assistant.dialogue.belief import held_acts, unread_words
from boxaloud.assistant.dialogue.interpretation import interpreter, recounted, value_conflicts
from boxaloud.assistant.dialogue.policy import (
    code_comparison,
    named_capacity,
    reason_questions,
    report_requests,
    user_questions,
)
from boxaloud.assistant.dialogue.state import described
from boxaloud.assistant.dialogue.stray_answers import is_stray
from boxaloud.assistant.dialogue.tracker import (
    box_parts,
    carried_load,
    clamps,
    conductor_routes,
    conductors_allowed,
    counts,
    denials,
    device_landing,
    grounds,
    list_restatement,
    marked_box,
    mentions,
    neutral_acts,
    removals,
    replacements,
    restatements,
    restorations,
    room_left,
    short_answers,
    sizes_anew,
    space_placing,
    table_box,
    what_if,
    yoke_sharing,
)
from boxaloud.assistant.dialogue.turn import Mark, Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act


def _suppose(turn: Turn, act: acts.Suppose) -> None:
    what_if.suppose(turn, act, run)


def _of_pull_box(turn: Turn, act: Act) -> None:
    from boxaloud.assistant.dialogue.tracker import pull_acts

    pull_acts.HANDLERS[type(act)](turn, act)


def _body(turn: Turn, act: acts.SetBody) -> None:
    from boxaloud.assistant.dialogue.enclosures import conduit_body

    conduit_body.set_body(turn, act)


def _fill(turn: Turn, act: acts.AskFill) -> None:
    from boxaloud.assistant.dialogue.enclosures import body_telling

    body_telling.fill(turn, act)


def _of_the_job(turn: Turn, act: Act) -> None:
    """A confirmed act about the boxes: the conversation does it, this box has no part in it."""
    turn.released.append(act)
    turn.understood.append(act.words)


def _passed(turn: Turn, act: Act) -> None:
    turn.understood.append(act.words)


HANDLERS: dict[type[Act], Callable[[Turn, Any], None]] = {
    **dict.fromkeys(
        (
            acts.AddCable,
            acts.AddConductors,
            acts.AddGrounds,
            acts.AddJumper,
            acts.AddFixtureWires,
            acts.AddDevice,
            acts.AddFitting,
            acts.AddTerminalBlock,
            acts.AddUncounted,
        ),
        mentions.mention,
    ),
    acts.SetClamps: clamps.clamps,
    acts.SetVolume: marked_box.box_volume,
    acts.SetSize: table_box.box_size,
    acts.NameBoxKind: table_box.box_kind,
    acts.AllowByTable: conductors_allowed.allow,
    acts.AddPart: box_parts.part,
    acts.AddBarrier: box_parts.barrier,
    acts.AddClampAssembly: box_parts.assembly,
    acts.Hang: carried_load.hang,
    acts.InSpace: space_placing.in_space,
    acts.ShareSpaces: space_placing.share,
    acts.Deepen: device_landing.deepen,
    acts.SetEdition: user_questions.edition,
    **dict.fromkeys(
        (
            acts.DescribePull,
            acts.AddRaceways,
            acts.TakeOutRaceways,
            acts.PointRaceways,
            acts.SetPull,
        ),
        _of_pull_box,
    ),
    acts.SetBody: _body,
    acts.AskFill: _fill,
    acts.Deny: denials.deny,
    acts.NothingElse: denials.nothing_else,
    acts.Number: short_answers.number,
    acts.Size: short_answers.size,
    acts.Place: _passed,
    acts.NoneOfThem: short_answers.none,
    acts.Yes: short_answers.yes,
    acts.No: short_answers.no,
    acts.DontKnow: short_answers.dont_know,
    acts.Skip: short_answers.skip,
    acts.Restate: restatements.restate,
    acts.RestateList: list_restatement.restate_list,
    acts.RestateNumber: restatements.restate_number,
    acts.Recount: counts.recount_act,
    acts.ShareYoke: yoke_sharing.share,
    acts.Resize: sizes_anew.resize,
    acts.Replace: replacements.replace_act,
    acts.Remove: removals.remove,
    acts.More: removals.further,
    acts.Land: device_landing.land,
    acts.Widen: device_landing.widen,
    acts.Unground: grounds.unground,
    acts.Reclassify: conductor_routes.reclassify,
    acts.Route: conductor_routes.route,
    acts.SetCanopy: conductor_routes.canopy,
    acts.PutBack: restorations.put_back,
    acts.Keep: neutral_acts.keep,
    acts.UnknownOperator: neutral_acts.unknown,
    acts.Mistaken: neutral_acts.mistaken,
    acts.Suppose: _suppose,
    acts.RoomFor: lambda turn, act: room_left.room(turn, act, run),
    acts.Ask: lambda turn, act: named_capacity.ask(turn, act, run),
    acts.AskWhy: reason_questions.why,
    acts.AskEdition: code_comparison.what_changes,
    acts.AskMeaning: user_questions.meaning,
    acts.AskUnknown: user_questions.unknown,
    acts.Undo: undo.undo,
    acts.Redo: undo.redo,
    acts.StartOver: undo.start_over,
    acts.SetForm: user_questions.form,
    acts.Done: user_questions.done,
    acts.SendReport: report_requests.send_report,
    acts.TellProject: report_requests.tell_project,
    acts.DoIt: what_if.do_it,
    acts.Social: neutral_acts.social,
    acts.OtherTalk: neutral_acts.other_talk,
    acts.Alias: _passed,
    acts.NextBox: _of_the_job,
    acts.DeleteBox: _of_the_job,
}

STEPS = (acts.Undo, acts.Redo, acts.StartOver)

QUESTIONS = (
    acts.Ask, acts.AskWhy, acts.AskEdition, acts.AskMeaning, acts.AskUnknown, acts.RoomFor,
    acts.AskFill, acts.SendReport, acts.TellProject,
)  # fmt: skip
"""Answered last, when everything in the breath is entered."""

LOOK_AGAIN = (
    acts.Number, acts.Size, acts.NoneOfThem, acts.Place, acts.Yes, acts.No, acts.Skip,
    acts.DontKnow, acts.NameBoxKind,
)  # fmt: skip
"""Answers that mean nothing without the open question."""


def _look_again(turn: Turn, repair: bool) -> None:
    """After a change in the same breath, a bare answer belongs to the question open by then.

    It does not answer a doubt raised in that breath, which nobody has asked about yet, unless
    it is a `repair` ("four, no, five"): "14-2s in an 18" gives the box, not the number of cables.
    """
    state = turn.state
    if not repair and state.pending and state.pending[0] not in turn.held_before:
        state = altered(state, pending=())
    question = assess(state).question
    turn.asked_of = turn.state
    turn.asked = question.slot if question else None
    turn.subject = question.subject if question else None


def run(turn: Turn, told: Sequence[Act]) -> None:
    """Work through acts in order, questions last; a doubtful act is held back to be asked."""
    told = recounted.in_all(turn, told)
    turn.ahead = [act for act in told if not isinstance(act, QUESTIONS)]
    asked = [act for act in told if isinstance(act, QUESTIONS)]
    turn.held_before, turn.first_asked = turn.state.pending, turn.asked
    _work_through(turn)
    unread_words.before_questions(turn, asked)
    for act in asked:
        _reopen(turn)
        turn.done.append(act)
        _handler(act)(turn, act)


def _work_through(turn: Turn) -> None:
    repair = False
    while (act := turn.take()) is not None:
        corrects = isinstance(act, acts.No) or act.function == "correction"
        if interpreter.tells_nothing(turn, act):
            turn.understood.append(act.words)
            continue
        if is_stray(turn, act):
            turn.unplaced.append(act.words)
            continue
        settled = turn.asked == "confirm" and not turn.state.pending
        if (turn.state is not turn.asked_of or settled) and isinstance(act, LOOK_AGAIN):
            _look_again(turn, repair or corrects)
        _work(turn, act)
        repair = isinstance(act, acts.No)


def _reopen(turn: Turn) -> None:
    """The question that is open by now, for what asks about it."""
    if turn.state is not turn.asked_of:
        _look_again(turn, True)


def _work(turn: Turn, act: Act) -> None:
    """One act: interpreted, then held back where it is in doubt, else done."""
    full = interpreter.interpreted(turn, act) if act is not turn.settled else act
    turn.done.append(full)
    mark = Mark(turn.state, len(turn.echoes), len(turn.understood), full.words)
    if act is turn.settled:
        _do(turn, full, mark)
        return
    held_acts.settle_operator(turn, full)
    if held_acts.hold(turn, full) or value_conflicts.held(turn, full):
        turn.marks.append(mark)
        return
    _do(turn, full, mark)
    echoed = len(turn.echoes)
    if turn.spoken and held_acts.hold_flip(turn, mark.state, full):
        del turn.echoes[mark.echoes : echoed]
        del turn.understood[mark.understood : -1]


def _handler(act: Act) -> Callable[[Turn, Any], None]:
    return HANDLERS[type(act)]


def _do(turn: Turn, act: Act, mark: Mark) -> None:
    """Do an act, and note how things stood before it if it changed the box."""
    trail = len(turn.trail)
    _handler(act)(turn, act)
    if not isinstance(act, STEPS) and possible_items.refused(turn, act.words, mark, trail):
        return
    again = unread_words.corrects(act) if turn.missed else unread_words.says_again(act)
    if again and described(turn.state) != described(mark.state):
        turn.state = altered(turn.state, mistaken=False)
    if turn.state is not mark.state and not isinstance(act, STEPS):
        turn.marks.append(mark)
        if turn.state.offered and turn.state.items != mark.state.items:
            turn.state = altered(turn.state, offered=())
        if (
            turn.state.proposed
            and any(type(act) is type(one) for one in turn.state.proposed)
            and not isinstance(act, acts.Suppose)
        ):
            turn.state = altered(turn.state, proposed=())
