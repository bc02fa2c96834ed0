"""The rooms import one way only: what the design promises, held here.

Past defect this prevents: a rule that starts to know words, or a parser that does arithmetic.
"""

from __future__ import annotations

import ast
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]

MAY_IMPORT = {
    "rules": {"rules"},
    "grammar": {"grammar"},
    "assistant/dialogue": {"assistant.dialogue", "grammar", "rules"},
    "assistant/ears": {"assistant.ears", "grammar"},
    "assistant/mouth": {"assistant.mouth"},
    "assistant/screen": {
        "assistant.screen",
        "assistant.dialogue",
        "assistant.ears",
        "assistant.jobs",
        "assistant.mouth",
        "assistant.problems",
        "grammar",
        "rules",
    },
}
HEAVY = {"vosk", "textual", "pyttsx3", "sounddevice", "pocketsphinx", "requests", "fpdf", "numpy"}


def imports_of(path: Path) -> set[str]:
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {name.name for name in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: relative import"
            found.add(node.module or "")
    return found


def ours(module: str) -> bool:
    return module.split(".")[0] in {"rules", "grammar", "assistant"}


@pytest.mark.parametrize("room", sorted(MAY_IMPORT))
def test_a_room_knows_only_the_rooms_to_its_right(room: str) -> None:
    allowed = MAY_IMPORT[room]
    wrong = [
        f"{path.relative_to(ROOT)} imports {module}"
        for path in sorted((ROOT / room).rglob("*.py"))
        for module in imports_of(path)
        if ours(module) and not any(module == a or module.startswith(a + ".") for a in allowed)
    ]
    assert wrong == []


@pytest.mark.parametrize("module", ["rules", "grammar", "assistant.dialogue", "assistant.chat"])
def test_text_front_ends_load_nothing_heavy(module: str) -> None:
    code = f"import sys, {module}; print(' '.join(sys.modules))"
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert HEAVY & set(out.stdout.split()) == set()


def test_rules_and_conversation_do_no_io() -> None:
    """The pure core opens nothing and reads no clock; data files are read by its loaders."""
    banned = {"time", "datetime", "socket", "subprocess", "sqlite3", "random", "os"}
    wrong = [
        f"{path.relative_to(ROOT)} imports {module}"
        for room in ("rules", "assistant/dialogue")
        for path in sorted((ROOT / room).rglob("*.py"))
        for module in imports_of(path) & banned
    ]
    assert wrong == []
