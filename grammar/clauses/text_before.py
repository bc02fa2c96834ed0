"""The words just before a place of what was heard."""

from __future__ import annotations

_REACH = 160
"""Characters: further back than any words that say something of what stands at the place."""


def just_before(heard: str, place: int) -> str:
    """What stands before a place, whole words and only so many of them: each thing of a long
    utterance is looked at without reading all that stands before it once more."""
    if place <= _REACH:
        return heard[:place]
    start = heard.find(" ", place - _REACH, place)
    return heard[start if start >= 0 else place - _REACH : place]
