"""The data files of the grammar, read once."""

from __future__ import annotations

from functools import cache
from typing import Any

from boxaloud.grammar.package_files import NAMES, digest, text
from boxaloud.grammar.phrases import compiled_cache

__all__ = ["NAMES", "digest", "table", "text"]


@cache
def table(name: str) -> dict[str, Any]:
    """A data file as nested dictionaries: from the compiled grammar, where it is kept."""
    compiled = compiled_cache.kept()
    found: dict[str, Any] = _parsed(name) if compiled is None else compiled.data(f"table {name}")
    return found


def _parsed(name: str) -> dict[str, Any]:
    """A data file as nested dictionaries, from its text."""
    import tomllib  # a compiled grammar saves its import as well

    return tomllib.loads(text(name))
