"""The files of the grammar as they lie in the package, and short names for their state."""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from functools import lru_cache
from typing import Any

#: Every data file, in the order in which the digest takes them.
NAMES = (
    "numbers", "lexicon", "rules", "box", "contents", "control", "doubts", "spoken", "clauses",
    "patterns", "questions", "social", "enclosures", "whereabouts", "coming_in",
    "withdrawals",
    "rewrites", "rewrites_called", "rewrites_remarks", "rewrites_layout", "rewrites_orders",
    "rewrites_trade", "rewrites_asides", "rewrites_names", "rewrites_dictated", "rewrites_frames",
    "rewrites_takeoff", "paraphrases",
)  # fmt: skip
#: The modules that decide what the compiled grammar is, given the data.
COMPILING = (
    "compilation", "phrases/template", "phrases/compiled_form",
    "patterns/pattern_requirements", "patterns/patterns", "phrases/phrase_files",
    "phrases/positions", "utterance/whereabouts_rows", "rewriting/fragments",
    "rewriting/rule_requirements", "utterance/withdrawal_forms",
    "utterance/coming_in_frames",
)  # fmt: skip


def content(name: str) -> bytes:
    """A file of the package, by its path below `grammar`. Raises OSError where there is none.

    The loader of this module reads it, so that a package inside an archive is read as well.
    """
    loader: Any = globals()["__loader__"]
    path = os.path.join(os.path.dirname(__file__), *name.split("/"))
    return bytes(loader.get_data(path))


def text(name: str) -> str:
    """The text of a data file."""
    return content(f"data/{name}.toml").decode().replace("\r\n", "\n")


#: Beside a compiled grammar whose data files are left out: their digest and the fingerprint, a line
#: each.
STATE = "compiled.state"


@lru_cache(maxsize=1)
def digest() -> str:
    """A short name for the exact state of all grammar data, for caches made from it."""
    return _hashed(*_data()) if _holds_data() else _left_state()[0]


@lru_cache(maxsize=1)
def fingerprint() -> str:
    """The state of the files when this process first asked for it."""
    return state()


def state() -> str:
    """A short name for all that the compiled grammar depends on, as the files are now.

    That is the data, the modules that compile it, and the order of bytes on this machine.
    """
    if not _holds_data():
        return _left_state()[1]
    return _hashed(sys.byteorder.encode(), *_data(), *map(_source, COMPILING))


def _holds_data() -> bool:
    """Whether the data files lie in the package: they are left out where they lie compiled."""
    try:
        content(f"data/{NAMES[0]}.toml")
    except OSError:
        return False
    return True


def _left_state() -> list[str]:
    return content(STATE).decode().split()


def _data() -> Iterator[bytes]:
    return (text(name).encode() for name in NAMES)


def _source(module: str) -> bytes:
    """The source of a module; nothing where the package was installed without sources."""
    try:
        return content(f"{module}.py")
    except OSError:
        return b""


def _hashed(*parts: bytes) -> str:
    import hashlib

    whole = hashlib.sha256()
    for part in parts:
        whole.update(part)
    return whole.hexdigest()[:16]
