"""The sentences of this room, from data."""

from __future__ import annotations

import tomllib
from functools import lru_cache
from importlib.resources import files
from typing import Any


@lru_cache(maxsize=1)
def _sentences() -> dict[str, Any]:
    path = files("boxaloud.assistant.mouth") / "data" / "sentences.toml"
    return tomllib.loads(path.read_text(encoding="utf-8"))


def say(key: str, **values: object) -> str:
    """The sentence `key` ("section.name"), filled in. KeyError where there is none."""
    section, name = key.split(".")
    text = _sentences()[section][name]
    assert isinstance(text, str), key
    return text.format_map(values) if values else text
