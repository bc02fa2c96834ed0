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

DATA = {"assistant.dialogue", "assistant.problems", "grammar", "rules"}
"""What a room beside the dialogue may know: what is said and counted, and how trouble is told."""

MAY_IMPORT = {
    "rules": {"rules"},
    "grammar": {"grammar"},
    "assistant/dialogue": {"assistant.dialogue", "grammar", "rules"},
    "assistant/ears": {"assistant.ears", "grammar"},
    "assistant/mouth": {"assistant.mouth"},
    "assistant/jobs": {"assistant.jobs", "assistant.aliases", *DATA},
    "assistant/report": {"assistant.report", *DATA},
    "assistant/batch": {"assistant.batch", "assistant.report.cells", *DATA},
    "assistant/screen": {
        "assistant.screen",
        "assistant.ears",
        "assistant.jobs",
        "assistant.mouth",
        *DATA,
    },
}

SOUND = {"assistant.ears", "assistant.mouth", "assistant.sound_wording"}
FRONTS = {
    "assistant/jobs/commands.py": {
        "assistant.command_rows",
        "assistant.batch.front",
        "assistant.jobs.front",
        "assistant.report.front",
        "assistant.schema",
    },
    "assistant/jobs/front.py": {"assistant.front", "assistant.jobs", *DATA},
    "assistant/report/front.py": {
        "assistant.front",
        "assistant.jobs",
        "assistant.report",
        "assistant.problems",
    },
    "assistant/batch/front.py": {"assistant.batch", "assistant.problems"},
    # what knows nothing of the work
    "assistant/__init__.py": set[str](),
    "assistant/aliases.py": set[str](),
    "assistant/keys.py": set[str](),
    "assistant/lasting.py": set[str](),
    "assistant/problems.py": set[str](),
    "assistant/sound_wording.py": set[str](),
    # the command line
    "assistant/command_rows.py": set[str](),
    "assistant/arguments.py": {
        "assistant.command_rows",
        "assistant.problems",
        "assistant.usage",
    },
    "assistant/usage.py": {"assistant.command_rows"},
    "assistant/command.py": {
        "assistant",
        "assistant.arguments",
        "assistant.command_rows",
        "assistant.chat",
        "assistant.check",
        "assistant.hear",
        "assistant.jobs.commands",
        "assistant.lasting",
        "assistant.problems",
        "assistant.screen_commands",
        "assistant.sound_commands",
    },
    "assistant/screen_commands.py": {"assistant.command_rows", "assistant.screen"},
    "assistant/sound_commands.py": {
        "assistant.command_rows",
        "assistant.doctor",
        "assistant.ears_front",
        "assistant.mouth",
        "assistant.talk",
    },
    "assistant/schema.py": {"assistant.front", "assistant.problems"},
    # the line front ends
    "assistant/front.py": {"assistant.aliases", "assistant.jobs", *DATA},
    "assistant/showing.py": {"assistant.dialogue", "rules"},
    "assistant/check.py": {"assistant.front", "assistant.problems", "assistant.showing"},
    "assistant/chat.py": {"assistant.dialogue", "assistant.front", "assistant.showing"},
    "assistant/hear.py": {
        "assistant.dialogue",
        "assistant.front",
        "assistant.problems",
        "assistant.showing",
        *SOUND,
    },
    "assistant/talk.py": {
        "assistant.front",
        "assistant.jobs",
        "assistant.keys",
        "assistant.problems",
        "assistant.talking",
        *SOUND,
    },
    "assistant/talking.py": {
        "assistant.dialogue",
        "assistant.front",
        "assistant.jobs",
        "assistant.keys",
        "assistant.showing",
        *SOUND,
    },
    "assistant/doctor.py": {"assistant.front", *SOUND},
    "assistant/ears_front.py": {"assistant.front", "assistant.problems", *SOUND},
}
"""Modules of the top level, and the front ends that rooms hold: they bring rooms together, and
no room may know them."""

HEAVY = {"vosk", "textual", "pyttsx3", "sounddevice", "pocketsphinx", "requests", "fpdf", "numpy"}


def imports_of(path: Path) -> set[str]:
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {name.name.removeprefix("boxaloud.") for name in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: relative import"
            found |= _named(
                (node.module or "").removeprefix("boxaloud."), [name.name for name in node.names]
            )
    return found


def _named(module: str, names: list[str]) -> set[str]:
    """ "from assistant import front" imports `assistant.front`."""
    below = {name for name in names if (ROOT.joinpath(*module.split(".")) / f"{name}.py").exists()}
    rest = {module} if len(below) < len(names) else set()
    return {f"{module}.{name}" for name in below} | rest


def ours(module: str) -> bool:
    return module.split(".")[0] in {"rules", "grammar", "assistant"}


def allows(allowed: set[str], module: str) -> bool:
    """Whether a module is one of those allowed or stands below one; all stand below "assistant"."""
    return any(
        module == one or (one != "assistant" and module.startswith(one + ".")) for one in allowed
    )


def wrong_imports(path: Path, allowed: set[str]) -> list[str]:
    return [
        f"{path.relative_to(ROOT)} imports {module}"
        for module in sorted(imports_of(path))
        if ours(module) and not allows(allowed, module)
    ]


def modules_of(room: str) -> list[Path]:
    return [
        path
        for path in sorted((ROOT / room).rglob("*.py"))
        if str(path.relative_to(ROOT)) not in FRONTS
    ]


@pytest.mark.parametrize("room", sorted(MAY_IMPORT))
def test_a_room_knows_only_the_rooms_to_its_right(room: str) -> None:
    wrong = [line for path in modules_of(room) for line in wrong_imports(path, MAY_IMPORT[room])]
    assert wrong == []


@pytest.mark.parametrize("front", sorted(FRONTS))
def test_a_front_end_knows_only_what_it_brings_together(front: str) -> None:
    assert wrong_imports(ROOT / front, FRONTS[front]) == []


def test_every_module_belongs_to_a_room_or_is_a_front_end() -> None:
    roots = ("rules", "grammar", "assistant")
    every = {str(path.relative_to(ROOT)) for room in roots for path in (ROOT / room).rglob("*.py")}
    housed = {str(path.relative_to(ROOT)) for room in MAY_IMPORT for path in modules_of(room)}
    assert every - housed - set(FRONTS) == set()
    assert set(FRONTS) - every == set(), "a front end is gone"


def test_outside_the_grammar_words_are_read_as_acts() -> None:
    """The flat statements are the grammar's own; entries of the earlier form are made of them."""
    flat = {
        "grammar.understanding",
        "grammar.statements",
        "grammar.understand",
    }
    earlier = ROOT / "assistant" / "dialogue" / "earlier.py"
    wrong = [
        str(path.relative_to(ROOT))
        for path in sorted((ROOT / "assistant").rglob("*.py"))
        if path != earlier and (imports_of(path) & flat or "understand(" in path.read_text("utf-8"))
    ]
    assert wrong == []


@pytest.mark.parametrize(
    "module",
    [
        "boxaloud.rules",
        "boxaloud.grammar",
        "boxaloud.assistant.dialogue",
        "boxaloud.assistant.chat",
    ],
)
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
