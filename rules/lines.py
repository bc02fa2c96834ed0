"""The lines of a worksheet: what was counted, each with its allowances, size and section."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from decimal import Decimal
from functools import lru_cache
from typing import cast

from boxaloud.rules.contents import Clamps
from boxaloud.rules.data import Rule, uncounted_rules
from boxaloud.rules.editions import RuleSet
from boxaloud.rules.tally import Tally, largest_present
from boxaloud.rules.words import counted, wire_words
from boxaloud.rules.worksheet import Line, WorksheetItem

ZERO = Decimal("0.00")
_NONE = Decimal(0)
_UNIT = Decimal("0.01")

_ORDER = {"ends": 0, "through": 1, "loop": 2, "short_loop": 3, "inside": 4}
_SLOTS = {
    "ends": "conductors",
    "through": "pass_through",
    "loop": "loops",
    "short_loop": "short_loops",
}


def tidy(volume: Decimal) -> Decimal:
    """The same volume with two decimals, or as many more as it needs."""
    short = volume.quantize(_UNIT)
    return short if short == volume else volume.normalize()


def line(
    rule: Rule, awg: int | None, count: int, allowances: Decimal, each: Decimal, what: str
) -> Line:
    """A line under `rule`: `allowances` of `each` cubic inches."""
    subtotal = tidy(allowances * each)
    item = _item(rule)
    return Line(item, awg, count, allowances, each, subtotal, rule.section, what, rule.id)


def not_counted(rule: Rule, awg: int | None, count: int, what: str) -> Line:
    """A line that takes nothing, kept so that it can be said and seen."""
    return Line(_item(rule), awg, count, _NONE, ZERO, ZERO, rule.section, what, rule.id)


def _item(rule: Rule) -> WorksheetItem:
    """What a rule that gives a line counts; the rows of volumes and refusals give none."""
    return cast("WorksheetItem", rule.item)


def lines(rules: RuleSet, tally: Tally, clamps: Clamps) -> tuple[Line, ...]:
    """Every line that is known, in the order of 314.16(B), then what is not counted."""
    made = list(_wires(rules, tally))
    if tally.fixture_wires:
        made.extend(_fixture_wires(rules, tally))
    if clamps == "inside" or tally.fittings:
        made.extend(_at_largest(rules, tally, clamps))
    if tally.yokes:
        made.extend(_yokes(rules, tally))
    if tally.grounds or tally.isolated:
        made.extend(_grounds(rules, tally))
    if tally.blocks or tally.open_blocks:
        made.extend(_blocks(rules, tally))
    return tuple(made + _left_out(rules, tally, clamps))


def _wires(rules: RuleSet, tally: Tally) -> Iterator[Line]:
    wires = tally.wires
    keys: Iterable[tuple[str, int]] = wires
    if len(wires) > 1:
        keys = sorted(wires, key=lambda key: (_ORDER[key[0]], -key[1]))
    for key in keys:
        path, awg = key
        if path == "inside":
            continue
        yield _wire_line(rules, path, awg, wires[key])


#: Lines that are remembered: from one turn to the next, most lines of a box stay as they are.
_REMEMBERED = 1024


@lru_cache(maxsize=_REMEMBERED)
def _wire_line(rules: RuleSet, path: str, awg: int, count: int) -> Line:
    rule = rules.rules[_SLOTS[path]]
    what = wire_words(count, path, awg)
    return line(rule, awg, count, rule.each * count, rules.volumes[awg], what)


def _fixture_wires(rules: RuleSet, tally: Tally) -> Iterator[Line]:
    rule = rules.rules["fixture_wires"]
    for awg in sorted(tally.fixture_wires, reverse=True):
        count = tally.fixture_wires[awg]
        what = counted(count, f"{awg} AWG fixture wire")
        yield line(rule, awg, count, rule.each * count, rules.volumes[awg], what)


def _at_largest(rules: RuleSet, tally: Tally, clamps: Clamps) -> Iterator[Line]:
    awg = largest_present(tally)
    if awg is None:
        return
    each = rules.volumes[awg]
    if clamps == "inside":
        rule = rules.rules["clamps"]
        yield line(rule, awg, 1, rule.each, each, "the clamps inside")
    rule = rules.rules["support_fittings"]
    for kind in sorted(tally.fittings):
        count = tally.fittings[kind]
        yield line(rule, awg, count, rule.each, each, counted(count, kind))


def _yokes(rules: RuleSet, tally: Tally) -> Iterator[Line]:
    keys: Iterable[tuple[str, int, int]] = tally.yokes
    if len(tally.yokes) > 1:
        keys = sorted(tally.yokes, key=lambda key: (-key[1], key[2], key[0]))
    for name, awg, gangs in keys:
        yield _yoke_line(rules, name, awg, gangs, tally.yokes[name, awg, gangs])


@lru_cache(maxsize=_REMEMBERED)
def _yoke_line(rules: RuleSet, name: str, awg: int, gangs: int, count: int) -> Line:
    rule = rules.rules["yokes" if gangs == 1 else "yokes_wide"]
    what = counted(count, name)
    if gangs > 1:
        what = f"{what} of {counted(gangs, 'gang')}"
    return line(rule, awg, count, rule.each * (gangs * count), rules.volumes[awg], what)


def ground_allowances(rule: Rule, count: int) -> Decimal:
    """Allowances of `count` equipment grounding conductors, 314.16(B)(5)."""
    if not rule.first or count <= rule.first:
        return rule.each
    return rule.each + rule.further * (count - rule.first)


def _grounds(rules: RuleSet, tally: Tally) -> Iterator[Line]:
    apart = rules.rules["isolated_grounds"]
    grounds, isolated = tally.grounds, tally.isolated
    if isolated and apart.item == "grounds":
        every = dict(grounds)
        for awg, count in isolated.items():
            every[awg] = every.get(awg, 0) + count
        yield _ground_line(rules, apart, every, "ground", ", isolated ones among them")
        return
    if grounds:
        yield _ground_line(rules, rules.rules["grounds"], grounds, "ground")
    if isolated:
        yield _ground_line(rules, apart, isolated, "isolated ground")


def _ground_line(
    rules: RuleSet, rule: Rule, by_size: dict[int, int], name: str, more: str = ""
) -> Line:
    return _grounds_line(rules, rule, min(by_size), sum(by_size.values()), name, more)


@lru_cache(maxsize=_REMEMBERED)
def _grounds_line(rules: RuleSet, rule: Rule, awg: int, count: int, name: str, more: str) -> Line:
    allowances = ground_allowances(rule, count)
    return line(rule, awg, count, allowances, rules.volumes[awg], counted(count, name) + more)


def _blocks(rules: RuleSet, tally: Tally) -> Iterator[Line]:
    rule = rules.rules["terminal_blocks"]
    if not rule.each:
        count = sum(tally.blocks.values()) + sum(block.count for _, block in tally.open_blocks)
        yield not_counted(rule, None, count, counted(count, "terminal block"))
        return
    for awg in sorted(tally.blocks, reverse=True):
        count = tally.blocks[awg]
        what = counted(count, "terminal block")
        yield line(rule, awg, count, rule.each * count, rules.volumes[awg], what)


def _left_out(rules: RuleSet, tally: Tally, clamps: Clamps) -> list[Line]:
    made = []
    known = rules.rules
    for path, awg in sorted(tally.wires, key=lambda key: -key[1]):
        if path == "inside":
            count = tally.wires[path, awg]
            what = wire_words(count, path, awg)
            made.append(not_counted(known["inside"], awg, count, what))
    for awg, count in tally.canopy_wires.items():
        what = counted(count, f"{awg} AWG fixture wire") + " from the canopy"
        made.append(not_counted(known["canopy_wires"], awg, count, what))
    if tally.canopy_grounds:
        count = tally.canopy_grounds
        what = counted(count, "ground") + " from the canopy"
        made.append(not_counted(known["canopy_ground"], None, count, what))
    if tally.jumpers_inside:
        count = tally.jumpers_inside
        made.append(not_counted(known["jumper_inside"], None, count, counted(count, "jumper")))
    if clamps == "outside":
        made.append(not_counted(known["clamps_outside"], None, 1, "clamps outside the box"))
    for kind in sorted(tally.uncounted):
        count, rule = tally.uncounted[kind], uncounted_rules().get(kind, known["uncounted"])
        made.append(not_counted(rule, None, count, counted(count, kind)))
    return made
