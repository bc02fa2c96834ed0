"""Rows out of CSV, YAML and JSON Lines, one at a time, each with the line that it begins on."""

from __future__ import annotations

import csv
import json
from collections.abc import Callable, Iterable, Iterator
from decimal import Decimal
from pathlib import Path
from typing import Any, Literal, TextIO, TypeAlias

from boxaloud.assistant.batch.batch_row import Row
from boxaloud.assistant.text.problem import Problem

FileFormat: TypeAlias = Literal["csv", "yaml", "jsonl"]
"""The kinds of file that rows come from and results go to."""

_json = json.JSONDecoder(parse_float=Decimal).decode

LONGEST = 1_000_000
"""Characters in one row. A longer one is no box."""


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
    reader = csv.reader(stream, strict=True)
    heads = [head.strip().lower().replace(" ", "_") for head in next(reader, [])]
    if not any(heads):
        raise Problem("The file has no columns: its first line must name them.")
    while True:
        line = reader.line_num + 1
        try:
            cells = next(reader)
        except StopIteration:
            return
        except csv.Error as fault:
            yield Row(line, {}, f"The row cannot be read as CSV: {fault}.")
            continue
        if not any(cells):
            continue
        if len(cells) > len(heads):
            name = {"name": cells[heads.index("name")]} if "name" in heads else {}
            yield Row(line, name, f"The row has {len(cells)} cells for {len(heads)} columns.")
            continue
        yield Row(line, dict(zip(heads, cells, strict=False)))


def _jsonl(stream: Iterable[str]) -> Iterator[Row]:
    for line, text in enumerate(stream, 1):
        if not text.strip():
            continue
        try:
            data = _json(text) if len(text) < LONGEST else None
        except (ValueError, RecursionError) as fault:
            yield Row(line, {}, f"The line cannot be read as JSON: {fault}.")
            continue
        yield _row(line, data)


def _yaml(stream: Iterable[str]) -> Iterator[Row]:
    try:
        import yaml
    except ImportError:
        raise Problem("Reading YAML needs PyYAML: install it with “pip install pyyaml”.") from None
    from boxaloud.assistant.batch.yaml_values import typed

    loader = getattr(yaml, "CBaseLoader", yaml.BaseLoader)
    for line, text in _yaml_rows(stream):
        try:
            # every scalar stays text, so that no volume is ever a float
            data: Any = _only(yaml.load(text, loader)) if len(text) < LONGEST else None
            if isinstance(data, dict) and isinstance(data.get("described"), dict):
                data["described"] = _only(typed(text))["described"]
        except (yaml.YAMLError, RecursionError, ValueError) as fault:
            about = getattr(fault, "problem", None) or fault
            yield Row(line, {}, f"The row cannot be read as YAML: {about}.")
            continue
        if data is None and len(text) < LONGEST:
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


def _row(line: int, data: Any) -> Row:
    if not isinstance(data, dict):
        return Row(line, {}, "Each row is an object with the columns of a box.")
    return Row(line, {str(key).strip().lower(): value for key, value in data.items()})


def opened(path: Path) -> TextIO:
    """A file for reading. Raises Problem, in a sentence, where it cannot be read."""
    try:
        return path.open(encoding="utf-8-sig", errors="replace", newline="")
    except OSError as fault:
        raise Problem(f"{path} cannot be read: {fault.strerror or fault}.") from None
