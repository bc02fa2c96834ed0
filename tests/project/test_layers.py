"""The rooms import one way only: what the design promises, held here.

Past defect this prevents: a rule that starts to know words, or a parser that does arithmetic.
"""

from __future__ import annotations

import ast
import subprocess
import sys
from collections import Counter
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]

WORK = {"assistant/dialogue", "grammar", "rules"}
"""Where what is said and counted is found."""

MAY_IMPORT = {
    "rules": set[str](),
    "grammar": set[str](),
    "assistant/text": set[str](),
    "assistant/dialogue": {"assistant/text", "grammar", "rules"},
    "assistant/asr": {"assistant/text", "grammar"},
    "assistant/tts": {"assistant/text"},
    "assistant/contract": {"assistant/text", *WORK},
    "assistant/storage": {"assistant/text", *WORK},
    "assistant/reports": {"assistant/contract", "assistant/storage", "assistant/text", *WORK},
    "assistant/web": {
        "assistant/asr",
        "assistant/reports",
        "assistant/storage",
        "assistant/text",
        "assistant/tui",
        *WORK,
    },
    "assistant/tui": {
        "assistant/asr",
        "assistant/storage",
        "assistant/text",
        "assistant/tts",
        *WORK,
    },
    "assistant/cli": {
        "assistant/asr",
        "assistant/contract",
        "assistant/reports",
        "assistant/storage",
        "assistant/text",
        "assistant/tts",
        "assistant/tui",
        "assistant/web",
        *WORK,
    },
}
"""Every room, and the rooms that it may know besides itself."""

ORDER = ("acts", "lexer", "phrases", "clauses", "patterns", "building", "utterance")
"""The steps of the grammar, each knowing only those before it."""

HEAVY = {
    "vosk",
    "textual",
    "pyttsx3",
    "sounddevice",
    "pocketsphinx",
    "requests",
    "fpdf",
    "jinja2",
    "numpy",
    "pydantic",
}


def imports_of(path: Path) -> set[str]:
    """The modules of ours and of others that a module imports, at its head or inside a function."""
    found: set[str] = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            found |= {name.name for name in node.names}
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: relative import"
            found |= {f"{node.module}.{name.name}" for name in node.names}
    return found


def modules_of(place: str) -> list[Path]:
    """The modules of a room, or the room's one module of that name."""
    if (ROOT / f"{place}.py").exists():
        return [ROOT / f"{place}.py"]
    return sorted((ROOT / place).rglob("*.py"))


def room_of(module: str) -> str:
    """The room in which a module of ours stands; nothing for another's module."""
    path = module.removeprefix("boxaloud.").replace(".", "/")
    if not module.startswith("boxaloud."):
        return ""
    rooms = (room for room in MAY_IMPORT if path == room or path.startswith(room + "/"))
    return next(rooms, path)


@pytest.mark.parametrize("room", sorted(MAY_IMPORT))
def test_a_room_knows_only_the_rooms_below_it(room: str) -> None:
    wrong = [
        f"{path.relative_to(ROOT)} imports {module}"
        for path in modules_of(room)
        for module in sorted(imports_of(path))
        if (known := room_of(module)) not in ("", room, "assistant/__version__")
        and known not in MAY_IMPORT[room]
    ]
    assert wrong == []


def test_no_two_rooms_know_each_other() -> None:
    seen: set[str] = set()
    waiting = dict(MAY_IMPORT)
    while ready := [room for room, known in waiting.items() if known <= seen]:
        seen |= set(ready)
        waiting = {room: known for room, known in waiting.items() if room not in seen}
    assert waiting == {}


def test_every_module_belongs_to_a_room() -> None:
    roots = ("rules", "grammar", "assistant")
    every = {path for root in roots for path in (ROOT / root).rglob("*.py")}
    housed = {path for room in MAY_IMPORT for path in modules_of(room)}
    assert every - housed == {ROOT / "assistant" / "__init__.py"}


@pytest.mark.parametrize("step", ORDER)
def test_a_step_of_the_grammar_knows_only_the_steps_before_it(step: str) -> None:
    after = ORDER[ORDER.index(step) + 1 :]
    wrong = [
        f"{path.relative_to(ROOT)} imports {module}"
        for path in modules_of(f"grammar/{step}")
        for module in sorted(imports_of(path))
        if module.startswith(tuple(f"boxaloud.grammar.{later}." for later in after))
    ]
    assert wrong == []


OURS = ("rules", "grammar", "assistant", "tests", "audio_fixtures", ".ci")


def every_module() -> list[Path]:
    """All modules of the checkout, tests and scripts among them."""
    return [path for place in OURS for path in sorted((ROOT / place).rglob("*.py"))]


def test_no_two_modules_have_one_name() -> None:
    special = ("__init__.py", "__main__.py", "conftest.py")
    names = Counter(path.name for path in every_module() if path.name not in special)
    assert [name for name, count in names.items() if count > 1] == []


def test_no_module_is_too_long_to_be_read_at_once() -> None:
    lengths = {str(path): len(path.read_text("utf-8").splitlines()) for path in every_module()}
    assert {name: lines for name, lines in lengths.items() if lines > 300} == {}


def test_each_folder_says_what_lives_there_and_what_may_be_touched() -> None:
    short = [
        str(path.relative_to(ROOT))
        for room in ("rules", "grammar", "assistant")
        for path in (ROOT / room).rglob("__init__.py")
        if len((ast.get_docstring(ast.parse(path.read_text("utf-8"))) or "").splitlines()) < 3
    ]
    assert short == []


def test_only_the_contract_knows_how_documents_are_modelled() -> None:
    wrong = [
        f"{path.relative_to(ROOT)} imports {module}"
        for room in MAY_IMPORT
        if room != "assistant/contract"
        for path in modules_of(room)
        for module in sorted(imports_of(path))
        if module.startswith("pydantic")
    ]
    assert wrong == []


def test_files_are_put_in_place_by_one_writer() -> None:
    """The grammar has a few lines of its own for its cache: it may import nothing of ours."""
    writers = {"assistant/text/atomic_file.py", "grammar/phrases/compiled_cache.py"}
    found = {
        str(path.relative_to(ROOT))
        for room in MAY_IMPORT
        for path in modules_of(room)
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.Attribute) and ast.unparse(node) in ("os.replace", "os.link")
    }
    assert found == writers


def test_outside_the_grammar_words_are_read_as_acts() -> None:
    """The flat statements are the grammar's own; entries of the earlier form are made of them."""
    flat = {
        "boxaloud.grammar.phrases.statement_parser",
        "boxaloud.grammar.phrases.statements",
        "boxaloud.grammar.understand",
    }
    earlier = ROOT / "assistant" / "dialogue" / "legacy_entries.py"
    wrong = [
        str(path.relative_to(ROOT))
        for path in sorted((ROOT / "assistant").rglob("*.py"))
        if path != earlier
        and (
            any(name.startswith(tuple(flat)) for name in imports_of(path))
            or "understand(" in path.read_text("utf-8")
        )
    ]
    assert wrong == []


@pytest.mark.parametrize(
    "module",
    [
        "boxaloud.rules",
        "boxaloud.grammar",
        "boxaloud.assistant.dialogue",
        "boxaloud.assistant.cli.commands.chat_command",
        "boxaloud.assistant.cli.main",
        "boxaloud.assistant.reports",
        "boxaloud.assistant.storage",
        "boxaloud.assistant.web.page_engine",
    ],
)
def test_text_front_ends_load_nothing_heavy(module: str) -> None:
    code = f"import sys, {module}; print(' '.join(sys.modules))"
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert HEAVY & set(out.stdout.split()) == set()


def test_the_page_takes_only_presenters_and_sentences_from_the_screen() -> None:
    """What draws in a terminal is not there on a phone."""
    shared = ("boxaloud.assistant.tui.presenters", "boxaloud.assistant.tui.tui_messages")
    wrong = [
        f"{path.relative_to(ROOT)} imports {module}"
        for path in modules_of("assistant/web")
        for module in sorted(imports_of(path))
        if module.startswith("boxaloud.assistant.tui") and not module.startswith(shared)
    ]
    assert wrong == []


def test_rules_and_conversation_do_no_io() -> None:
    """The pure core opens nothing and reads no clock; data files are read by its loaders."""
    banned = {"time", "datetime", "socket", "subprocess", "sqlite3", "random", "os"}
    wrong = [
        f"{path.relative_to(ROOT)} imports {module}"
        for room in ("rules", "assistant/dialogue")
        for path in sorted((ROOT / room).rglob("*.py"))
        for module in sorted(imports_of(path))
        if module.split(".")[0] in banned
    ]
    assert wrong == []
