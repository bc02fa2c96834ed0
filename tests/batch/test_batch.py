"""Many boxes at once: published totals, bad rows among good ones, and the exit status."""

from __future__ import annotations

import csv
import io
import json
import re
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
import yaml
from batch_cases import CASES, GOOD
from boxaloud.assistant.cli.commands import batch_command
from boxaloud.assistant.contract.batch_documents import BatchRow
from boxaloud.assistant.reports.batch import work
from boxaloud.assistant.reports.batch.batch_row import Row
from boxaloud.assistant.reports.batch.row_reader import FileFormat, rows
from boxaloud.assistant.text.problem import Problem
from boxaloud.assistant.text.spreadsheet_cell import safe
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["source"][:40])
def test_a_row_comes_to_the_published_total(case: dict[str, Any]) -> None:
    (result,) = work([Row(1, case["row"])])
    assert result.problem is None
    assert result.total_in3 == case["total"]
    if "verdict" in case:
        assert (result.verdict, result.margin_in3) == (case["verdict"], case["margin"])


def as_csv(table: list[dict[str, Any]]) -> str:
    out = io.StringIO()
    heads = list(dict.fromkeys(key for row in table for key in row))
    writer = csv.DictWriter(out, heads)
    writer.writeheader()
    writer.writerows(table)
    return out.getvalue()


def written(kind: FileFormat, table: list[dict[str, Any]]) -> str:
    if kind == "csv":
        return as_csv(table)
    if kind == "jsonl":
        return "".join(json.dumps(row) + "\n" for row in table)
    return yaml.safe_dump(table, sort_keys=False)


@pytest.mark.parametrize("kind", ["csv", "jsonl", "yaml"])
def test_the_three_kinds_of_file_say_the_same(kind: FileFormat) -> None:
    table = [case["row"] for case in CASES]
    found = list(work(rows(kind, io.StringIO(written(kind, table)))))
    expected = list(work(Row(here.line, row) for here, row in zip(found, table, strict=True)))
    named = [r.model_copy(update={"name": ""}) for r in found]
    assert named == [r.model_copy(update={"name": ""}) for r in expected]


@pytest.mark.parametrize(
    ("row", "why"),
    [
        ({"volume": "eighteen"}, "volume is a number of cubic inches"),
        ({"volume": "-3", "cables": "14-2"}, "volume is a number of cubic inches"),
        ({"volume": "1e9", "cables": "14-2"}, "volume is a number of cubic inches"),
        ({"volume": "18", "box": "square 4 x 1-1/2"}, "not both"),
        ({"box": "square 4 x 9"}, "no square box of that size|is no box of Table"),
        ({"box": "square 4 x 1-1/2", "gangs": "many"}, "gangs is a whole number"),
        ({"cables": "two 14-2"}, "is not understood: say it like"),
        ({"cables": "13-2"}, "13 AWG is not a size"),
        ({"cables": "4-3"}, "pull box"),
        ({"cables": "14-2", "clamps": "maybe"}, "clamps is one of"),
        ({"cables": "14-2", "edition": "2011"}, "2011"),
        ({"cable": "14-2"}, "There is no column 'cable'"),
        ({"cables": "14-2", "says": "two 14-2 cables"}, "in one way"),
        ({"name": "empty"}, "in one way"),
        ({"says": "lorem ipsum"}, "Nothing of what is said was understood"),
        ({"described": {"parts": 3}}, "parts is a list"),
        ({"described": {"contents": [{"is": "wire"}]}}, "says what it is"),
        ({"described": {"contents": [{"is": "cable", "awg": 14}]}}, "is described by"),
    ],
)
def test_a_bad_row_is_told_with_its_line_and_reason_and_stops_nothing(
    row: dict[str, Any], why: str
) -> None:
    results = list(work([Row(2, GOOD), Row(3, row), Row(4, GOOD)]))
    assert [result.verdict for result in results] == ["fits", None, "fits"]
    assert results[1].line == 3
    assert re.search(why, results[1].problem or ""), results[1].problem


def test_lines_are_those_of_the_file_even_past_bad_rows() -> None:
    text = (
        'name,volume,cables\none,18,14-2\n"two\nlines",18,14-2\nthree,18,14-2,extra\n'
        'four,18,"14-2\nfive,18,14-2\n'
    )
    found = list(work(rows("csv", io.StringIO(text, newline=""))))
    assert [(r.line, r.name) for r in found[:3]] == [(2, "one"), (3, "two\nlines"), (5, "three")]
    assert "4 cells for 3 columns" in (found[2].problem or "")
    assert found[3].problem


def test_yaml_rows_are_read_each_by_itself() -> None:
    text = (
        "# boxes\n- name: one\n  volume: 18.0\n  cables: 3 x 14-2\n  clamps: none\n"
        "- name: [broken\n- name: three\n  says:\n    - two 14-2 cables\n    - 18 cubic inches\n"
        "---\nname: four\nvolume: 18\ncables: 14-2\n"
    )
    found = list(work(rows("yaml", io.StringIO(text))))
    assert [(r.line, r.name, r.problem is None) for r in found] == [
        (2, "one", True), (6, "line 6", False), (7, "three", True), (11, "four", True)
    ]  # fmt: skip


def test_a_described_box_is_read_from_yaml_as_its_schema_says(
    validators: dict[str, Draft202012Validator],
) -> None:
    """Past defect: every value of YAML was text, and no described box could be used.

    Box Fill Calculations, DIY Chatroom thread 102858: three 14-2 and a receptacle are 18.00.
    """
    text = (
        "- name: 014\n  described:\n    parts: [{is: marked, volume: '18'}]\n    contents:\n"
        "      - {is: cable, awg: 14, conductors: 2, ground: 14, count: 3}\n"
        "      - {is: yoke, name: receptacle, awg: 14, count: 1.0}\n"
        "    clamps: none\n    grounds_known: true\n    nonmetallic: null\n"
        "- described: {parts: [{is: marked, volume: 18.0}]}\n"
    )
    assert [validators["row"].is_valid(row) for row in yaml.safe_load(text)] == [True, False]
    good, bad = work(rows("yaml", io.StringIO(text)))
    assert (good.name, good.total_in3, good.margin_in3) == ("014", "18.00", "0.00")
    assert "volume is a decimal in text" in (bad.problem or "")


def test_a_number_in_json_is_counted_exactly() -> None:
    text = '{"volume": 20.30, "cables": "3 x 14-2", "devices": "switch", "clamps": "none"}\n'
    (result,) = work(rows("jsonl", io.StringIO(text)))
    assert result.capacity_in3 == "20.3"


@pytest.mark.parametrize(
    ("table", "status"),
    [
        ([GOOD], 0),
        ([GOOD, GOOD | {"clamps": "inside"}], 1),
        ([GOOD, GOOD | {"volume": ""}], 3),
        ([GOOD, {"volume": "x"}], 3),
        ([GOOD | {"clamps": "inside"}, {"volume": "x"}], 1),
        ([{"volume": "x"}], 2),
        ([], 2),
    ],
)
def test_the_exit_status_says_whether_any_box_is_over(
    table: list[dict[str, Any]], status: int, tmp_path: Path
) -> None:
    path = tmp_path / "rows.jsonl"
    path.write_text(written("jsonl", table), encoding="utf-8")
    assert batch_command.run(path, tmp_path / "out.jsonl") == status


@pytest.mark.parametrize("kind", ["csv", "jsonl", "yaml"])
def test_a_result_a_row_in_the_form_asked_for(
    kind: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path, out = tmp_path / "rows.csv", tmp_path / f"out.{kind}"
    path.write_text(as_csv([GOOD, {"volume": "x", "name": "=1+1"}]), encoding="utf-8")
    batch_command.run(path, out)
    text = out.read_text(encoding="utf-8")
    found: list[dict[str, Any]]
    if kind == "csv":
        found = list(csv.DictReader(io.StringIO(text)))
        assert found[1]["name"] == "'=1+1"
    elif kind == "jsonl":
        found = [json.loads(line) for line in text.splitlines()]
    else:
        found = yaml.safe_load(text)
    assert [str(row["line"]) for row in found] == ["2", "3"]
    assert found[0]["total_in3"] == "18.00"
    told = capsys.readouterr().err
    assert "rows.csv, line 3, =1+1: volume is a number" in told
    assert "2 boxes: 1 fit, 0 over, 0 not finished, 1 could not be used." in told


def test_the_input_is_never_written_over(tmp_path: Path) -> None:
    path = tmp_path / "rows.jsonl"
    path.write_text(written("jsonl", [GOOD]), encoding="utf-8")
    with pytest.raises(Problem, match="is the file being read"):
        batch_command.run(path, path)
    assert path.read_text(encoding="utf-8") == written("jsonl", [GOOD])


def test_a_file_that_is_not_there_is_a_sentence(tmp_path: Path) -> None:
    with pytest.raises(Problem, match=r"rows\.csv cannot be read: No such file"):
        batch_command.run(tmp_path / "rows.csv", None)
    (tmp_path / "rows.xlsx").write_bytes(b"PK")
    with pytest.raises(Problem, match=r"is no \.csv, \.yaml or \.jsonl file"):
        batch_command.run(tmp_path / "rows.xlsx", None)


@given(st.text())
def test_no_cell_begins_a_formula(text: str) -> None:
    cell = safe(text)
    try:
        Decimal(cell)
    except ArithmeticError:
        assert not cell.lstrip(" ").startswith(("=", "+", "-", "@", "\t", "\r"))


SAID = [case["row"][key] for case in CASES for key in case["row"]]
cell = st.one_of(
    st.none(),
    st.text(max_size=12),
    st.integers(),
    st.booleans(),
    st.decimals(allow_nan=True),
    st.lists(st.text(max_size=4), max_size=2),
    st.sampled_from(SAID),
)


@given(st.dictionaries(st.sampled_from(list(BatchRow.model_fields)), cell, max_size=5))
def test_any_row_at_all_has_a_result_and_never_a_fault(fields: dict[str, Any]) -> None:
    (result,) = work([Row(1, fields)])
    assert (result.verdict is None) == bool(result.problem)
