"""What was heard in small letters, and the words just before a place of it."""

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


def lowered(heard: str) -> str:
    """The text in small letters with plain quotes, each character in its place: some letters have
    two small ones."""
    if heard.isascii():
        return heard.lower()
    made = "".join(low if len(low := letter.lower()) == 1 else letter for letter in heard)
    return made.replace("’", "'").replace("‘", "'")
