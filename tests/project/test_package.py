"""One package of our own: other packages named `rules`, `grammar` or `assistant` stand in no way.

Past defect this prevents: the rooms were installed under names that public packages have too, and
where one of those was installed as well, every command ended in an ImportError.
"""

from __future__ import annotations

import ast
import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
ROOMS = ("rules", "grammar", "assistant")


@pytest.fixture
def namesakes(tmp_path: Path) -> dict[str, str]:
    """An environment whose path begins with packages of the rooms' names that cannot be used."""
    for room in ROOMS:
        (tmp_path / room).mkdir()
        (tmp_path / room / "__init__.py").write_text("raise ImportError('somebody else')\n")
    path = os.pathsep.join([str(tmp_path), str(ROOT / ".package")])
    return {**os.environ, "PYTHONPATH": path}


def test_every_face_starts_beside_packages_of_the_same_names(
    namesakes: dict[str, str], tmp_path: Path
) -> None:
    code = (
        "from boxaloud import Conversation, work_out\n"
        "import boxaloud.assistant.cli.main, boxaloud.assistant.storage\n"
        "import boxaloud.assistant.reports.batch\n"
        "print(Conversation().hear('two 14-2s, a switch, 18 cubic inches, no clamps').verdict)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], env=namesakes, cwd=tmp_path, capture_output=True, text=True
    )
    assert (done.stdout, done.returncode) == ("fits\n", 0), done.stderr


@pytest.mark.parametrize("room", [*ROOMS, "tests", "audio_fixtures"])
def test_the_rooms_are_imported_under_our_own_name(room: str) -> None:
    wrong = [
        f"{path.relative_to(ROOT)}: {name}"
        for path in sorted((ROOT / room).rglob("*.py"))
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        for name in _imported(node)
        if name.split(".")[0] in ROOMS
    ]
    assert wrong == []


def _imported(node: ast.AST) -> list[str]:
    if isinstance(node, ast.ImportFrom):
        return [node.module or ""]
    return [name.name for name in node.names] if isinstance(node, ast.Import) else []


def test_the_package_holds_each_room_once() -> None:
    package = ROOT / ".package" / "boxaloud"
    assert {room: (package / room).resolve() for room in ROOMS} == {
        room: (ROOT / room).resolve() for room in ROOMS
    }
