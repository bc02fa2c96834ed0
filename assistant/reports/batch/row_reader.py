"""Rows out of CSV, YAML and JSON Lines, one at a time, each with the line that it begins on."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Iterator
from decimal import Decimal
from pathlib import Path
from typing import Any, Literal, TextIO, TypeAlias

from boxaloud.assistant.reports.batch.batch_row import Row, shown
from boxaloud.assistant.reports.batch.csv_records import LONGEST, Record, Records
from boxaloud.assistant.text.problem import Problem

FileFormat: TypeAlias = Literal["csv", "yaml", "jsonl"]
"""The kinds of file that rows come from and results go to."""


_TOO_LONG = f"it is longer than {LONGEST} characters"


def kind_of(path: Path, first: str) -> FileFormat:
    """`csv`, `yaml` or `jsonl`: by the ending, else by how the file begins."""
    known: dict[str, FileFormat] = {
        ".csv": "csv",
        ".yaml": "yaml",
        ".yml": "yaml",
        ".jsonl": "jsonl",
        ".ndjson": "jsonl",
    }
    ending = path.suffix.lower()
    if ending in known:
        return known[ending]
    if ending not in ("", ".txt"):
        raise Problem(f"{path.name} is no .csv, .yaml or .jsonl file.")
    begins: dict[str, FileFormat] = {"{": "jsonl", "-": "yaml", "#": "yaml"}
    return begins.get(first.lstrip()[:1], "csv")


def rows(kind: FileFormat, stream: Iterable[str]) -> Iterator[Row]:
    """The rows of a file of one kind. Raises Problem where it has no rows at all to give."""
    readers: dict[FileFormat, Callable[[Iterable[str]], Iterator[Row]]] = {
        "csv": _csv, "yaml": _yaml, "jsonl": _jsonl
    }  # fmt: skip
    return readers[kind](stream)


def _csv(stream: Iterable[str]) -> Iterator[Row]:
    records = Records(stream)
    found = iter(records)
    heads = _heads(next(found, Record(1, [])))
    records.width = len(heads)
    for record in found:
        if record.problem:
            name = {"name": record.cells[heads.index("name")]} if _named(heads, record) else {}
            yield Row(record.line, name, record.problem)
        elif any(record.cells):
            yield Row(record.line, dict(zip(heads, record.cells, strict=False)))


def _heads(record: Record) -> list[str]:
    """The names of the columns. Raises Problem where there are none, or one is there twice."""
    if record.problem:
        raise Problem(f"The first line must name the columns. {record.problem}")
    heads = [head.strip().lower().replace(" ", "_") for head in record.cells]
    if not any(heads):
        raise Problem("The file has no columns: its first line must name them.")
    twice = sorted({head for head in heads if head and heads.count(head) > 1})
    if twice:
        raise Problem(f"The column {shown(twice[0])} is there twice: which of them is meant?")
    return heads


def _named(heads: list[str], record: Record) -> bool:
    return bool(record.cells) and "name" in heads


def _jsonl(stream: Iterable[str]) -> Iterator[Row]:
    for line, text in enumerate(stream, 1):
        if not text.strip():
            continue
        try:
            if len(text) >= LONGEST:
                raise ValueError(_TOO_LONG)
            data = json.loads(text, parse_float=Decimal, object_pairs_hook=_once)
        except (ValueError, ArithmeticError, RecursionError) as fault:
            yield Row(line, {}, f"The line cannot be read as JSON: {fault}.")
            continue
        yield _row(line, data)


def _yaml(stream: Iterable[str]) -> Iterator[Row]:
    try:
        import yaml
    except ImportError:
        raise Problem("Reading YAML needs PyYAML: install it with “pip install pyyaml”.") from None
    from boxaloud.assistant.reports.batch.yaml_values import typed

    loader = _loader(yaml)
    for line, text in _yaml_rows(stream):
        try:
            if len(text) >= LONGEST:
                raise ValueError(_TOO_LONG)
            # every scalar stays text, so that no volume is ever a float
            data: Any = _only(yaml.load(text, loader))
            if isinstance(data, dict) and isinstance(data.get("described"), dict):
                data["described"] = _only(typed(text))["described"]
        except (yaml.YAMLError, RecursionError, ValueError) as fault:
            about = getattr(fault, "problem", None) or fault
            yield Row(line, {}, f"The row cannot be read as YAML: {about}.")
            continue
        if data is None:
            continue
        yield _row(line, data)


def _only(data: Any) -> Any:
    return data[0] if isinstance(data, list) and len(data) == 1 else data


def _yaml_rows(stream: Iterable[str]) -> Iterator[tuple[int, str]]:
    """The text of each row, which begins with "- " or "---" at the beginning of a line."""
    begun, held, size = 1, list[str](), 0
    for line, text in enumerate(stream, 1):
        if text.startswith(("- ", "-\n", "---")):
            if held:
                yield begun, "".join(held)
            begun, held, size = line, [], 0
        if not text.startswith(("---", "...")) and size < LONGEST:
            held.append(text)
            size += len(text)
    if held:
        yield begun, "".join(held)


def _loader(yaml: Any) -> Any:
    """A loader by which every scalar stays text, so that no volume is ever a float, and no key
    of a mapping holds two values."""

    class Loader(getattr(yaml, "CBaseLoader", yaml.BaseLoader)):  # type: ignore[misc]
        def construct_mapping(self, node: Any, deep: bool = False) -> Any:
            made = super().construct_mapping(node, deep=deep)
            if len(made) < len(node.value):
                raise yaml.YAMLError("a column is there twice")
            return made

    return Loader


def _once(pairs: list[tuple[str, Any]]) -> dict[str, Any]:
    """An object of JSON. Raises ValueError where it gives one name two values."""
    made = dict(pairs)
    if len(made) < len(pairs):
        raise ValueError("a column is there twice")
    return made


def _row(line: int, data: Any) -> Row:
    if not isinstance(data, dict):
        return Row(line, {}, "Each row is an object with the columns of a box.")
    fields = {str(key).strip().lower(): value for key, value in data.items()}
    if len(fields) < len(data):
        return Row(line, {}, "A column is there twice.")
    return Row(line, fields)


def opened(path: Path) -> TextIO:
    """A file for reading. Raises Problem, in a sentence, where it cannot be read."""
    try:
        return path.open(encoding="utf-8-sig", errors="replace", newline="")
    except OSError as fault:
        raise Problem(f"{path} cannot be read: {fault.strerror or fault}.") from None
