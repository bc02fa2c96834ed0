"""Results into CSV, YAML or JSON Lines, one at a time."""

from __future__ import annotations

import csv
import json
from collections.abc import Callable
from typing import Any, TextIO

from boxaloud.assistant.contract.batch_documents import RowResult
from boxaloud.assistant.reports.batch.row_reader import FileFormat
from boxaloud.assistant.text.printing import clean_json
from boxaloud.assistant.text.spreadsheet_cell import safe

_OURS = frozenset(RowResult.model_fields) - {
    "name", "open", "cautions", "not_used", "problem",
}  # fmt: skip
"""Columns of numbers and of words of our own: no formula can begin in one."""

_json = json.JSONEncoder(ensure_ascii=False).encode


def writer(kind: FileFormat, out: TextIO) -> Callable[[RowResult], None]:
    """A function that writes one result to `out`."""
    match kind:
        case "csv":
            return _csv(out)
        case "yaml":
            return lambda result: _yaml(result, out)
        case "jsonl":
            return lambda result: _jsonl(result, out)


def _csv(out: TextIO) -> Callable[[RowResult], None]:
    sheet = csv.writer(out)
    sheet.writerow(RowResult.model_fields)

    def write(result: RowResult) -> None:
        cells = result.to_json().items()
        sheet.writerow([value if key in _OURS else safe(_cell(value)) for key, value in cells])

    return write


def _cell(value: Any) -> Any:
    return "; ".join(value) if isinstance(value, tuple) else value


def _jsonl(result: RowResult, out: TextIO) -> None:
    out.write(clean_json(_json(result.to_json())) + "\n")


def _yaml(result: RowResult, out: TextIO) -> None:
    """One list item. JSON texts are YAML scalars, so each value is written as one."""
    start = "- "
    for key, value in result.to_json().items():
        out.write(f"{start}{key}: {clean_json(_json(value))}\n")
        start = "  "
