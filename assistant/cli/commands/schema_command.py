"""`boxaloud schema`: the JSON Schemas of what is read and written, from
`assistant/contract/schemas/`."""

from __future__ import annotations

import json
from functools import cache
from importlib.resources import files
from typing import Any

from boxaloud.assistant.cli.exit_codes import FITS
from boxaloud.assistant.cli.output import put
from boxaloud.assistant.text.problem import Problem

NAMES = ("box", "worksheet", "row", "result", "report")
"""A described box; a worksheet; a row of `batch` and its result; the report of a job."""


@cache
def schema(name: str) -> dict[str, Any]:
    """The schema of this name. Raises Problem for a name that is none of NAMES."""
    if name not in NAMES:
        raise Problem(f"There is no schema {name!r}: say one of {', '.join(NAMES)}.")
    path = files("boxaloud.assistant.contract") / "schemas" / f"{name}.json"
    found = json.loads(path.read_text(encoding="utf-8"))
    assert isinstance(found, dict)
    return found


def run(name: str) -> int:
    """Print one schema, or all of them as one object by name."""
    found = schema(name) if name else {each: schema(each) for each in NAMES}
    put(json.dumps(found, ensure_ascii=False, indent=2))
    return FITS
