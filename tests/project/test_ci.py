"""The script that CI runs names what is there.

Past defect this prevents: folders of tests were given other names, and the script went on naming
the old ones.
"""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

ROOT = Path(__file__).parents[2]


def test_every_test_that_the_script_names_is_there() -> None:
    named = set(re.findall(r"\btests/[\w/.]+", (ROOT / ".ci" / "run").read_text("utf-8")))
    assert named
    assert [path for path in named if not (ROOT / path).exists()] == []


def test_types_are_looked_for_where_pytest_looks() -> None:
    tool = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["tool"]
    looked = [path.removeprefix("$MYPY_CONFIG_FILE_DIR/") for path in tool["mypy"]["mypy_path"]]
    assert sorted(looked) == sorted(tool["pytest"]["ini_options"]["pythonpath"])
