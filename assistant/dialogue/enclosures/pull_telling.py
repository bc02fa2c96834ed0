"""A pull box told: its least size, what was understood, each line with its working and section.

No dimension is told while a size, or a word that weighs, is open: it would be too small.
"""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING

from boxaloud.assistant.dialogue.enclosures import governing_sections, pull_cables, pull_open
from boxaloud.assistant.dialogue.enclosures.pull_standing import PullStanding, real_lines, standing
from boxaloud.assistant.dialogue.enclosures.pull_state import Entering, PullBoxSaid, Pulled
from boxaloud.assistant.dialogue.nlg.sentences import counted, inches, joined, listed, say, sentence
from boxaloud.assistant.dialogue.state import State
from boxaloud.rules import PullSheet, Requirement, counted_under
from boxaloud.rules.pull import Wall
from boxaloud.rules.pull_limits import Compared, PullRemark

if TYPE_CHECKING:
    from boxaloud.rules.cable_raceways import CableRaceway

SMALLEST_KCMIL = 250


def told(state: State) -> str:
    """The box's least size first, then what was understood and every line of it."""
    if state.pulls is None:
        return ""
    found = standing(state)
    said = [sentence(listed([pulled(one) for one in state.pulls.pulls]))]
    if found.refusal:
        return joined([*said, found.refusal])
    if found.sheet is None:
        return joined([*said, *cables(state)])
    stands = [standing_in_words(found, state.edition), *(held(one) for one in found.compared)]
    least = [*stands, _least(found.sheet, state.pulls)]
    said = [*least, *_apart_open(found), *said]
    said += cables(state)
    said += dict.fromkeys(_line(one, state.pulls) for one in real_lines(found.sheet))
    said += [_remark(one) for one in found.remarks]
    if state.items:
        said.append(governing_sections.governed(state))
    return joined(said)


def standing_in_words(found: PullStanding, edition: str) -> str:
    """The verdict over the box at hand, with its section and edition; empty while it is open."""
    if found.verdict == "incomplete":
        return ""
    small = [one.axis for one in found.compared if not one.holds]
    over = "too_near" if small == ["distance"] else "not_enough"
    key = "enough" if found.verdict == "fits" else over
    return say(f"pull.{key}", under=under(edition))


def under(edition: str) -> str:
    """The section that dimensions go by, and the edition that it is applied under."""
    return counted_under(edition).replace("314.16", "314.28(A)", 1)


def _line(line: Requirement, said: PullBoxSaid) -> str:
    key = "disputed" if line.disputed else "apart" if line.axis is None else "side"
    if line.axis is not None and _walls_named(said):
        key = line.axis
    return say(
        f"pull.{key}",
        inches=shown(line.inches),
        working=line.working.replace(" x ", " times ").replace(" + ", " plus "),
        section=line.section,
    )


def _walls_named(said: PullBoxSaid) -> bool:
    """True where walls were said, so that width and height mean something to who said them."""
    return said.with_back or any(pull_open.walls_of(one) for one in said.pulls)


def _least(sheet: PullSheet, said: PullBoxSaid) -> str:
    sides = {"width": sheet.width, "height": sheet.height, "depth": sheet.depth}
    known = {axis: side for axis, side in sides.items() if side is not None}
    if _walls_named(said) and known:
        told = listed([say(f"pull.least.{axis}", inches=shown(s)) for axis, s in known.items()])
        return say("pull.least.all", sides=told)
    flat = [shown(side) for side in (sheet.width, sheet.height) if side is not None]
    if len(flat) == 2:
        return say("pull.two_sides", one=flat[0], other=flat[1])
    return say("pull.one_side", one=flat[0]) if flat else ""


def _apart_open(found: PullStanding) -> list[str]:
    """A distance that is enough for some pulls and not for others."""
    apart = found.said.apart if found.said is not None else None
    if apart is None or found.sheet is None:
        return []
    if any(one.axis == "distance" for one in found.compared):
        return []
    least = [line.inches for line in real_lines(found.sheet) if line.axis is None]
    if not least:
        return []
    return [say("pull.apart_which", have=inches(apart), least=shown(max(least)))]


def walls(found: PullStanding) -> str:
    """What the drawing shows, in words: the raceways of each wall, seen from the front."""
    sizes: dict[Wall, list[str]] = {}
    for raceway in found.box.raceways if found.box is not None else ():
        sizes.setdefault(raceway.wall, []).append(shown(raceway.size))
    told = [
        say(
            "pull.seen.wall", wall=wall, sizes=listed([say("pull.seen.size", size=s) for s in each])
        )
        for wall, each in sizes.items()
    ]
    key = "all" if found.said is not None and _walls_named(found.said) else "supposed"
    return say(f"pull.seen.{key}", walls="; ".join(told))


def holding(state: State) -> str:
    """What is known of the box at hand against the least; empty while nothing is."""
    found = standing(state)
    return joined([standing_in_words(found, state.edition), *(held(one) for one in found.compared)])


def held(one: Compared) -> str:
    """A dimension of the box at hand against the least."""
    key = "fits" if one.holds else "small"
    return say(
        f"pull.{key}",
        axis=one.axis,
        have=shown(one.have),
        least=shown(one.least),
        section=one.section,
    )


def _remark(one: PullRemark) -> str:
    state = {True: "holds", False: "breaks", None: "minds"}[one.holds]
    return say(f"pull.remark.{state}", says=one.says.rstrip("."), section=one.section)


def pulled(one: Pulled) -> str:
    """A pull in words, with what is supposed of it said aloud."""
    kind = pull_open.kind_of(one)
    sizes = listed([_entering(each) for each in one.entering]) or say("pull.no_raceway")
    loose = any(each.through for each in one.entering) and not one.walls
    ending = say(f"pull.loose.{kind}") if kind and loose and not one.placing else ""
    if kind == "u" and pull_open.lone(one):
        ending = ""
    walls = say("pull.between", walls=listed(list(one.walls))) if one.walls else ""
    return say(f"pull.named.{kind or 'open'}", sizes=sizes) + walls + ending


def _entering(one: Entering) -> str:
    if one.cable and one.size is None:
        text = say("pull.cable" if one.count == 1 else "pull.cables", count=counted(one.count))
        if one.wires:
            text = say("pull.cable_of", what=text, wires=wires_in(one))
        return text + _where(one)
    size = say("pull.size_open") if one.size is None else inches(one.size)
    text = say("pull.raceway", count="" if one.count == 1 else counted(one.count) + " ", size=size)
    return text + _where(one)


def wires_in(one: Entering) -> str:
    """The conductors in a cable: "three 4/0 and a ground"."""
    sizes = dict.fromkeys(one.wires)
    told = [
        say("pull.cable_wires", count=counted(one.wires.count(size)), size=gauge(size))
        for size in sizes
    ]
    if one.ground:
        key = "cable_ground" if one.ground == "?" else "cable_ground_sized"
        told.append(say(f"pull.{key}", size=gauge(one.ground)))
    return listed(told)


def gauge(size: str) -> str:
    """A conductor by its size with its unit: "2 AWG", "4/0", "500 kcmil"."""
    if "/" in size or not size.isdigit():
        return size
    return f"{size} kcmil" if int(size) >= SMALLEST_KCMIL else f"{size} AWG"


def cables(state: State) -> list[str]:
    """Each cable by the raceway that it counts as, with its working and what is from memory."""
    return [] if state.pulls is None else cables_of(state.pulls, state.assumed)


def cables_of(said: PullBoxSaid, assumed: frozenset[str]) -> list[str]:
    """As `cables`, of what was said of a pull box and what of it is assumed."""
    made = []
    for one in said.entering:
        found = pull_cables.raceway_of(one, said, assumed)
        if found is not None:
            made.append(_cable_as(one, found, bool(one.insulation or said.insulation)))
    return list(dict.fromkeys(made))


def _cable_as(one: Entering, found: CableRaceway, insulated: bool) -> str:
    alike = len({size for _, size in found.by_kind}) == 1
    kinds = [
        say("pull.cable_kind", size=shown(size), kind=say(f"body.raceway.{kind}"))
        for kind, size in found.by_kind
    ]
    memory = listed([_row_of(*row) for row in found.from_memory])
    return say(
        "pull.cable_as",
        wires=wires_in(one),
        size=shown(found.size),
        kinds="" if alike else say("pull.cable_kinds", kinds=listed(kinds)),
        section=found.section,
        working=found.working.replace(" x ", " times ").replace(" + ", " plus "),
        insulation=say(
            "pull.cable_insulation", insulation=say(f"body.insulation.{found.insulation}")
        )
        if insulated
        else "",
        memory=say("pull.cable_memory", what=memory) if memory else "",
    )


def _row_of(table: str, name: str) -> str:
    """A row of a table of Chapter 9, by the table."""
    return f"{table}, {say(f'body.raceway.{name}') if table == 'Table 4' else gauge(name)}"


def _where(one: Entering) -> str:
    """Its wall or end, and its row."""
    text = ""
    if one.wall:
        key = "wall_to" if one.to else "wall"
        text += say(f"pull.at.{key}", wall=one.wall, to=one.to or "")
    elif one.end:
        text += say(f"pull.at.{one.end}")
    return text + (say("pull.at.row", row=one.row) if one.row is not None else "")


def shown(value: Fraction) -> str:
    """Inches with their fraction, as they are said."""
    return inches(Decimal(value.numerator) / Decimal(value.denominator))
