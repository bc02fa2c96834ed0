"""Every published worked example, agreed with or not, by its own number.

Sources stand beside each case in published.toml, with what the source got wrong.
"""

from __future__ import annotations

import json
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pytest
from boxaloud.rules import (
    CANADIAN,
    ConduitBody,
    Pull,
    PullBox,
    Raceway,
    most_conductors,
    room_for,
    smallest_boxes,
    table_row,
    work_out,
    work_out_conduit_body,
    work_out_pull_box,
)
from boxaloud.rules.contents import (
    Box,
    Conductors,
    Content,
    Marked,
    SupportFitting,
    TableBox,
    Uncounted,
    Yoke,
)
from published_cases import CASES, Case, box, contents, of_kind

FACTS = Path(__file__).parents[3] / "shared" / "facts" / "worked_examples.json"


@pytest.mark.parametrize("case", of_kind("fill"))
@pytest.mark.parametrize(
    ("edition", "figure"),
    [
        ("2014", "before_2020"),
        ("2017", "before_2020"),
        ("2020", "from_2020"),
        ("2023", "from_2020"),
    ],
)
def test_fill(case: Case, edition: str, figure: str) -> None:
    sheet = work_out(box(case, edition))
    assert sheet.total == Decimal(case[figure])
    assert sheet.total == sum(line.subtotal for line in sheet.lines)
    if "verdict" in case:
        assert sheet.verdict == case["verdict"]


@pytest.mark.parametrize("case", of_kind("fill"))
def test_what_else_the_source_says(case: Case) -> None:
    described = box(case)
    if "smallest" in case:
        choices = smallest_boxes(described, case.get("among", ()))
        assert choices[0].row.id == case["smallest"]
    if "allowances" in case:
        lines = work_out(described).lines
        assert sum(line.allowances for line in lines) == Decimal(case["allowances"])
    if "room" in case:
        assert room_for(described, Conductors(case["room_awg"], 1)).least == case["room"]
    if "most" in case:
        assert table_row(case["row"]).maximums[case["most_awg"]] == case["most"]


@pytest.mark.parametrize("case", of_kind("most"))
def test_most_conductors_of_one_size(case: Case) -> None:
    empty = Box(parts=(TableBox(case["row"]),), clamps="none")
    assert room_for(empty, Conductors(case["awg"], 1)).least == case["expected"]
    assert table_row(case["row"]).maximums[case["awg"]] == case["expected"]


@pytest.mark.parametrize("case", of_kind("volume"))
def test_volume_of_a_standard_box(case: Case) -> None:
    assert work_out(Box(parts=(TableBox(case["row"]),))).capacity == Decimal(case["expected"])


@pytest.mark.parametrize("case", of_kind("loop"))
def test_loop(case: Case) -> None:
    sheet = work_out(Box(contents=(Conductors(12, 1, "loop"),), clamps="none"))
    assert sheet.lines[0].allowances == case["expected"]


@pytest.mark.parametrize("case", of_kind("deducted"))
def test_wires_left_beside_clamps_and_a_stud(case: Case) -> None:
    fitted = Box(
        parts=(TableBox(case["row"]),),
        contents=(SupportFitting("luminaire stud"),),
        clamps="inside",
    )
    assert room_for(fitted, Conductors(case["awg"], 1)).least == case["expected"]


@pytest.mark.parametrize("case", of_kind("body_room"))
def test_splices_in_a_marked_conduit_body(case: Case) -> None:
    body = Box(parts=(Marked(Decimal(case["box"]), "conduit body"),), clamps="none")
    for awg, count in case["expected"].items():
        assert room_for(body, Conductors(int(awg), 1)).least == count


@pytest.mark.parametrize("case", of_kind("body_splices"))
def test_splices_in_a_short_radius_body(case: Case) -> None:
    body = ConduitBody("emt", Fraction(1, 2), splices=contents(case), short_radius=True)
    sheet = work_out_conduit_body(body, "2017")
    assert sheet.verdict == "not permitted"
    (fill,) = [line for line in sheet.lines if line.rule == "body-splices-marked"]
    assert fill.have == Fraction(case["before_2020"])


@pytest.mark.parametrize("case", of_kind("body_fill"))
def test_conductors_in_a_body_without_splices(case: Case) -> None:
    assert most_conductors("rmc", Fraction(1, 2), 10, "thhn") == case["expected"]


@pytest.mark.parametrize("case", of_kind("pull"))
def test_pull_box(case: Case) -> None:
    described = PullBox(
        tuple(Raceway(name, Fraction(size), wall) for name, size, wall in case["raceways"]),
        tuple(Pull(*pull) for pull in case["pulls"]),
    )
    sheet = work_out_pull_box(described)
    for axis in ("width", "height", "depth"):
        if axis in case:
            assert getattr(sheet, axis) == Fraction(case[axis])
    if "apart" in case:
        apart = [r.inches for r in sheet.requirements if r.rule == "pull-apart"]
        assert apart == [Fraction(case["apart"])]


@pytest.mark.parametrize("case", of_kind("canada"))
def test_canada(case: Case) -> None:
    awg, wires, connectors, fittings, straps = case["canada"]
    things: list[Content] = [Conductors(awg, wires)]
    things += [Uncounted("wire connector", connectors)] if connectors else []
    things += [SupportFitting("hickey", fittings)] if fittings else []
    things += [Yoke("switch", awg, count=straps)] if straps else []
    sheet = work_out(Box(contents=tuple(things), edition=CANADIAN))
    assert sheet.unit == "mL"
    assert sum(line.allowances for line in sheet.lines) == case["expected"]
    assert sheet.total == Decimal(case["millilitres"])


@pytest.mark.parametrize("case", [case for case in CASES if "wrong" in case], ids=lambda c: c["id"])
def test_a_source_marked_wrong_differs_from_us(case: Case) -> None:
    """So that nothing is called wrong that in fact agrees."""
    ours = case.get("from_2020", case.get("expected", case.get("width")))
    assert case["published"].split()[0] != str(ours)


@pytest.mark.parametrize(
    "case", [case for case in of_kind("fill") if "wrong" not in case.values[0]]
)
def test_a_source_not_marked_wrong_agrees(case: Case) -> None:
    published = case.get("published", "")
    if published.replace(".", "").isdigit() and "allowances" not in case:
        assert Decimal(published) == Decimal(case["before_2020"])


def test_every_worked_example_of_the_facts_is_covered() -> None:
    if not FACTS.exists():
        pytest.skip(f"the shared facts are not here: {FACTS}")
    ids = {example["id"] for example in json.loads(FACTS.read_text())}
    assert ids == {case["id"] for case in CASES}


def test_the_facts_and_our_copy_hold_the_same_figures() -> None:
    if not FACTS.exists():
        pytest.skip(f"the shared facts are not here: {FACTS}")
    facts = {example["id"]: example for example in json.loads(FACTS.read_text())}
    for case in CASES:
        if case["kind"] == "fill":
            fact = facts[case["id"]]
            assert Decimal(case["before_2020"]) == Decimal(str(fact["recomputed_pre2020_in3"]))
            assert Decimal(case["from_2020"]) == Decimal(str(fact["recomputed_2020plus_in3"]))


def test_clamps_inside_add_one_allowance_as_the_sources_add() -> None:
    """Notes of BF01, BF13, BF33 and BF51: 20.0, 18.0, 34.0 and 12.0 with clamps inside."""
    by_id = {case["id"]: case for case in CASES}
    for name, total in (("BF01", "20"), ("BF13", "18"), ("BF33", "34"), ("BF51", "12")):
        assert work_out(replace(box(by_id[name]), clamps="inside")).total == Decimal(total)
