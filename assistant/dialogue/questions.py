"""Questions that the user asks: they are answered, and change nothing in the box."""

from __future__ import annotations

from dataclasses import replace

from assistant.dialogue import status
from assistant.dialogue.assessing import assess
from assistant.dialogue.finding import TYPES
from assistant.dialogue.saying import counted, listed, marked, say, volume
from assistant.dialogue.state import Form, State, to_box
from assistant.dialogue.turn import Turn
from grammar import help_topics
from grammar.statements import Statement
from rules import (
    BoxChoice,
    Difference,
    RulesError,
    advise,
    check_edition,
    differences,
    editions,
    explain,
    smallest_boxes,
)


def read_back(turn: Turn, statement: Statement) -> None:
    """ "what have I got", "read it back"."""
    turn.answer(status.read_back(turn.state, assess(turn.state)), statement.words)


def total(turn: Turn, statement: Statement) -> None:
    """ "what's the total"."""
    text = status.status(turn.state, assess(turn.state)) or say("nothing_yet")
    turn.answer(text, statement.words)


def margin(turn: Turn, statement: Statement) -> None:
    """ "what's the margin"."""
    found = assess(turn.state)
    sheet = found.sheet
    if sheet.margin is None:
        text = say("margin.unknown", total=volume(sheet.total))
    elif found.verdict == "incomplete" or found.low != found.high:
        text = status.status(turn.state, found) or say("nothing_yet")
    else:
        key = "known" if sheet.margin >= 0 else "over"
        text = say(f"margin.{key}", margin=volume(abs(sheet.margin)))
    turn.answer(text, statement.words)


def capacity(turn: Turn, statement: Statement) -> None:
    """ "how big is the box"."""
    sheet = assess(turn.state).sheet
    if sheet.capacity is None:
        turn.answer(say("capacity.unknown"), statement.words)
        return
    parts = listed([f"{part.what} {marked(part.volume)}" for part in sheet.volumes])
    text = say("capacity.known", capacity=marked(sheet.capacity), parts=parts)
    turn.answer(text, statement.words)


ITEMS = {
    "clamps": ("clamps",),
    "grounds": ("grounds", "isolated_grounds"),
    "device": ("yokes",),
    "conductors": ("conductors", "pass_through", "loops", "not_counted"),
    "cable": ("conductors", "pass_through", "loops"),
    "fitting": ("support_fittings",),
    "fixture_wires": ("fixture_wires", "not_counted"),
    "terminal_block": ("terminal_blocks",),
}
"""What can be asked about, and the worksheet items that answer."""


def why(turn: Turn, statement: Statement) -> None:
    """ "why", "why do the clamps count": section and reasoning of a line, in a sentence."""
    lines = assess(turn.state).sheet.lines
    of = statement.get("of")
    wanted = ITEMS.get(str(of)) if of else None
    if of is None:
        wanted = _said_last(turn.state)
    chosen = [line for line in lines if wanted is None or line.item in wanted]
    if of is None:
        chosen = chosen[-1:]
    if not chosen:
        clamps = turn.state.clamps in ("none", "outside") and wanted == ITEMS["clamps"]
        turn.answer(say("why.no_clamps" if clamps else "why.nothing"), statement.words)
        return
    said = []
    for line in chosen[:2]:
        note = explain(line.rule)
        said.append(say("why.line", what=line.what, reason=note.says, section=line.section))
        if note.mark == "from memory":
            said.append(say("why.memory"))
        if turn.state.form == "full":
            said.append(say("why.source", source=note.source))
    text = " ".join(said)
    turn.answer(text[0].upper() + text[1:], statement.words)


def _said_last(state: State) -> tuple[str, ...] | None:
    """The worksheet items of the thing said last, None where it has none."""
    if state.last == "clamps":
        return ITEMS["clamps"]
    item = state.item(state.last)
    kinds = {kind: name for name, kind in TYPES.items()}
    return ITEMS.get(kinds[type(item.content)]) if item is not None else None


def why_ask(turn: Turn, statement: Statement) -> None:
    """ "why do you ask"."""
    turn.answer(say(f"why.ask.{turn.asked or 'nothing'}"), statement.words)


FAMILIES = ("square", "octagon", "device", "handy")
"""Where a smallest box is looked for: what stands on a joist, not cast FS or masonry boxes."""


def smallest_box(turn: Turn, statement: Statement) -> None:
    """ "what's the smallest box"."""
    found = smallest_boxes(to_box(turn.state), FAMILIES)
    if not found:
        turn.answer(say("boxes.none"), statement.words)
        return
    first = found[0]
    text = say(
        "boxes.smallest",
        row=_box_name(first),
        volume=marked(first.volume),
        margin=volume(first.margin),
    )
    turn.answer(text, statement.words)


def _box_name(choice: BoxChoice) -> str:
    if choice.gangs == 1:
        return choice.row.name
    return say("boxes.ganged", row=choice.row.name, gangs=counted(choice.gangs))


def advice(turn: Turn, statement: Statement) -> None:
    """ "what can I do about it"."""
    found = assess(turn.state)
    if found.verdict == "fits":
        turn.answer(say("advice.fits"), statement.words)
        return
    turn.answer(advice_text(turn.state), statement.words)


def advice_text(state: State, most: int = 3) -> str:
    """The best changes for an overfull box, the most useful first."""
    found = advise(to_box(state))
    enough = [item.what for item in found if item.enough][:most]
    if enough:
        return say("advice.lead", things="; or ".join(enough))
    if not found:
        return say("advice.none")
    best = found[0]
    return say("advice.best", what=best.what, saves=volume(best.saves))


def what_changes(turn: Turn, statement: Statement) -> None:
    """ "what changes under 2017?"."""
    try:
        year = check_edition(str(statement.get("year", "")))
    except RulesError as refusal:
        turn.refused.append(str(refusal))
        return
    box = to_box(turn.state)
    found = differences(box, year)
    if not found:
        turn.answer(say("changes.none", year=year), statement.words)
        return
    now = assess(turn.state).sheet.total
    then = assess(replace(turn.state, edition=year)).sheet.total
    things = listed([_change(item) for item in found])
    text = say("changes.some", year=year, things=things, total=volume(then), now=volume(now))
    turn.answer(text, statement.words)


def _change(item: Difference) -> str:
    key = "more" if item.change > 0 else "less"
    what = item.there_what or item.here_what
    return say(f"changes.{key}", what=what, by=volume(abs(item.change)), section=item.section)


def which_edition(turn: Turn, statement: Statement) -> None:
    """ "which edition are you on"."""
    text = say("edition.which", year=turn.state.edition, held=listed(list(editions())))
    turn.answer(text, statement.words)


def edition(turn: Turn, statement: Statement) -> None:
    """ "use 2020": an edition we hold, or a refusal by name."""
    try:
        year = check_edition(str(statement.get("year", "")))
    except RulesError as refusal:
        turn.refused.append(str(refusal))
        return
    old = turn.state.edition
    key = "echo.edition" if old == year else "echo.edition_changed"
    state = replace(turn.state, edition=year, last="edition")
    turn.enter(state, say(key, year=year, old=old), say("echo.edition", year=year))


def help_(turn: Turn, statement: Statement) -> None:
    """ "help": how to answer the open question, or examples from the grammar."""
    if turn.asked is not None:
        turn.answer(say(f"how_to.{turn.asked}"), statement.words)
        return
    examples = [example for topic in help_topics().values() for example in topic[:1]]
    quoted = listed([f"“{example}”" for example in examples[:6]])
    turn.answer(f"{say('help.lead')} {say('help.more', examples=quoted)}", statement.words)


def form(turn: Turn, statement: Statement) -> None:
    """ "brief", "full": shorter or longer answers."""
    wanted: Form = "brief" if statement.kind == "brief" else "full"
    turn.enter(replace(turn.state, form=wanted), say(f"echo.{wanted}"))
