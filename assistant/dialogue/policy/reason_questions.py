"""“Why”: the section and the reasoning of a line, or of a question."""

from __future__ import annotations

from decimal import Decimal

from boxaloud.assistant.dialogue.assessment import assess
from boxaloud.assistant.dialogue.interpretation.references import TYPES
from boxaloud.assistant.dialogue.nlg.sentences import joined, listed, say, sentence, volume
from boxaloud.assistant.dialogue.policy import enclosure_questions
from boxaloud.assistant.dialogue.policy.box_status import status
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.rules import explain

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


def why(turn: Turn, act: acts.AskWhy) -> None:
    """ "why", "why do the clamps count": section and reasoning of a line, in a sentence."""
    if act.of in (None, "verdict") and enclosure_questions.why(turn, act):
        return
    if act.figure is not None and _why_that_figure(turn, act.figure, act):
        return
    if act.of == "verdict" or act.figure is not None:
        _why_so_full(turn, act)
        return
    lines = assess(turn.state).sheet.lines
    of = act.of
    wanted = ITEMS.get(of) if of else None
    if of is None:
        wanted = _said_last(turn.state)
    chosen = [line for line in lines if wanted is None or line.item in wanted]
    if of is None:
        chosen = chosen[-1:]
    if not chosen:
        clamps = turn.state.clamps in ("none", "outside") and wanted == ITEMS["clamps"]
        turn.answer(say("why.no_clamps" if clamps else "why.nothing"), act.words)
        return
    said = []
    for line in chosen[:2]:
        note = explain(line.rule)
        said.append(say("why.line", what=line.what, reason=note.says, section=line.section))
        if note.mark == "from memory":
            said.append(say("why.memory"))
        if turn.state.form == "full":
            said.append(say("why.source", source=note.source))
    turn.answer(sentence(joined(said)), act.words)


LEADING = 2
"""Lines that are named as what fills the box the most."""


def _why_so_full(turn: Turn, act: Act) -> None:
    """ "why is it over": where it stands, and the lines that take the most."""
    found = assess(turn.state)
    text = status(turn.state, found) or say("nothing_yet")
    lines = sorted(found.sheet.lines, key=lambda line: line.subtotal, reverse=True)
    most = [
        say("answer.takes", what=line.what, volume=volume(line.subtotal), section=line.section)
        for line in lines[:LEADING]
        if line.subtotal
    ]
    parts = [text, say("answer.most_of_it", lines=listed(most))] if most else [text]
    turn.answer(joined(parts), act.words)


def _why_that_figure(turn: Turn, figure: Decimal, act: Act) -> bool:
    """ "Where's the 4.5 come from": the lines that come to it. False where none does."""
    lines = [line for line in assess(turn.state).sheet.lines if figure == line.subtotal]
    said = [
        say("answer.line", what=line.what, volume=volume(line.subtotal), section=line.section)
        for line in lines
    ]
    if said:
        turn.answer(sentence(joined(said, by="; ")), act.words)
    return bool(said)


def _said_last(state: State) -> tuple[str, ...] | None:
    """The worksheet items of the thing said last, None where it has none."""
    if state.last == "clamps":
        return ITEMS["clamps"]
    item = state.item(state.last)
    if item is None:
        return None
    kind = next(name for name, made in TYPES.items() if type(item.content) in made)
    return ITEMS.get(kind)


def why_ask(turn: Turn, act: Act) -> None:
    """ "why do you ask"."""
    turn.answer(say(f"why.ask.{turn.asked or 'nothing'}"), act.words)
