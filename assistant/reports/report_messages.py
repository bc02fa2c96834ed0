"""The words of a report, from data."""

from __future__ import annotations

from typing import Any

from boxaloud.assistant.text.catalogue import Catalogue

_CATALOGUE = Catalogue("boxaloud.assistant.reports")
say = _CATALOGUE.say


def words() -> dict[str, Any]:
    """The file of words."""
    return _CATALOGUE.tables


def opening(slot: str) -> str:
    """What an open slot is about."""
    names = words()["open"]
    return str(names.get(slot, names["other"]))
