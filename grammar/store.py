"""The data files of the grammar, read once."""

from __future__ import annotations

import hashlib
import tomllib
from functools import cache, lru_cache
from importlib.resources import files
from typing import Any

#: Every data file, in the order in which the digest takes them.
NAMES = (
    "numbers", "lexicon", "rules", "box", "contents", "control", "doubts", "spoken", "clauses", "patterns", "questions", "social",
)  # fmt: skip


def text(name: str) -> str:
    """The text of a data file."""
    return files("grammar").joinpath(f"data/{name}.toml").read_text(encoding="utf-8")


@cache
def table(name: str) -> dict[str, Any]:
    """A data file as nested dictionaries."""
    return tomllib.loads(text(name))


@lru_cache(maxsize=1)
def digest() -> str:
    """A short name for the exact state of all grammar data, for caches made from it."""
    whole = hashlib.sha256()
    for name in NAMES:
        whole.update(text(name).encode())
    return whole.hexdigest()[:16]
