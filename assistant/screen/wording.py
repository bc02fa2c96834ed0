"""The sentences and labels of the screen, from data."""

from __future__ import annotations

import tomllib
from functools import cache
from importlib.resources import files
from typing import Any


@cache
def table(name: str) -> dict[str, Any]:
    """A data file of this room, read once."""
    path = files("boxaloud.assistant.screen") / "data" / f"{name}.toml"
    return tomllib.loads(path.read_text(encoding="utf-8"))


def text(key: str, **values: object) -> str:
    """The sentence under a dotted key, filled in. Raises KeyError where there is none."""
    found: Any = table("sentences")
    for step in key.split("."):
        found = found[step]
    assert isinstance(found, str), key
    return found.format_map(values) if values else found


def texts(key: str) -> dict[str, Any]:
    """A table of sentences, in the order of the file."""
    found: dict[str, Any] = table("sentences")
    for step in key.split("."):
        found = found[step]
    return found
