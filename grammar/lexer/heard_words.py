"""Words as they come from a keyboard or an ear: the text, and how sure the ear was."""

from __future__ import annotations

from typing import NamedTuple

#: Stands among the words of an ear for speech of which it could make nothing.
UNHEARD = "[…]"


class Word(NamedTuple):
    """One word heard or typed. `confidence` is 0 to 1, or None for typed text."""

    text: str
    confidence: float | None = None
