"""Sound in, words with doubt out: recordings, microphones and the engines that hear them."""

from __future__ import annotations

from assistant.ears.errors import EarsError
from assistant.ears.hearing import UNKNOWN, Ear, Hearing, Sound
from assistant.ears.wav import read_sound, write_sound

__all__ = [
    "UNKNOWN",
    "Ear",
    "EarsError",
    "Hearing",
    "Sound",
    "read_sound",
    "the_ear",
    "write_sound",
]


def the_ear() -> Ear:
    """The best ear that this computer has, ready to hear.

    Raises:
        EarsError: the speech engine is missing or broken.
    """
    from assistant.ears.sphinx import SphinxEar

    return SphinxEar()
