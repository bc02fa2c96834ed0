"""Entering what is in the box: a statement becomes a content of the rules.

`content_of` is pure: it turns one statement into contents with the defaults of the trade
filled in. `enter` adds them to the box, merging what is alike.
"""

from __future__ import annotations

from dataclasses import replace

from assistant.dialogue import naming
from assistant.dialogue.finding import TYPES
from assistant.dialogue.saying import counted, listed, say, sentence
from assistant.dialogue.state import Open, State, sizes_present
from assistant.dialogue.turn import Turn
from grammar.statements import Statement
from rules import RulesError, ground_for, validate
from rules.contents import (
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

WIDE_OR_NOT = frozenset({"range receptacle", "dryer receptacle"})
"""Devices sold on one-gang and on two-gang yokes alike (common practice)."""

LARGE = frozenset({4, 3, 2, 1})
"""AWG sizes that have no volume: 314.28 governs them by dimensions."""


def number(statement: Statement, slot: str, default: int) -> int:
    """A whole-number slot."""
    value = statement.get(slot)
    return default if value is None else int(value)


def content_of(statement: Statement, state: State) -> list[Content]:
    """The contents that a statement describes. Raises RulesError for a value the rules refuse."""
    makers = {
        "cable": _cable,
        "conductors": _conductors,
        "grounds": _grounds,
        "jumper": _jumper,
        "fixture_wires": _fixture_wires,
        "device": _device,
        "fitting": _fitting,
        "terminal_block": _terminal_block,
        "uncounted": _uncounted,
    }
    contents = makers[statement.kind](statement, state)
    for content in contents:
        validate(content)
    return contents


def _path(statement: Statement) -> str:
    return str(statement.get("path", "ends"))


def _cable(statement: Statement, state: State) -> list[Content]:
    awg = number(statement, "awg", 0)
    ground: int | None = None
    if statement.get("ground", True) is not False:
        said = statement.get("ground_awg")
        ground = int(said) if said is not None else ground_for(awg)
    conductors, count = number(statement, "conductors", 2), number(statement, "count", 1)
    return [Cable(awg, conductors, ground, count, _path(statement))]  # type: ignore[arg-type]


def _conductors(statement: Statement, state: State) -> list[Content]:
    awg = statement.get("awg")
    size = int(awg) if awg is not None else (sizes_present(state) or (14,))[0]
    return [Conductors(size, number(statement, "count", 1), _path(statement))]  # type: ignore[arg-type]


def _ground_size(statement: Statement, state: State) -> int:
    """The size said, else that of the largest conductor named, but not larger than a cable's."""
    said = statement.get("awg")
    if said is not None:
        return int(said)
    present = sizes_present(state)
    return ground_for(present[0]) if present else 14


def _grounds(statement: Statement, state: State) -> list[Content]:
    canopy = bool(statement.get("canopy", False))
    isolated = bool(statement.get("isolated", False))
    size = _ground_size(statement, state)
    return [Grounds(size, number(statement, "count", 1), isolated, canopy)]


def _jumper(statement: Statement, state: State) -> list[Content]:
    enters = bool(statement.get("enters", False))
    return [BondingJumper(_ground_size(statement, state), number(statement, "count", 1), enters)]


def _fixture_wires(statement: Statement, state: State) -> list[Content]:
    canopy = bool(statement.get("canopy", False))
    awg = number(statement, "awg", 18)
    contents: list[Content] = [FixtureWires(awg, number(statement, "count", 2), canopy)]
    if grounds := number(statement, "grounds", 0):
        contents.append(Grounds(awg, grounds, False, canopy))
    return contents


def _device(statement: Statement, state: State) -> list[Content]:
    awg = statement.get("awg")
    return [
        Yoke(
            str(statement.get("name", "device")),
            None if awg is None else int(awg),
            number(statement, "gangs", 1),
            number(statement, "count", 1),
        )
    ]


def _fitting(statement: Statement, state: State) -> list[Content]:
    return [SupportFitting(str(statement.get("name")), number(statement, "count", 1))]


def _terminal_block(statement: Statement, state: State) -> list[Content]:
    awg = statement.get("awg")
    return [TerminalBlock(None if awg is None else int(awg), number(statement, "count", 1))]


def _uncounted(statement: Statement, state: State) -> list[Content]:
    return [Uncounted(str(statement.get("name")), number(statement, "count", 1))]


def enter(turn: Turn, statement: Statement) -> None:
    """Add what a statement describes, or say in one sentence why it cannot be."""
    if statement.kind == "grounds" and statement.get("count") == 0:
        turn.enter(replace(turn.state, grounds="none"), say("echo.no_grounds"))
        return
    if statement.kind == "device" and statement.get("count") == 0:
        none_of(turn, statement, "device", "device")
        return
    try:
        contents = content_of(statement, turn.state)
    except RulesError as refusal:
        turn.refused.append(_refusal(turn, statement, refusal))
        return
    for content in contents:
        add(turn, content, statement, _open(content, statement))


def none_of(turn: Turn, statement: Statement, kind: str | None, what: str) -> None:
    """ "no devices": where some were entered, they are taken out, for they cannot both be so."""
    state = turn.state
    name = statement.get("name")
    meant = [
        item
        for item in state.items
        if kind is not None
        and isinstance(item.content, TYPES[kind])
        and name in (None, "device", getattr(item.content, "name", None))
    ]
    for item in meant:
        state = state.without(item.key)
    out = listed([naming.heard(item.content) for item in meant])
    echo = say("echo.taken_out", what=out) if meant else say("echo.no_such", what=what)
    turn.enter(state, echo)


def _refusal(turn: Turn, statement: Statement, refusal: RulesError) -> str:
    """Why something cannot be entered; for large conductors, which section governs them."""
    why = say("refused", words=statement.words, why=str(refusal))
    if statement.get("awg") in LARGE:
        from assistant.dialogue import pulling

        return f"{why} {pulling.large(sizes_present(turn.state), str(statement.get('awg')))}"
    return why


def _open(content: Content, statement: Statement) -> Open:
    """What the statement leaves open of a content: a device's width, a canopy."""
    if isinstance(content, Yoke):
        wide = statement.get("gangs") is None and content.name in WIDE_OR_NOT
        return "gangs" if wide else ""
    if isinstance(content, FixtureWires | Grounds) and statement.kind == "fixture_wires":
        return "canopy" if statement.get("canopy") is None and content.awg > 14 else ""
    return ""


def add(turn: Turn, content: Content, statement: Statement, open_: Open = "") -> None:
    """Add one content, to an item of its like where there is one."""
    state = turn.state
    if isinstance(content, Grounds) and not content.canopy:
        state = replace(state, grounds="said")
    twin = next((i for i in state.items if _alike(i.content, content)), None)
    if twin is None or open_ != twin.open:
        turn.enter(
            state.with_item(content, statement.words, open_),
            sentence(naming.heard(content) + _note(content, statement)),
            naming.shown(content),
        )
        return
    total = replace(twin.content, count=twin.content.count + content.count)
    try:
        validate(total)
    except RulesError as refusal:
        turn.refused.append(say("refused", words=statement.words, why=str(refusal)))
        return
    turn.enter(
        state.with_content(twin.key, total),
        sentence(
            say("echo.added", what=naming.heard(content), total=counted(total.count))
            + _note(content, statement)
        ),
        naming.shown(content),
    )


def _alike(one: Content, other: Content) -> bool:
    """True for two contents that differ in nothing but their count."""
    return type(one) is type(other) and replace(one, count=other.count) == other


def _note(content: Content, statement: Statement) -> str:
    """What a listener should know about how this was taken."""
    if isinstance(content, Uncounted) or (
        isinstance(content, BondingJumper) and not content.enters
    ):
        return say("note.counts_nothing")
    if isinstance(content, Conductors) and content.path == "inside":
        return say("note.counts_nothing")
    if isinstance(content, Grounds) and statement.get("count") is None and not content.canopy:
        if statement.kind == "grounds":
            return say("note.grounds_as_one")
    elif isinstance(content, FixtureWires) and content.canopy:
        return say("note.canopy")
    return ""
