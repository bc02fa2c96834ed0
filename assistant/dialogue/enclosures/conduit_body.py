"""Conduit bodies, 314.16(C): what passes through goes by the raceway, what is spliced by volume."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
from typing import TYPE_CHECKING, Literal

from boxaloud.assistant.dialogue.altering import with_told
from boxaloud.assistant.dialogue.enclosures import body_dimensions
from boxaloud.assistant.dialogue.enclosures.body_state import BodySaid
from boxaloud.assistant.dialogue.enclosures.pull_standing import PullStanding
from boxaloud.assistant.dialogue.nlg.sentences import say
from boxaloud.assistant.dialogue.question_slots import BodySlot
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.quick_dataclass import dataclass
from boxaloud.rules import counted_under, is_canadian
from boxaloud.rules.contents import Conductors, Content, Grounds
from boxaloud.rules.errors import RulesError

if TYPE_CHECKING:
    from boxaloud.rules import BodySheet

WORST_CASE = frozenset({"body_ends"})


NOTHING_SAID = BodySaid()


@dataclass(frozen=True, slots=True)
class BodyStanding:
    """Where a conduit body with nothing spliced in it, or with what it may not hold, stands."""

    sheet: BodySheet | None
    verdict: Literal["fits", "over", "incomplete"] = "incomplete"
    refusal: str = ""
    said: BodySaid = NOTHING_SAID
    pull: PullStanding | None = None
    """Its dimensions by 314.28(A), where conductors of 4 AWG and larger pass through it."""
    marked: bool = False
    """True where its maker's marking permits what is in it, 314.28(A)(3)."""


def named(state: State) -> bool:
    """True where the box is a conduit body."""
    return "conduit body" in state.tags


def set_body(turn: Turn, act: acts.SetBody) -> None:
    """ "LB", "three quarter EMT", "no splices": what is said of the body itself."""
    said = turn.state.body
    said = with_told(said, act, "shape", "raceway", "size", "insulation", "spliced")
    said = with_told(said, act, "short_radius", "both_sides", "listed", "length", "width", "depth")
    if act.large:
        said = replace(said, large=act.large if _anew(act) else (*said.large, *act.large))
    if act.permits:
        said = replace(said, permits=act.permits)
    if act.marked is not None:
        said = replace(said, unmarked=not act.marked)
    turn.enter(replace(turn.state, body=said), "", act.words)


def _anew(act: acts.SetBody) -> bool:
    """True where conductors take the place of those that were said before."""
    return act.function == "correction"


def filled(state: State) -> bool:
    """True where anything was said to be in it."""
    return bool(state.items or state.body.large)


def answered(turn: Turn, yes: bool, words: str) -> bool:
    """Take "yes" or "no" where a conduit body is asked about; False where it answers nothing."""
    match turn.asked:
        case "body_ends":
            set_body(turn, acts.SetBody(both_sides=yes, words=words))
        case _:
            return False
    return True


def passing(state: State) -> bool:
    """True where nothing is spliced in the body: it was said, or all of it passes through."""
    if not named(state) or state.body.spliced:
        return False
    if state.body.large:
        return all(isinstance(item.content, Conductors | Grounds) for item in state.items)
    wires = [item.content for item in state.items if isinstance(item.content, Conductors)]
    alone = all(isinstance(item.content, Conductors | Grounds) for item in state.items)
    if not alone or not wires:
        return state.body.spliced is False and alone
    return state.body.spliced is False or all(wire.path == "through" for wire in wires)


def asked(state: State) -> BodySlot | None:
    """What is to be asked of a conduit body next; None where nothing is."""
    if not named(state) or not filled(state):
        return None
    slots: list[BodySlot] = []
    if passing(state):
        said = state.body
        open_: tuple[tuple[BodySlot, bool], ...] = (
            ("body_raceway", not said.raceway),
            ("body_size", said.size is None),
            ("body_insulation", not said.insulation),
            ("body_shape", bool(said.large) and not said.shape),
            ("body_inside", body_dimensions.inside_open(said) and not _overfilled(state)),
        )
        slots = [slot for slot, missing in open_ if missing]
    elif ends_open(state):
        slots = [] if refused(state) else ["body_ends"]
    elif state.body.spliced is None and not state.box and not state.body.unmarked:
        slots = ["body_splices"] if _wires(state) else []
    return next((slot for slot in slots if slot not in state.put_off), None)


def _overfilled(state: State) -> bool:
    """True where no dimension would make up for too many conductors."""
    said = state.body
    if said.size is None or not said.raceway or not said.insulation:
        return False
    contents = tuple(item.content for item in state.items)
    sheet = _passing(said, said.size, contents, state.edition).sheet
    return sheet is not None and sheet.verdict != "fits"


def ends_open(state: State) -> bool:
    """True where wires are spliced in the body, and it is open whether each comes in twice."""
    said = state.body
    if not named(state) or not said.spliced or said.both_sides is not None:
        return False
    return bool(_wires(state)) and "body_ends" not in state.assumed


def _wires(state: State) -> list[Content]:
    return [
        i.content for i in state.items if isinstance(i.content, Conductors) and twice(i.content)
    ]


def twice(content: Content) -> bool:
    """Whether a content is counted twice where it comes in from both sides."""
    wire = isinstance(content, Conductors) and content.path not in ("through", "loop", "inside")
    return wire or isinstance(content, Grounds)


def standing(state: State) -> BodyStanding | None:
    """Where the body stands; None where it is counted as any box with a marked volume."""
    if state.body.large and not (named(state) and passing(state)):
        key = "large_spliced" if named(state) else "large_elsewhere"
        return BodyStanding(None, refusal=say(f"body.{key}"), said=state.body)
    if not named(state) or not filled(state):
        return None
    if passing(state):
        open_ = asked(state)
        if state.pending or state.unread or state.mistaken or open_ not in (None, "body_inside"):
            return BodyStanding(None)
        size = state.body.size
        if size is None or not state.body.raceway or not state.body.insulation:
            return BodyStanding(None)
        contents = tuple(item.content for item in state.items)
        if is_canadian(state.edition):
            code = counted_under(state.edition).partition(", ")[2]
            return BodyStanding(None, refusal=say("body.no_code", code=code), said=state.body)
        return _passing(state.body, size, contents, state.edition)
    if state.pending or state.unread or state.mistaken:
        return None
    if state.body.short_radius and (state.body.spliced or state.box):
        return BodyStanding(None, "over", say("body.short_radius"))
    if state.body.unmarked and state.body.spliced:
        return BodyStanding(None, "over", say("body.unmarked"))
    return None


def refused(state: State) -> bool:
    """True where no volume would make it right."""
    found = standing(state)
    return found is not None and found.verdict == "over" and found.sheet is None


def larger(state: State) -> Decimal | None:
    """The trade size of the smallest raceway of its kind that would hold what is in it."""
    size = state.body.size
    if size is None:
        return None
    contents = tuple(item.content for item in state.items)
    for other in TRADE_SIZES:
        sheet = _passing(state.body, other, contents, state.edition).sheet
        if other > size and sheet is not None and sheet.verdict == "fits":
            return other
    return None


TRADE_SIZES = tuple(map(Decimal, ("0.5", "0.75", "1", "1.25", "1.5", "2", "2.5", "3", "3.5", "4")))
"""Of the raceways of Chapter 9 Table 4, inches."""


@lru_cache(maxsize=8)
def _passing(
    said: BodySaid, size: Decimal, contents: tuple[Content, ...], edition: str
) -> BodyStanding:
    # whole work of its own, which most boxes need none of
    from boxaloud.rules import ConduitBody, RacewayWires, work_out_conduit_body

    wires = tuple(
        RacewayWires(one.awg, one.count, said.insulation)
        for one in contents
        if isinstance(one, Conductors | Grounds)
    )
    large = tuple(
        RacewayWires(size_, said.large.count(size_), said.insulation)
        for size_ in dict.fromkeys(said.large)
    )
    wires = (*wires, *large)
    body = ConduitBody(said.raceway, Fraction(size), wires, short_radius=said.short_radius)
    try:
        sheet = work_out_conduit_body(body, edition)
    except RulesError as refusal:
        return BodyStanding(None, refusal=str(refusal), said=said)
    verdict: Literal["fits", "over", "incomplete"] = "fits" if sheet.verdict == "fits" else "over"
    if not said.large:
        return BodyStanding(sheet, verdict, said=said)
    return _large(sheet, verdict, said)


def _large(
    sheet: BodySheet, fill: Literal["fits", "over", "incomplete"], said: BodySaid
) -> BodyStanding:
    """A body with conductors of 4 AWG and larger: what it may hold, and how large it must be."""
    pull, permitted = body_dimensions.dimensions(said), body_dimensions.marked(said)
    verdict = fill
    if fill == "fits" and not permitted:
        verdict = "incomplete" if pull is None else pull.verdict
    return BodyStanding(sheet, verdict, said=said, pull=pull, marked=permitted)
