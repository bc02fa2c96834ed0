"""Entering what is in the box: a described thing becomes a content of the rules.

`content_of` is pure: it turns one thing into contents with the defaults of the trade filled in.
`enter` adds them to the box, merging what is alike.
"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.enclosures import governing_sections
from boxaloud.assistant.dialogue.ground_sizes import unsaid_size
from boxaloud.assistant.dialogue.merging import alike
from boxaloud.assistant.dialogue.nlg import item_names
from boxaloud.assistant.dialogue.nlg.sentences import Told, counted, joined, say, sentence
from boxaloud.assistant.dialogue.state import State, sizes_present
from boxaloud.assistant.dialogue.state_parts import Item, Open
from boxaloud.assistant.dialogue.tracker import cable_purposes, item_changes
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar.acts import (
    Act,
    AddCable,
    AddConductors,
    AddDevice,
    AddFitting,
    AddFixtureWires,
    AddGrounds,
    AddJumper,
    AddTerminalBlock,
    AddUncounted,
    Thing,
)
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.rules import RulesError, ground_for, is_canadian, validate
from boxaloud.rules.canadian_tally import CONNECTORS
from boxaloud.rules.contents import (
    BondingJumper,
    Cable,
    Conductors,
    Content,
    FixtureWires,
    Grounds,
    SupportFitting,
    TerminalBlock,
    Uncounted,
    Yoke,
)

WIDE_OR_NOT = frozenset(
    {"range receptacle", "dryer receptacle", "40 amp receptacle", "50 amp receptacle",
     "60 amp receptacle", "240 volt receptacle"}
)  # fmt: skip
"""Devices sold on one-gang and on two-gang yokes alike (common practice)."""

LARGE = frozenset({4, 3, 2, 1})
"""AWG sizes that have no volume: 314.28 governs them by dimensions."""


def content_of(thing: Thing, state: State) -> list[Content]:
    """The contents that a thing describes. Raises RulesError for a value the rules refuse."""
    contents = _made(thing, state)
    for content in contents:
        validate(content)
    return contents


def _made(thing: Thing, state: State) -> list[Content]:
    count = 1 if thing.count is None else thing.count
    match thing:
        case AddCable():
            return [_cable(thing, count)]
        case AddConductors():
            size = thing.awg if thing.awg is not None else (sizes_present(state) or (14,))[0]
            return [Conductors(size, count, thing.path or "ends")]
        case AddGrounds():
            size = thing.awg if thing.awg is not None else unsaid_size(state)
            return [Grounds(size, count, bool(thing.isolated), bool(thing.canopy))]
        case AddJumper():
            size = thing.awg if thing.awg is not None else unsaid_size(state)
            return [BondingJumper(size, count, thing.enters)]
        case AddFixtureWires():
            return _fixture_wires(thing)
        case AddDevice():
            depth = None if thing.depth is None else centimetres(thing.depth, thing.unit)
            return [Yoke(thing.name or "device", thing.awg, thing.gangs or 1, count, depth)]
        case AddFitting():
            return [SupportFitting(str(thing.name), count)]
        case AddTerminalBlock():
            return [TerminalBlock(thing.awg, count)]
        case AddUncounted():
            return [Uncounted(str(thing.name), count, thing.awg)]


def centimetres(value: Decimal, unit: str | None) -> Decimal:
    """A length said in inches, or in `unit` cm or mm, as centimetres; exact."""
    factor = {"cm": Decimal(1), "mm": Decimal("0.1")}.get(unit or "", Decimal("2.54"))
    return (value * factor).normalize()


def _cable(thing: AddCable, count: int) -> Cable:
    awg = thing.awg or 0
    ground: int | None = None
    if thing.ground is not False:
        ground = thing.ground_awg if thing.ground_awg is not None else ground_for(awg)
    conductors = 2 if thing.conductors is None else thing.conductors
    return Cable(awg, conductors, ground, count, thing.path or "ends")


def _fixture_wires(thing: AddFixtureWires) -> list[Content]:
    awg = 18 if thing.awg is None else thing.awg
    count = 2 if thing.count is None else thing.count
    contents: list[Content] = [FixtureWires(awg, count, bool(thing.canopy))]
    if thing.grounds:
        contents.append(Grounds(awg, thing.grounds, False, bool(thing.canopy)))
    return contents


def enter(turn: Turn, thing: Thing) -> None:
    """Add what a thing describes, or say in one sentence why it cannot be."""
    try:
        contents = content_of(thing, turn.state)
    except RulesError as refusal:
        turn.refused.append(_refusal(turn, thing, refusal))
        turn.unplaced.append(thing.words)
        return
    if isinstance(thing, AddGrounds) and (item := _the_ground(turn, thing)) is not None:
        _resized(turn, item, thing)
        return
    if isinstance(thing, AddGrounds) and _size_told_behind(turn, thing):
        return
    if isinstance(thing, AddGrounds) and _own_grounds(turn.state, thing):
        turn.answer(say("echo.own_grounds"), thing.words)
        return
    for content in contents:
        add(turn, content, thing, open_of(content, thing))


def _resized(turn: Turn, item: Item, thing: AddGrounds) -> None:
    if isinstance(item.content, Grounds) and thing.awg is not None:
        content = replace(item.content, awg=thing.awg)
        item_changes.change_content(turn, item, content, thing.words)


_THE_GROUND = lazy_pattern(r"(?i)\bthe (?P<of>grounds?)(?:['’]s|['’]re| is| are)\b")


def _the_ground(turn: Turn, thing: AddGrounds) -> Item | None:
    """ "And the ground is a 12": the grounds that are there, of another size, where they are one
    kind and the words can mean all of them; None where it tells of further ones."""
    said = _THE_GROUND.search(turn.heard[: thing.span[1]])
    there = [item for item in turn.state.items if isinstance(item.content, Grounds)]
    if said is None or thing.isolated or thing.awg is None or len(there) != 1:
        return None
    content = there[0].content
    several = said["of"].lower().endswith("s")
    counted = thing.count in (None, content.count)
    if not isinstance(content, Grounds) or content.isolated or content.awg == thing.awg:
        return None
    return there[0] if counted and (several or content.count == 1) else None


def _size_told_behind(turn: Turn, thing: AddGrounds) -> bool:
    """ "Four number twelves and a green one. One twelve ground.": the same ground, its size told in
    a sentence of its own; it no longer goes by the wires."""
    before = {item.key for item in turn.began.items}
    there = [item for item in turn.state.items if isinstance(item.content, Grounds)]
    if thing.awg is None or thing.isolated or thing.canopy or len(there) != 1:
        return False
    item, content = there[0], there[0].content
    same = content.count == (thing.count or 1) and item.sized_by_wires
    apart = turn.spoken or turn.heard[: thing.span[0]].rstrip()[-1:] == "."
    if not same or item.key in before or not apart:
        return False
    if not isinstance(content, Grounds):
        return False
    sized = replace(item, content=replace(content, awg=thing.awg), sized_by_wires=False)
    items = tuple(sized if one is item else one for one in turn.state.items)
    turn.enter(altered(turn.state, items=items), "", thing.words)
    return True


def _own_grounds(state: State, thing: AddGrounds) -> bool:
    """ "Three 14-2s and three grounds": as many as the cables bring are the cables' own."""
    if thing.isolated or thing.canopy or thing.awg is not None or state.grounds == "said":
        return False
    cables = [i.content for i in state.items if isinstance(i.content, Cable)]
    loose = any(isinstance(i.content, Conductors) for i in state.items)
    grounded = sum(cable.count for cable in cables if cable.ground is not None)
    return bool(grounded) and not loose and thing.count in (None, grounded)


def _refusal(turn: Turn, thing: Thing, refusal: RulesError) -> str:
    """Why something cannot be entered; for large conductors, which section governs them."""
    why = say("refused", words=thing.words, why=str(refusal))
    awg = getattr(thing, "awg", None)
    if awg in LARGE:
        governing = governing_sections.large(sizes_present(turn.state), str(awg))
        return joined((why, Told(governing, "")))
    return why


def open_of(content: Content, thing: Act) -> Open:
    """What the description leaves open of a content: a device's width, a canopy."""
    if isinstance(content, Yoke):
        wide = getattr(thing, "gangs", None) is None and content.name in WIDE_OR_NOT
        return "gangs" if wide else ""
    if isinstance(content, FixtureWires | Grounds) and isinstance(thing, AddFixtureWires):
        return "canopy" if thing.canopy is None and content.awg > 14 else ""
    return ""


def add(turn: Turn, content: Content, thing: Act, open_: Open = "") -> None:
    """Add one content, to an item of its like where there is one."""
    state = turn.state
    if isinstance(content, Grounds) and not content.canopy:
        state = altered(state, grounds="said")
    unsized = isinstance(thing, AddGrounds | AddJumper) and thing.awg is None
    twin = next(
        (
            i
            for i in state.items
            if i.space == state.space and i.sized_by_wires == unsized and alike(i.content, content)
        ),
        None,
    )
    if twin is None or open_ != twin.open:
        turn.enter(
            state.with_item(
                content, cable_purposes.called(turn, thing), open_, content.count, unsized
            ),
            sentence(joined((item_names.heard(content), _note(content, thing, state)), by="")),
            item_names.shown(content),
        )
        return
    total = replace(twin.content, count=twin.content.count + content.count)
    try:
        validate(total)
    except RulesError as refusal:
        turn.refuse(thing.words, str(refusal))
        return
    turn.enter(
        altered(
            cable_purposes.also_called(turn, twin, thing).with_content(twin.key, total),
            added=content.count,
        ),
        sentence(
            joined(
                (
                    say(
                        "echo.added",
                        what=item_names.heard(content),
                        total=counted(total.count),
                        all=item_names.heard(total),
                    ),
                    _note(content, thing, state),
                ),
                by="",
            )
        ),
        item_names.shown(content),
    )


def _canadian_note(content: Content) -> str:
    """Canada counts wire connectors, and neither bonding wires nor the wires of a luminaire."""
    if isinstance(content, Uncounted):
        counts = content.kind in CONNECTORS
    elif isinstance(content, Grounds):
        counts = content.isolated
    elif isinstance(content, FixtureWires):
        counts = content.awg <= 14
    else:
        counts = not isinstance(content, BondingJumper)
    return "" if counts else say("note.counts_nothing")


def _note(content: Content, thing: Act, state: State) -> str:
    """What a listener should know about how this was taken."""
    if is_canadian(state.edition):
        return _canadian_note(content)
    if isinstance(content, Uncounted) or (
        isinstance(content, BondingJumper) and content.enters is False
    ):
        return say("note.counts_nothing")
    if isinstance(content, Conductors) and content.path == "inside":
        return say("note.counts_nothing")
    if isinstance(content, Grounds) and not content.canopy:
        if isinstance(thing, AddGrounds) and thing.count is None:
            return say("note.grounds_as_one")
    elif isinstance(content, FixtureWires) and content.canopy:
        return say("note.canopy" if content.awg > 14 else "note.canopy_counted")
    return ""
