"""A conduit body told, and what a raceway holds: Chapter 9 Table 1, with its section."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING

from boxaloud.assistant.dialogue.enclosures import conduit_body
from boxaloud.assistant.dialogue.enclosures.body_state import BodySaid
from boxaloud.assistant.dialogue.nlg.sentences import inches, joined, listed, plain, say, sentence
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.rules.errors import RulesError

if TYPE_CHECKING:
    from boxaloud.rules import BodyLine

RACEWAYS = ("emt", "imc", "rmc", "pvc40")
INSULATIONS = ("thhn", "xhhw", "tw")


def told(state: State) -> str:
    """Where a conduit body stands, in a sentence or two; empty while something is open."""
    found = conduit_body.standing(state)
    if found is None:
        return ""
    if found.sheet is None:
        return found.refusal
    return joined(_line(state, line) for line in found.sheet.lines)


def governed() -> str:
    """Which section a conduit body goes by, with splices and without."""
    return say("box_named.conduit_body")


def remedy(state: State) -> str:
    """What would hold what is in a body that is over: a larger raceway, if one would."""
    found = conduit_body.standing(state)
    if found is None or found.sheet is None:
        return "" if found is None else found.refusal
    size = conduit_body.larger(state)
    if size is None:
        return say("body.no_larger")
    return say("body.larger", size=inches(size), raceway=raceway(state.body.raceway, None))


def what(line: BodyLine, said: BodySaid) -> str:
    """What a line is of: "6 THHN conductors in 3/4 inch EMT"."""
    return say(
        f"body.line.{line.unit}",
        have=_number(line.have),
        limit=_number(line.limit),
        raceway=raceway(said.raceway, said.size),
        insulation=say(f"body.insulation.{said.insulation}"),
    )


def reason(line: BodyLine) -> str:
    """How the limit of a line comes about: the figures, and the tables that they are of."""
    key = "like" if line.unit == "conductors" else "mixed"
    working = line.working.replace(" x ", " times ").replace(" / ", " over ")
    return say(f"body.why.{key}", working=working) if line.rule == "body-fill" else ""


def _line(state: State, line: BodyLine) -> str:
    said = state.body
    key = f"body.{line.unit}.{'fits' if line.holds else 'over'}"
    return say(
        key,
        have=_number(line.have),
        limit=_number(line.limit),
        raceway=raceway(said.raceway, said.size),
        insulation=say(f"body.insulation.{said.insulation}"),
        section=line.section,
    )


def raceway(kind: str, size: Decimal | None) -> str:
    """A raceway by its kind, and its trade size where one is given."""
    name = say(f"body.raceway.{kind}")
    return name if size is None else say("body.sized", size=inches(size), raceway=name)


def _number(value: Fraction) -> str:
    return plain(Decimal(value.numerator) / Decimal(value.denominator))


def fill(turn: Turn, act: acts.AskFill) -> None:
    """ "How many 12 THHN in half inch EMT", "will ten fit"."""
    if act.size is None or act.awg is None:
        turn.answer(say("body.ask_whole"), act.words)
        return
    # whole work of its own, which most boxes need none of
    from boxaloud.rules import explain, most_conductors

    kinds = [act.raceway] if act.raceway else list(RACEWAYS)
    insulations = [act.insulation] if act.insulation else list(INSULATIONS)
    if len(kinds) > 1 and len(insulations) > 1:
        turn.answer(say("body.ask_whole"), act.words)
        return
    try:
        most = [
            (kind, insulation, most_conductors(kind, Fraction(act.size), act.awg, insulation))
            for kind in kinds
            for insulation in insulations
        ]
    except RulesError as refusal:
        turn.answer(str(refusal), act.words)
        return
    note = explain("body-fill")
    what = say("body.what", awg=act.awg, raceway=raceway(act.raceway or "any", act.size))
    if len(most) == 1:
        key = "most" if act.count is None else "yes" if act.count <= most[0][2] else "no"
        name = say(f"body.insulation.{most[0][1]}")
        text = say(f"body.{key}", most=most[0][2], count=act.count or 0, insulation=name, what=what)
    else:
        each = [
            say("body.each", most=number, of=say(f"body.raceway.{kind}") if len(kinds) > 1
                else say(f"body.insulation.{insulation}"))
            for kind, insulation, number in most
        ]  # fmt: skip
        text = say("body.most_each", what=what, each=listed(each))
    section = note.section.rpartition(", ")[2]
    turn.answer(sentence(say("body.by", text=text, section=section)), act.words)
