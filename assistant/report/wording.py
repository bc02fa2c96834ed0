"""The words of a report, from data."""

from __future__ import annotations

import tomllib
from functools import lru_cache
from importlib.resources import files
from typing import Any


@lru_cache(maxsize=1)
def words() -> dict[str, Any]:
    """The file of words, read once."""
    path = files("boxaloud.assistant.report") / "data" / "words.toml"
    return tomllib.loads(path.read_text(encoding="utf-8"))


def say(key: str, **values: object) -> str:
    """The words under `section.name`, filled in. KeyError where there are none."""
    section, name = key.split(".")
    text = words()[section][name]
    assert isinstance(text, str), key
    return text.format_map(values) if values else text


def opening(slot: str) -> str:
    """What an open slot is about."""
    names = words()["open"]
    return str(names.get(slot, names["other"]))
