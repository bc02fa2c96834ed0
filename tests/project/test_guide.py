"""What the contributors' guide names is there: a file that was renamed misleads who reads it."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
GUIDE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
NAMED = sorted(set(re.findall(r"`([\w/.-]+\.(?:py|toml|css|csv|txt))(?:::\w+)?`", GUIDE)))
#: Names that stand for any file of their kind.
EXAMPLES = {"rows/CAPABILITY.toml", "json.py"}
FILES = [
    f"/{path.relative_to(ROOT).as_posix()}"
    for room in ("assistant", "grammar", "rules", "tests", "audio_fixtures", ".ci")
    for path in (ROOT / room).rglob("*")
] + [f"/{path.name}" for path in ROOT.iterdir()]


def test_the_guide_names_files() -> None:
    assert len(NAMED) > 100


@pytest.mark.parametrize("name", [name for name in NAMED if name not in EXAMPLES])
def test_a_file_that_the_guide_names_is_there(name: str) -> None:
    assert any(path.endswith(f"/{name}") for path in FILES), f"DEVELOPERS.md names {name}"


HELD_BY = sorted(set(re.findall(r"`([\w/.-]+\.py)::(test_\w+)`", GUIDE)))


def test_the_guide_names_the_tests_that_hold_its_promises() -> None:
    assert len(HELD_BY) > 25


@pytest.mark.parametrize(("file", "test"), HELD_BY)
def test_a_test_that_the_guide_names_is_there(file: str, test: str) -> None:
    assert f"def {test}(" in (ROOT / "tests" / file).read_text(encoding="utf-8")
