"""The sentences about jobs, from data."""

from __future__ import annotations

from boxaloud.assistant.text.catalogue import Catalogue

_CATALOGUE = Catalogue("boxaloud.assistant.storage")
say = _CATALOGUE.say


def how_many(count: int, noun: str) -> str:
    """A count with its noun in figures: "1 box", "12 boxes", "3 statements"."""
    if count == 1:
        return f"1 {noun}"
    return f"{count} {noun}{'es' if noun.endswith('x') else 's'}"
