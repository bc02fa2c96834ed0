"""The time, in one place."""

from __future__ import annotations

from datetime import UTC, datetime


def now() -> str:
    """UTC now, ISO 8601 to the second."""
    return datetime.now(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")


def stamp() -> str:
    """The same without punctuation, for the name of a file set aside."""
    return now().replace("-", "").replace(":", "")
