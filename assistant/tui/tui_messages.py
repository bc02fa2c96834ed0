"""The sentences and labels of the screen, from data."""

from __future__ import annotations

from functools import cache
from typing import Any

from boxaloud.assistant.text.catalogue import Catalogue

_CATALOGUE = Catalogue("boxaloud.assistant.tui")
text = _CATALOGUE.say


@cache
def table(name: str) -> dict[str, Any]:
    """A data file of this room, read once."""
    return Catalogue("boxaloud.assistant.tui", f"data/{name}.toml").tables


def texts(key: str) -> dict[str, Any]:
    """A table of sentences, in the order of the file."""
    found: dict[str, Any] = _CATALOGUE.table(key)
    return found
