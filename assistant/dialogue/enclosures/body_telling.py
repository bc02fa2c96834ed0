"""A conduit body told, and what a raceway holds: Chapter 9 Table 1, with its section."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING

from boxaloud.assistant.dialogue.enclosures import conduit_body, pull_telling
from boxaloud.assistant.dialogue.enclosures.body_state import BodySaid
from boxaloud.assistant.dialogue.enclosures.pull_standing import real_lines
from boxaloud.assistant.dialogue.nlg.sentences import inches, joined, listed, plain, say, sentence
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.rules.errors import RulesError

if TYPE_CHECKING:
    from boxaloud.rules import BodyLine, Requirement
    from boxaloud.rules.pull_limits import Compared

RACEWAYS = ("emt", "imc", "rmc", "pvc40")
INSULATIONS = ("thhn", "xhhw", "tw")
SIZES = (14, 12, 10, 8, 6)
"""Of conductors of 6 AWG and smaller, which a body without splices is counted by, 314.16(C)(1)."""


def told(state: State) -> str:
    """Where a conduit body stands, in a sentence or two; empty while something is open."""
    found = conduit_body.standing(state)
    if found is None:
        return ""
    if found.sheet is None:
        return found.refusal
    return joined([*(_line(state, line) for line in found.sheet.lines), *of_large(found)])


def of_large(found: conduit_body.BodyStanding) -> list[str]:
    """How large a body must be that conductors of 4 AWG and larger pass through, or why its
    marking is enough; with what of it is from memory."""
    if not found.said.large:
        return []
    told = [say("body.memory")]
    pull = found.pull
    if found.marked:
        return [say("body.marked"), *told]
    if found.said.permits:
        told.append(say("body.not_marked"))
    if pull is None or pull.sheet is None:
        return [*([pull.refusal] if pull is not None else []), *told]
    if pull.verdict != "incomplete":
        told = [say("body.enough" if pull.verdict == "fits" else "body.small"), *told]
    lines = [_dimension(one) for one in real_lines(pull.sheet)]
    return [*told, *map(_held, pull.compared), *dict.fromkeys(lines)]


def _dimension(line: Requirement) -> str:
    return say(
        f"body.dimension.{line.axis or 'apart'}",
        inches=pull_telling.shown(line.inches),
        working=line.working.replace(" x ", " times ").replace(" + ", " plus "),
        section=line.section,
    )


def _held(one: Compared) -> str:
    return say(
        f"body.held.{'fits' if one.holds else 'small'}",
        axis=say(f"body.axis.{one.axis}"),
        have=pull_telling.shown(one.have),
        least=pull_telling.shown(one.least),
        section=one.section,
    )


def governed() -> str:
    """Which section a conduit body goes by, with splices and without."""
    return say("box_named.conduit_body")


def remedy(state: State) -> str:
    """What would hold what is in a body that is over: a larger raceway, if one would."""
    found = conduit_body.standing(state)
    if found is None or found.sheet is None:
        return "" if found is None else found.refusal
    if found.sheet.verdict == "fits":  # the raceway holds them, and the body is too small
        return say("body.larger_body")
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
    standing = "over" if not line.holds else "within" if said.large else "fits"
    key = f"body.{line.unit}.{standing}"
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
    """ "How many 12 THHN in half inch EMT", "will ten fit"; of a body at hand by its raceway."""
    said = turn.state.body if conduit_body.named(turn.state) else BodySaid()
    size, awg = act.size or said.size, act.large or act.awg
    by_volume = bool(turn.state.box) and said.spliced is not False
    if size is not None and awg is None and said.raceway in RACEWAYS and not by_volume:
        turn.answer(_of_every_size(said, size), act.words)
        return
    if size is None or awg is None:
        turn.answer(say("body.ask_whole"), act.words)
        return
    # whole work of its own, which most boxes need none of
    from boxaloud.rules import explain, most_conductors

    kind_said = act.raceway or (said.raceway if act.size is None else "")
    if kind_said and kind_said not in RACEWAYS:
        held = listed([raceway(kind, None) for kind in RACEWAYS])
        turn.answer(say("body.not_held", raceway=raceway(kind_said, None), held=held), act.words)
        return
    insulation_said = act.insulation or (said.insulation if act.size is None else "")
    kinds = [kind_said] if kind_said else list(RACEWAYS)
    insulations = [insulation_said] if insulation_said else list(INSULATIONS)
    open_both = len(kinds) > 1 and len(insulations) > 1
    insulations = insulations[:1] if open_both else insulations
    try:
        most = [
            (kind, insulation, most_conductors(kind, Fraction(size), awg, insulation))
            for kind in kinds
            for insulation in insulations
        ]
    except RulesError as refusal:
        turn.answer(str(refusal), act.words)
        return
    note = explain("body-fill")
    what = say("body.what", awg=awg, raceway=raceway(kind_said or "any", size))
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
        key = "most_thhn" if open_both else "most_each"
        text = say(f"body.{key}", what=what, each=listed(each))
    section = note.section.rpartition(", ")[2]
    memory = [say("body.memory")] if act.large else []
    turn.answer(joined([sentence(say("body.by", text=text, section=section)), *memory]), act.words)


def _of_every_size(said: BodySaid, size: Decimal) -> str:
    """ "How many can I have" of a body at hand: of each size counted by its area, one by one."""
    from boxaloud.rules import explain, most_conductors

    insulation = said.insulation or INSULATIONS[0]
    most = [(awg, most_conductors(said.raceway, Fraction(size), awg, insulation)) for awg in SIZES]
    text = say(
        "body.most_of_sizes",
        raceway=raceway(said.raceway, size),
        insulation=say(f"body.insulation.{insulation}"),
        each=listed([say("body.each", most=number, of=f"number {awg}") for awg, number in most]),
    )
    section = explain("body-fill").section.rpartition(", ")[2]
    return sentence(say("body.by", text=text, section=section))
