"""Pull boxes: a described pull gives least dimensions, each with its section (see rules.pull).

Conductors of 4 AWG and larger have no volume; they set the dimensions of the box, 314.28(A).
"""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal
from fractions import Fraction

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.nlg.sentences import inches, joined, listed, say, sentence
from boxaloud.assistant.dialogue.state import Described, PullSaid, State
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.rules import (
    Pull,
    PullBox,
    PullSheet,
    Raceway,
    Requirement,
    RulesError,
    governing,
    work_out_pull_box,
)
from boxaloud.rules.pull import Wall

KINDS: dict[str, PullSaid] = {"straight": "straight", "angle": "angle", "u": "u"}

WALLS: dict[PullSaid, tuple[Wall, Wall]] = {
    "straight": ("left", "right"),
    "angle": ("left", "top"),
    "u": ("left", "left"),
}
"""The walls a described pull is taken to run between; a straight pull sets one dimension, an
angle pull two."""


def pull(turn: Turn, act: acts.DescribePull) -> None:
    """ "an angle pull with a three inch and a two inch on the same wall"."""
    sizes = list(_sizes(turn, act))
    kind = KINDS.get(act.kind or "straight", "straight")
    if not sizes:
        turn.refused.append(say("pull.no_size", kind=kind))
        return
    described = Described(kind, tuple(sizes))
    state = altered(turn.state, pulls=(*turn.state.pulls, described), last="pull")
    try:
        sheet = work_out(state)
    except RulesError as refusal:
        turn.refuse(act.words, str(refusal))
        return
    turn.enter(state, told(state, sheet), act.words)


def _sizes(turn: Turn, act: acts.DescribePull) -> Iterable[Decimal]:
    """The raceways of a pull: those in the act, then bare sizes said after it."""
    if act.size is not None:
        yield from [act.size] * (act.count or 1)
    if act.others is not None:
        yield act.others
    yield from act.sizes
    while act.size is not None and turn.next_is(acts.Number):
        more = turn.take()
        assert isinstance(more, acts.Number)
        if more.value is not None:
            yield more.value


def work_out(state: State) -> PullSheet:
    """The least dimensions of the pulls described. Raises RulesError for a size that is none."""
    raceways: list[Raceway] = []
    pulls: list[Pull] = []
    for number, described in enumerate(state.pulls, 1):
        start, end = WALLS[described.kind]
        for at, size in enumerate(_ends(described), 1):
            names = f"raceway {number}.{at} in", f"raceway {number}.{at} out"
            for name, wall in zip(names, (start, end), strict=True):
                raceways.append(Raceway(name, Fraction(size), wall, number))
            pulls.append(Pull(described.kind, *names))
    return work_out_pull_box(PullBox(tuple(raceways), tuple(pulls)))


def _ends(described: Described) -> tuple[Decimal, ...]:
    """A U pull takes two raceways of one wall: two that were named are the two of one pull."""
    if described.kind == "u" and len(described.sizes) > 1:
        return described.sizes[: (len(described.sizes) + 1) // 2]
    return described.sizes


def told(state: State, sheet: PullSheet) -> str:
    """Each dimension in a sentence with its working and section, the box's least size last."""
    seen: dict[str, None] = {}
    for requirement in sheet.requirements:
        seen.setdefault(_line(requirement))
    lines = [*seen]
    sides = [side for side in (sheet.width, sheet.height) if side is not None]
    if len(sides) == 2:
        least = say("pull.two_sides", one=_inches(sides[0]), other=_inches(sides[1]))
    else:
        least = say("pull.one_side", one=_inches(sides[0]))
    named = listed([say(f"pull.{p.kind}", sizes=_named(p.sizes)) for p in state.pulls])
    lead = sentence(named)
    governed = [_governed(state)] if state.items else []
    return joined([lead, *lines, least, *governed])


def _line(requirement: Requirement) -> str:
    key = "disputed" if requirement.disputed else "apart" if requirement.axis is None else "side"
    return say(
        f"pull.{key}",
        inches=_inches(requirement.inches),
        working=requirement.working.replace(" x ", " times ").replace(" + ", " plus "),
        section=requirement.section,
    )


def _named(sizes: tuple[Decimal, ...]) -> str:
    return listed([inches(size) for size in sizes])


def _inches(value: Fraction) -> str:
    return inches(Decimal(value.numerator) / Decimal(value.denominator))


def _governed(state: State) -> str:
    """Which section governs what, where small conductors are in the box too."""
    small = {awg for item in state.items if (awg := getattr(item.content, "awg", None))}
    return large(small, "4")


def large(small: Iterable[int], size: str) -> str:
    """The sections that govern conductors of `size` and the `small` ones beside them."""
    found = governing([*sorted(small), size])
    return joined(
        say("pull.governs", says=each.says.rstrip("."), section=each.section) for each in found
    )
