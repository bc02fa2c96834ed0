"""The engine as one archive: the modules that a page on a phone imports, and their data.

The rooms where words are understood and boxes counted go whole. Of the other rooms only what is
reached from the page's entry goes, followed through the imports as they are written.
"""

from __future__ import annotations

import ast
import io
import re
import zipfile
from collections.abc import Iterator
from importlib.metadata import files as installed
from importlib.resources import files
from importlib.resources.abc import Traversable

ENTRY = "boxaloud.assistant.web.pocket_entry"
WHOLE = ("rules", "grammar", "assistant/dialogue", "assistant/text")
DATA = (".toml", ".sql", "relevance.txt")
UNFOLLOWED = ("assistant/asr/ear_choice.py",)
"""What chooses among ears that a phone has not: it goes, and not what it imports."""
ELSEWHERE = "assistant/web/data/runtime.toml"
"""Data that only the building needs."""
LIBRARY = "rapidfuzz"
"""The one library that the engine imports, whose modules have a form in plain Python."""
_ROWS = re.compile(r"grammar/data/rewrites_\w+\.toml")
#: Examples, counterexamples and reasons of a row, each on a line, and lines of comment.
_ONLY_READ = re.compile(rb"(?m)^(?:(?:example|not) = \[.*\]|why = \".*\"|#.*)\n")
_WHEN = (2020, 1, 1, 0, 0, 0)
"""Every file's date, so that the same files are the same archive."""


def engine_archive() -> bytes:
    """A ZIP archive of Python sources and data."""
    held = dict(sorted({**_ours(), **dict(_library())}.items()))
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, raw in held.items():
            archive.writestr(zipfile.ZipInfo(name, _WHEN), raw, zipfile.ZIP_DEFLATED, 9)
    return out.getvalue()


def _ours() -> dict[str, bytes]:
    root = files("boxaloud")
    every = {path: each for path, each in _walk(root, "")}
    modules = {path for path in every if path.endswith(".py")}
    taken = {path for path in modules if path.startswith(WHOLE)}
    waiting = sorted({*taken, _path(ENTRY, modules)})
    taken |= set(waiting)
    while waiting:
        path = waiting.pop()
        if path in UNFOLLOWED:
            continue
        for needed in _imported(every[path].read_text("utf-8"), modules) - taken:
            taken.add(needed)
            waiting.append(needed)
    folders = {path.rpartition("/")[0] for path in taken}
    data = {
        path
        for path in every
        if path.endswith(DATA) and path != ELSEWHERE and path.rpartition("/")[0] in
        {*folders, *(f"{folder}/data" for folder in folders),
         *(f"{folder}/migrations" for folder in folders)}
    }  # fmt: skip
    return {f"boxaloud/{path}": _lean(path, every[path]) for path in (*taken, *data)}


def _lean(path: str, file: Traversable) -> bytes:
    """A file without what only tests and readers need of it, so that a phone takes in less."""
    raw = file.read_bytes()
    return _ONLY_READ.sub(b"", raw) if _ROWS.fullmatch(path) else raw


def _walk(folder: Traversable, before: str) -> Iterator[tuple[str, Traversable]]:
    for each in folder.iterdir():
        path = f"{before}{each.name}"
        if each.is_dir():
            if each.name != "__pycache__":
                yield from _walk(each, f"{path}/")
        else:
            yield path, each


def _path(module: str, modules: set[str]) -> str:
    """The file of a module or package of ours; empty for what is none."""
    path = module.removeprefix("boxaloud").removeprefix(".").replace(".", "/")
    for found in (f"{path}.py", f"{path}/__init__.py".removeprefix("/")):
        if found in modules:
            return found
    return ""


def _imported(source: str, modules: set[str]) -> set[str]:
    """The files of what a module imports, inside functions too, and of the packages around it."""
    names: set[str] = set()
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            names |= {node.module, *(f"{node.module}.{alias.name}" for alias in node.names)}
    ours = {name for name in names if name == "boxaloud" or name.startswith("boxaloud.")}
    steps = {
        ".".join(parts[:length])
        for parts in (name.split(".") for name in ours)
        for length in range(1, len(parts) + 1)
    }
    return {path for step in steps if (path := _path(step, modules))}


def _library() -> Iterator[tuple[str, bytes]]:
    """The plain Python of the library, with its licence."""
    for each in installed(LIBRARY) or ():
        name = each.as_posix()
        plain = name.endswith(".py") and "__pyinstaller" not in name
        if (plain and name.startswith(f"{LIBRARY}/")) or "licen" in name.lower():
            yield name, each.locate().read_bytes()  # type: ignore[attr-defined]
