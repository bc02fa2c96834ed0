"""What the page's archive leaves out of the rewrite rows: only what tests and readers need.

Common practice of those who send programs over a telephone network: no word goes that is not run.
"""

from __future__ import annotations

import io
import tomllib
import zipfile
from importlib.resources import files
from typing import Any

from boxaloud.assistant.web.engine_archive import engine_archive

READ_ONLY = ("example", "not", "why")


def rows(text: str) -> list[dict[str, Any]]:
    return list(tomllib.loads(text)["rewrite"])


def test_rows_go_whole_but_for_examples_and_reasons() -> None:
    archive = zipfile.ZipFile(io.BytesIO(engine_archive()))
    names = [name for name in archive.namelist() if "/rewrites_" in name]
    assert names
    for name in names:
        sent = rows(archive.read(name).decode())
        kept = rows((files("boxaloud") / name.removeprefix("boxaloud/")).read_text("utf-8"))
        assert not any(key in row for row in sent for key in READ_ONLY)
        assert sent == [
            {key: value for key, value in row.items() if key not in READ_ONLY} for row in kept
        ]
