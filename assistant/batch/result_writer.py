"""Results into CSV, YAML or JSON Lines, one at a time."""

from __future__ import annotations

import csv
import json
from collections.abc import Callable
from typing import Any, TextIO

from boxaloud.assistant.batch.row_evaluator import Result
from boxaloud.assistant.text.spreadsheet_cell import safe

COLUMNS = (
    "line", "name", "edition", "verdict", "total_in3", "capacity_in3", "margin_in3",
    "least_total_in3", "greatest_total_in3", "open", "not_used", "problem",
)  # fmt: skip


def writer(kind: str, out: TextIO) -> Callable[[Result], None]:
    """A function that writes one result to `out`."""
    if kind == "csv":
        return _csv(out)
    if kind == "yaml":
        return lambda result: _yaml(result, out)
    return lambda result: _jsonl(result, out)


def _csv(out: TextIO) -> Callable[[Result], None]:
    sheet = csv.writer(out)
    sheet.writerow(COLUMNS)

    def write(result: Result) -> None:
        sheet.writerow([safe(_cell(value)) for value in result.fields().values()])

    return write


def _cell(value: Any) -> Any:
    return "; ".join(value) if isinstance(value, list) else value


def _jsonl(result: Result, out: TextIO) -> None:
    out.write(json.dumps(result.fields(), ensure_ascii=False) + "\n")


def _yaml(result: Result, out: TextIO) -> None:
    """One list item. JSON texts are YAML scalars, so each value is written as one."""
    start = "- "
    for key, value in result.fields().items():
        out.write(f"{start}{key}: {json.dumps(value, ensure_ascii=False)}\n")
        start = "  "
