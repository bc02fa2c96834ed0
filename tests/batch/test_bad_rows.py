"""No row, however strange, takes another with it: each is told, and the rest are worked out.

A sound row here is three 14-2 and a receptacle in 18.0 in³: 6 conductors (1), 2 for the device
(4), a ground (5), each 2.00 by NEC 2023 Table 314.16(B)(1): 18.00, which fits.
"""

from __future__ import annotations

import io
import json
from pathlib import Path
from typing import Any

import pytest
from boxaloud import rules
from boxaloud.assistant.cli.commands import batch_command
from boxaloud.assistant.contract.batch_documents import RowResult
from boxaloud.assistant.reports.batch import work
from boxaloud.assistant.reports.batch.batch_row import MOST_ITEMS, Row
from boxaloud.assistant.reports.batch.csv_records import LONGEST, MOST_LINES
from boxaloud.assistant.reports.batch.row_reader import FileFormat, rows
from boxaloud.assistant.text.problem import Problem

HEAD = "name,volume,cables,devices,clamps\n"
SOUND = "{},18,3 x 14-2,receptacle,none\n"
GOOD = {"name": "good", "volume": "18", "cables": "3 x 14-2", "devices": "receptacle",
        "clamps": "none"}  # fmt: skip


def results(kind: FileFormat, text: str) -> list[RowResult]:
    return list(work(rows(kind, io.StringIO(text, newline=""))))


def names(found: list[RowResult]) -> list[tuple[str, str | None]]:
    return [(result.name, result.verdict) for result in found]


@pytest.mark.parametrize(
    "bad",
    ['bad,18,"3 x 14-2,receptacle,none\n', '"bad,18,3 x 14-2,receptacle,none\n',
     'bad,18,3 x 14-2,receptacle,"none\n', '"\n', 'bad,18,"14-2"x,receptacle,none\n'],
)  # fmt: skip
def test_an_open_quotation_mark_takes_only_its_own_row(bad: str) -> None:
    found = results("csv", HEAD + SOUND.format("one") + bad + SOUND.format("two"))
    assert [result.verdict for result in found] == ["fits", None, "fits"]
    assert [result.line for result in found] == [2, 3, 4]
    assert "quotation mark" in str(found[1].problem) or "expected" in str(found[1].problem)


def test_a_quotation_mark_that_the_next_row_closes_joins_no_two_rows() -> None:
    """The mark of one row is closed by the one that opens a cell of the next."""
    found = results("csv", HEAD + 'bad,18,"14-2,,\ntwo,18,"3 x 14-2",receptacle,none\n')
    assert [result.line for result in found] == [2, 3]
    assert names(found)[1] == ("two", "fits")


def test_marks_that_close_one_another_rows_apart_swallow_no_row_between() -> None:
    """Both marks are wrong, and what stands between them would be a cell by RFC 4180."""
    lines = 'bad,18,"3 x 14-2\n' + SOUND.format("two") + 'worse",receptacle,none\n'
    found = results("csv", HEAD + lines + SOUND.format("three"))
    assert names(found)[1] == ("two", "fits")
    assert names(found)[-1] == ("three", "fits")


def test_every_second_row_open_loses_no_row_between() -> None:
    pairs = "".join(SOUND.format(n) + f'bad{n},"18,\n' for n in range(300))
    found = results("csv", HEAD + pairs)
    assert [result.verdict for result in found] == ["fits", None] * 300


def test_a_cell_over_several_lines_is_one_cell() -> None:
    """RFC 4180, section 2, rule 6."""
    many = "\n".join(["line"] * (MOST_LINES - 2))
    found = results("csv", HEAD + f'"{many}",18,3 x 14-2,receptacle,none\n' + SOUND.format("two"))
    assert names(found) == [(many, "fits"), ("two", "fits")]
    assert found[1].line == MOST_LINES


@pytest.mark.parametrize("head", ["name,volume,volume\n", "name,Volume ,VOLUME\n"])
def test_a_column_that_is_there_twice_is_refused(head: str) -> None:
    with pytest.raises(Problem, match=r"column 'volume' is there twice"):
        results("csv", head + "one,18,20\n")


@pytest.mark.parametrize(
    ("kind", "bad"),
    [
        ("jsonl", '{"name": "bad", "volume": 18, "volume": 20}\n'),
        ("jsonl", '{"name": "bad", "volume": 18, "Volume": 20}\n'),
        ("jsonl", '{"says": "two 14-2", "described": {"clamps": "none", "clamps": "inside"}}\n'),
        ("yaml", "- name: bad\n  volume: 18\n  volume: 20\n"),
        ("yaml", "- described: {clamps: none, clamps: inside}\n"),
    ],
)
def test_a_name_with_two_values_is_a_bad_row(kind: FileFormat, bad: str) -> None:
    sound = (json.dumps(GOOD) if kind == "jsonl" else f"- {json.dumps(GOOD)}") + "\n"
    found = results(kind, bad + sound)
    assert [result.verdict for result in found] == [None, "fits"]
    assert "there twice" in str(found[0].problem)


def test_a_csv_whose_first_line_is_open_is_refused() -> None:
    with pytest.raises(Problem, match="must name the columns"):
        results("csv", '"name,volume\none,18\n')


BAD: list[Any] = [
    {"says": "① two 14-2"},
    {"says": "a 4² box"},
    {"says": "9" * 5000},
    {"says": ";".join(["a switch"] * (MOST_ITEMS + 1))},
    {"cables": ";".join(["14-2"] * (MOST_ITEMS + 1))},
    {"name": "\ud800"},
    {"name": "\ud800", "says": "two 14-2 \udfff"},
    {"name": ["a", ["b"]], "volume": "18"},
    {"volume": "18" * 500_000},
    {"cables": "14-2", "volume": "1٨,5"},
    {"described": {"parts": [{"is": "marked", "volume": "NaN"}]}},
    {"described": {"parts": [{"is": "marked", "volume": "-Infinity"}]}},
    {"described": {"parts": [{"is": "marked", "volume": "1e999999"}]}},
    {"described": {"parts": [{"is": ["marked"]}]}},
    {"described": {"contents": [{"is": "cable", "awg": [[[[]]]]}]}},
    {"described": {"contents": [{"is": "cable", "awg": 14, "conductors": "2", "ground": 14}]}},
    {"described": {"tags": [{}]}, "name": {}},
    {"parts": "barrier metal NaN", "cables": "14-2"},
    {"parts": "barrier metal 1e400", "cables": "14-2"},
    [],
    "a switch",
    None,
    3,
]


@pytest.mark.usefixtures("faults_told")
@pytest.mark.parametrize("kind", ["jsonl", "yaml"])
@pytest.mark.parametrize("form", ["csv", "jsonl", "yaml"])
def test_no_row_ends_the_batch(kind: FileFormat, form: str, tmp_path: Path) -> None:
    """Everything is written to a file, as the command does it."""
    lead = "- " if kind == "yaml" else ""
    path, out = tmp_path / f"rows.{kind}", tmp_path / f"out.{form}"
    table = [row for bad in BAD for row in (bad, GOOD)]
    path.write_text("".join(f"{lead}{json.dumps(row)}\n" for row in table), encoding="utf-8")
    assert batch_command.run(path, out) in (1, 3)
    with path.open(encoding="utf-8") as stream:
        found = list(work(rows(kind, stream)))
    given = [result for result in found if result.name == "good"]
    assert [result.verdict for result in given] == ["fits"] * len(BAD)
    assert not [result.problem for result in found if "fault of ours" in (result.problem or "")]
    assert max(len(result.problem or "") for result in found) < 500
    assert "fits" not in [result.verdict for result in found if result.name != "good"]


@pytest.mark.usefixtures("faults_told")
def test_a_fault_of_ours_over_one_row_loses_no_other(monkeypatch: pytest.MonkeyPatch) -> None:
    sound = work_out = rules.work_out

    def faulty(box: Any) -> Any:
        if not box.contents:
            raise RecursionError("too deep")
        return sound(box)

    monkeypatch.setattr("boxaloud.assistant.reports.batch.row_evaluator.work_out", faulty)
    assert work_out is sound
    found = list(work([Row(1, GOOD), Row(2, {"volume": "18"}), Row(3, GOOD)]))
    assert [result.verdict for result in found] == ["fits", None, "fits"]
    assert "RecursionError: too deep" in str(found[1].problem)


def test_names_that_name_one_another_grow_no_sentence(tmp_path: Path) -> None:
    """YAML 1.2.2, 7.1: an alias stands for the whole node that it names."""
    held = "".join(f"  b{n}: &b{n} [*b{n - 1}, *b{n - 1}]\n" for n in range(1, 60))
    text = f"- a: &b0 [x]\n{held}  name: *b59\n  described: *b59\n- {json.dumps(GOOD)}\n"
    found = results("yaml", text)
    assert [result.verdict for result in found] == [None, "fits"]


@pytest.mark.parametrize("kind", ["csv", "jsonl", "yaml"])
def test_a_line_without_end_is_cut_and_the_next_is_read(kind: str, tmp_path: Path) -> None:
    long = "z" * (3 * LONGEST) + "\n"
    text = {
        "csv": HEAD + long + SOUND.format("good"),
        "jsonl": long + json.dumps(GOOD) + "\n",
        "yaml": f"- {long}- {json.dumps(GOOD)}\n",
    }[kind]
    path, out = tmp_path / f"rows.{kind}", tmp_path / "out.jsonl"
    path.write_text(text, encoding="utf-8")
    assert batch_command.run(path, out) == 3
    found = [json.loads(line) for line in out.read_text(encoding="utf-8").splitlines()]
    assert [row["verdict"] for row in found] == [None, "fits"]
