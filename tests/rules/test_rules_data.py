"""Every row of the data names its section, editions, sources and mark, and is reached."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path
from random import Random
from typing import Any, get_args

import pytest
from boxaloud import rules
from boxaloud.rules import (
    CANADIAN,
    NoSuchBox,
    editions,
    explain,
    find_rows,
    notes,
    table_boxes,
    work_out,
)
from boxaloud.rules.contents import (
    Barrier,
    Box,
    Cable,
    ClampAssembly,
    Marked,
    Measured,
    TerminalBlock,
    Uncounted,
)
from boxaloud.rules.data import all_rules, table
from boxaloud.rules.editions import rule_sets
from boxaloud.rules.worksheet import Mark
from described import random_box

DATA = Path(rules.__file__).parent / "data"
MARKS = get_args(Mark)


def rows(value: Any, name: str) -> Iterator[tuple[str, dict[str, Any]]]:
    """Every table in a data file that is a row of facts: it has a section or a mark."""
    if isinstance(value, list):
        for place, item in enumerate(value):
            yield from rows(item, f"{name}[{place}]")
    elif isinstance(value, dict):
        if "section" in value or "mark" in value:
            yield name, value
        for key, item in value.items():
            yield from rows(item, f"{name}.{key}")


HELD = {
    name: row
    for file in sorted(DATA.glob("*.toml"))
    if file.stem != "sources"
    for name, row in rows(tomllib.loads(file.read_text()), file.stem)
}
ROWS = [pytest.param(row, id=name) for name, row in HELD.items()]


@pytest.mark.parametrize("row", ROWS)
def test_a_row_names_section_sources_and_mark(row: dict[str, Any]) -> None:
    assert row["section"]
    assert row["mark"] in MARKS
    assert row["sources"]
    assert set(row["sources"]) <= set(table("sources"))
    if row["mark"] == "confirmed":
        assert not {"memory", "practice"} & set(row["sources"])


@pytest.mark.parametrize("row", ROWS)
def test_a_row_names_the_editions_it_stands_in(row: dict[str, Any]) -> None:
    if "year" in row or ("name" in row and "editions" not in row):
        return
    first, last = row["editions"]
    held = (*editions(), CANADIAN)
    assert held.index(first) <= held.index(last)


@pytest.mark.parametrize("note", notes(), ids=lambda note: note.rule)
def test_every_note_can_be_said_and_traced(note: rules.RuleNote) -> None:
    assert explain(note.rule) == note
    assert note.says.endswith(".")
    assert note.source
    assert (note.mark == "confirmed") <= (not note.from_memory or note.rule == "canopy-wires")


def test_a_rule_stands_in_every_edition_that_follows_it() -> None:
    held = editions()
    for edition, rule_set in rule_sets().items():
        at = rule_set.follows or edition
        for rule in rule_set.rules.values():
            first, last = rule.note.editions
            assert held.index(first) <= held.index(at) <= held.index(last), rule.id


def test_every_source_is_cited() -> None:
    cited = {key for row in HELD.values() for key in row["sources"]}
    assert set(table("sources")) == cited


def reached(box: Box) -> Iterator[str]:
    sheet = work_out(box)
    yield from (line.rule for line in sheet.lines)
    yield from (volume.rule for volume in sheet.volumes)
    yield from (slot.rule for slot in sheet.open if slot.rule)


def test_every_rule_is_reached_by_some_box_and_every_line_resolves() -> None:
    rng = Random(250)
    found = set()
    for _ in range(4000):
        found |= set(reached(random_box(rng, known=False)))
    sized = Measured(Decimal(12), Decimal(12), Decimal(6))
    found |= set(reached(Box((sized, ClampAssembly(Decimal("1.5"))))))
    for kind in ("locknut", "pigtail", "label"):
        found |= set(reached(Box(contents=(Uncounted(kind),))))
    spaces = (rules.Space((Cable(14, 2, 14),)), rules.Space((Cable(14, 2, 14),)))
    halved = Box(parts=(Marked(table_boxes()[0].volume), Barrier()))
    for sheet in rules.work_out_spaces(halved, spaces):
        found |= {line.rule for line in sheet.volumes}
    with pytest.raises(NoSuchBox) as refused:
        find_rows("pancake")
    found.add(refused.value.rule)
    for rule in found:
        assert explain(rule)
    boxes = {row.id for row in table_boxes()}
    assert found == set(all_rules()) | boxes


def test_a_from_memory_row_says_so() -> None:
    sheet = work_out(Box(contents=(Uncounted("label"),)))
    assert explain(sheet.lines[-1].rule).mark == "from memory"
    assert "common practice" in explain(sheet.lines[-1].rule).source


def test_blocks_before_2023_name_the_rule_that_leaves_them_out() -> None:
    sheet = work_out(Box(contents=(TerminalBlock(14),), edition="2020"))
    assert explain(sheet.lines[0].rule).editions == ("2014", "2020")


def test_every_source_says_of_what_kind_it_is() -> None:
    """Past defect this prevents: what somebody wrote in a forum, cited like a printed code."""
    kinds = {"code copy", "trade press", "training", "website", "forum", "none"}
    assert {row["kind"] for row in table("sources").values()} == kinds
    for row in table("sources").values():
        assert (row["kind"] == "none") == (not row["publisher"])
        if "forum" in row["publisher"].lower():
            assert row["kind"] == "forum"
