"""Questions about the count of the box: total, margin, capacity, conductors, the largest line."""

from __future__ import annotations

from decimal import Decimal

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.answer_figures import Figure
from boxaloud.assistant.dialogue.assessment import assess
from boxaloud.assistant.dialogue.belief.held_figures import held_text
from boxaloud.assistant.dialogue.nlg.sentences import (
    joined,
    listed,
    marked,
    plain,
    say,
    volume,
)
from boxaloud.assistant.dialogue.policy import box_status, enclosure_questions
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar.acts import Act
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.rules import CANADIAN, editions, is_canadian
from boxaloud.rules.worksheet import Unit, WorksheetItem


def read_back(turn: Turn, act: Act) -> None:
    """ "what have I got", "read it back"."""
    turn.shows_sheet = True
    turn.answer(box_status.read_back(turn.state, assess(turn.state)), act.words)


def total(turn: Turn, act: Act) -> None:
    """ "what's the total"."""
    if enclosure_questions.standing(turn, act):
        if turn.state.body.spliced and turn.state.items:  # what splices take, fitting or not
            turn.answer(needed_text(turn.state), act.words, needed_figure(turn.state))
        return
    text = box_status.status(turn.state, assess(turn.state)) or say("nothing_yet")
    turn.answer(text, act.words)


def margin(turn: Turn, act: Act) -> None:
    """ "what's the margin"."""
    if enclosure_questions.standing(turn, act):
        return
    found = assess(turn.state)
    sheet = found.sheet
    if sheet.margin is None:
        text = say("margin.unknown", total=with_unit(sheet.total, sheet.unit))
    elif found.verdict == "incomplete" or found.low != found.high:
        text = box_status.status(turn.state, found) or say("nothing_yet")
    else:
        key = "known" if sheet.margin >= 0 else "over"
        text = say(f"margin.{key}", margin=volume(abs(sheet.margin), sheet.unit))
    turn.answer(text, act.words)


def capacity(turn: Turn, act: Act) -> None:
    """ "how big is the box"."""
    capacity_of(turn, act, turn.state)


def capacity_of(turn: Turn, act: Act, state: State) -> None:
    """The capacity of the box of a state, from its mark or the Table."""
    sheet = assess(state).sheet
    if sheet.capacity is None:
        turn.answer(say("capacity.unknown"), act.words)
        return
    parts = listed([f"{part.what} {marked(part.volume)}" for part in sheet.volumes])
    room = f"{marked(sheet.capacity)} {say(f'unit.{sheet.unit}')}"
    text = say("capacity.known", capacity=room, parts=parts)
    turn.answer(text, act.words, Figure("capacity", sheet.capacity, sheet.capacity, sheet.unit))


def volume_asked(turn: Turn, act: Act) -> None:
    """ "how many cubic inches is that": of what is in the box, else of the box."""
    if turn.state.items:
        total(turn, act)
    else:
        capacity(turn, act)


def needed_text(state: State) -> str:
    """What the contents take, over all that is open; it waits for what was not understood."""
    if held := held_text(state):
        return held
    found = assess(state)
    unit = found.sheet.unit
    section = say("needed.section_canada" if is_canadian(state.edition) else "needed.section")
    if found.low == found.high:
        return say("needed.exact", total=with_unit(found.low, unit), section=section)
    low, high = volume(found.low, unit), with_unit(found.high, unit)
    return say("needed.range", low=low, high=high, section=section)


def needed_figure(state: State) -> Figure:
    """The volume that the contents take."""
    found = assess(state)
    return Figure("needed", found.low, found.high, found.sheet.unit)


def with_unit(value: Decimal, unit: Unit) -> str:
    """A volume with its unit in words."""
    return f"{volume(value)} {say(f'unit.{unit}')}"


def largest(turn: Turn, act: Act) -> None:
    """ "what's the biggest thing in there"."""
    lines = assess(turn.state).sheet.lines
    if not lines:
        turn.answer(say("nothing_yet"), act.words)
        return
    unit = assess(turn.state).sheet.unit
    line = max(lines, key=lambda one: one.subtotal)
    turn.answer(
        say(
            "answer.largest",
            what=line.what,
            volume=volume(line.subtotal, unit),
            section=line.section,
        ),
        act.words,
    )


_WIRES: tuple[WorksheetItem, ...] = (
    "conductors", "pass_through", "loops", "fixture_wires", "grounds", "isolated_grounds",
)  # fmt: skip


def largest_wire(turn: Turn, act: Act) -> None:
    """ "which wire is the biggest": what clamps, studs and hickeys are counted at, 314.16(B)(2)
    and (3)."""
    sheet = assess(turn.state).sheet
    wires = [line for line in sheet.lines if line.item in _WIRES and line.awg is not None]
    if not wires:
        turn.answer(say("nothing_yet"), act.words)
        return
    line = min(wires, key=lambda one: one.awg or 0)
    each = volume(line.each, sheet.unit)
    turn.answer(say("answer.largest_wire", awg=line.awg, volume=each), act.words)


def conductors(turn: Turn, act: Act) -> None:
    """ "how many wires is that": the conductors by size, and the grounds beside them."""
    lines = [line for line in assess(turn.state).sheet.lines if line.item in _WIRES]
    wires = listed([line.what for line in lines])
    turn.answer(say("answer.conductors", wires=wires) if lines else say("nothing_yet"), act.words)


def allowances(turn: Turn, act: Act) -> None:
    """ "How many allowances is all that": as many as the lines of the worksheet come to."""
    lines = [line for line in assess(turn.state).sheet.lines if line.allowances]
    if not lines:
        turn.answer(say("nothing_yet"), act.words)
        return
    count = sum((line.allowances for line in lines), Decimal(0))
    each = [
        say("answer.allowances_of", count=plain(line.allowances), what=line.what) for line in lines
    ]
    text = say("answer.allowances", count=plain(count), lines=listed(each))
    turn.answer(text, act.words, Figure("takes", count, count, "count"))


def metric(turn: Turn, act: Act) -> None:
    """ "convert to mL": 16.4 cm³ is a cubic inch in the code's own tables."""
    from boxaloud.rules import shown_cm3

    sheet = assess(turn.state).sheet
    if sheet.unit == "mL":
        total(turn, act)
        return
    parts = [say("answer.metric_total", total=shown_cm3(sheet.total))]
    if sheet.capacity is not None:
        parts.append(say("answer.metric_capacity", capacity=shown_cm3(sheet.capacity)))
    if turn.state.edition_choices or perhaps_canadian(turn):
        choices = turn.state.edition_choices or (CANADIAN, turn.state.edition)
        turn.state = altered(turn.state, edition_choices=choices, last="edition")
        parts = [say("answer.metric_edition")]
    turn.answer(joined(parts), act.words)


_MILLILITRES = lazy_pattern(
    r"(?i)\b(?:how (?:many|much)|required?|needs?|needed|what (?:size|volume)|min(?:imum)?|total)\b"
    r".*\b(?:ml|mls|millilit(?:er|re)s?)\b"
)
_CONVERTED = lazy_pattern(r"(?i)\b(?:is|are|in) (?:that|it|this|those)\b|\bconvert|\bmetric\b")


def perhaps_canadian(turn: Turn) -> bool:
    """ "What volume in mL": the unit of the Canadian code, where nobody said by which it is
    counted. A volume that is only to be converted is no such question."""
    if is_canadian(turn.state.edition):
        return False
    told = any(state.last == "edition" for state in (*turn.trail, turn.state))
    asked = _MILLILITRES.search(turn.heard) and not _CONVERTED.search(turn.heard)
    return bool(asked) and not told


def stricter(turn: Turn, act: Act) -> None:
    """ "which is stricter": the total under each edition held."""
    totals = {year: assess(altered(turn.state, edition=year)).sheet.total for year in editions()}
    told = [
        say("answer.by_edition", years=listed([y for y in totals if totals[y] == total]),
            total=volume(total))
        for total in dict.fromkeys(totals.values())
    ]  # fmt: skip
    turn.answer(say("answer.stricter", totals=joined(told, by="; ")), act.words)


def certainty(turn: Turn, act: Act) -> None:
    """ "how sure are you": what the total rests on."""
    open_ = assess(turn.state).question
    turn.answer(say("answer.certain" if open_ is None else "answer.certain_open"), act.words)
