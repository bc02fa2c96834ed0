"""Words as they come from a keyboard or an ear: the text, and how sure the ear was."""

from __future__ import annotations

from typing import NamedTuple


class Word(NamedTuple):
    """One word heard or typed. `confidence` is 0 to 1, or None for typed text."""

    text: str
    confidence: float | None = None
