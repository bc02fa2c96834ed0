"""Nothing is kept that nobody uses: sentences that no module names, and code that nothing calls.

A sentence is named by its whole key, by a pattern, or with a table that is taken whole. Looked for
in the syntax trees, and in templates as texts in quotes, without running anything. A pattern is a
text with gaps, such as `f"ask.{question}"`; a gap stands for any words, so a pattern that is a gap
alone names nothing.
"""

from __future__ import annotations

import ast
import re
import subprocess
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any, NamedTuple

import pytest

ROOT = Path(__file__).parents[2]
WHOLE = {"sentences", "tables", "words"}
"""What gives a whole sentence file."""
TABLES = {"table", "texts"}
"""What gives a table of one."""


class Named(NamedTuple):
    """What the code of some folders names."""

    keys: frozenset[str]
    patterns: tuple[re.Pattern[str], ...]
    tables: tuple[str, ...]

    def has(self, key: str) -> bool:
        """Whether the sentence under a dotted `key` is named, by itself or with its table."""
        return (
            key in self.keys
            or any(key == table or key.startswith(table + ".") for table in self.tables)
            or any(pattern.fullmatch(key) for pattern in self.patterns)
        )


def named_by_templates(room: Path) -> Named:
    """All that the templates of a room name: `say("a.one")`, `say("b." ~ what)`."""
    texts = [path.read_text(encoding="utf-8") for path in room.rglob("*.jinja")]
    found = [each for text in texts for each in re.findall(r'"([\w.]+)"( ~)?', text)]
    made = (re.compile(re.escape(text) + r"[\w.]+") for text, joined in found if joined)
    return Named(frozenset(text for text, joined in found if not joined), tuple(made), ())


def readers(room: Path, everywhere: list[Path]) -> list[Path]:
    """The modules that can say a sentence of `room`: its own, and those that import from it."""
    own = sorted(room.rglob("*.py"))
    homes = [path for path in own if "Catalogue(" in path.read_text(encoding="utf-8")]
    return own + [
        path
        for path in everywhere
        if path not in own and any(_knows(path, home.stem) for home in homes)
    ]


def _knows(path: Path, module: str) -> bool:
    return f".{module} import" in path.read_text(encoding="utf-8")


def named(modules: list[Path]) -> Named:
    """All that `modules` name."""
    keys: set[str] = set()
    patterns: dict[str, re.Pattern[str]] = {}
    tables: set[str] = set()
    for path in modules:
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                keys.add(node.value)
            elif (text := _gapped(node)) and re.search(r"\w\.|\.\w", text):
                made = r"[\w.]+".join(map(re.escape, text.split("\0")))
                patterns[made] = re.compile(made)
            tables.update(_table(node))
    return Named(frozenset(keys), tuple(patterns.values()), tuple(tables))


def _gapped(node: ast.AST) -> str:
    """A text made of parts, each part that is not written out a NUL; empty for other nodes."""
    if isinstance(node, ast.JoinedStr):
        return "".join(map(_part, node.values))
    if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Add):
        return _part(node.left) + _part(node.right)
    return ""


def _part(node: ast.expr) -> str:
    return node.value if isinstance(node, ast.Constant) and isinstance(node.value, str) else "\0"


def _table(node: ast.AST) -> Iterator[str]:
    """`ask` of `sentences()["ask"]`, `caution` of `table("caution")`."""
    name: ast.expr | None = None
    if isinstance(node, ast.Subscript) and _called(node.value) in WHOLE:
        name = node.slice
    elif isinstance(node, ast.Call) and _called(node) in TABLES and node.args:
        name = node.args[0]
    if isinstance(name, ast.Constant) and isinstance(name.value, str):
        yield name.value


def _called(node: ast.expr) -> str:
    """The name of what is called, or of the attribute taken."""
    if isinstance(node, ast.Call):
        node = node.func
    if isinstance(node, ast.Attribute):
        return node.attr
    return node.id if isinstance(node, ast.Name) else ""


def keys_of(file: Path) -> Iterator[str]:
    """The dotted keys of a sentence file; a list is one key."""
    yield from _keys("", tomllib.loads(file.read_text(encoding="utf-8")))


def _keys(above: str, node: Any) -> Iterator[str]:
    if isinstance(node, dict):
        for name, below in node.items():
            yield from _keys(f"{above}.{name}" if above else name, below)
    else:
        yield above


FILES = sorted((ROOT / "assistant").rglob("sentences.toml"))
MODULES = sorted((ROOT / "assistant").rglob("*.py"))


@pytest.mark.parametrize("file", FILES, ids=lambda file: str(file.relative_to(ROOT)))
def test_every_sentence_is_named_by_a_module(file: Path) -> None:
    code, page = named(readers(file.parents[1], MODULES)), named_by_templates(file.parents[1])
    keys = list(keys_of(file))
    assert keys
    assert [key for key in keys if not (code.has(key) or page.has(key))] == []


def test_a_sentence_that_nothing_names_is_found(tmp_path: Path) -> None:
    module = tmp_path / "module.py"
    module.write_text('say("a.one"), say(f"b.{what}"), sentences()["c"][slot], "a.oneself"\n')
    found = named([module])
    assert all(map(found.has, ["a.one", "b.two", "c.three", "c.four.five"]))
    assert not any(map(found.has, ["a.two", "a", "b", "d.one", "bb.two"]))


def test_a_sentence_that_only_a_template_names_is_found(tmp_path: Path) -> None:
    (tmp_path / "page.html.jinja").write_text('{{ say("a.one", x=1) }}{{ say("b." ~ what) }}\n')
    found = named_by_templates(tmp_path)
    assert all(map(found.has, ["a.one", "b.two"]))
    assert not any(map(found.has, ["a.two", "a", "b", "d.one", "bb.two"]))


def test_no_code_is_dead() -> None:
    """What only frameworks call, and what is read by none of ours, is in `[tool.vulture]`."""
    pytest.importorskip("vulture")
    done = subprocess.run(
        [sys.executable, "-m", "vulture"], cwd=ROOT, capture_output=True, text=True, timeout=120
    )
    assert (done.stdout, done.stderr, done.returncode) == ("", "", 0)
