"""Sound in, words with doubt out: recordings, microphones and the engines that hear them."""

from __future__ import annotations

from boxaloud.assistant.ears.errors import EarsError
from boxaloud.assistant.ears.hearing import UNKNOWN, Ear, Hearing, Sound
from boxaloud.assistant.ears.wav import read_sound, write_sound

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
    """The ear of this computer, ready to hear.

    Vosk where a model of it was added; else the hearing network where it is installed; else the
    embedded one.

    Raises:
        EarsError: the speech engine or the model that was added is missing or broken.
    """
    from boxaloud.assistant.ears.models import Models

    folder = Models().in_use()
    if folder is not None:
        from boxaloud.assistant.ears.vosk_ear import VoskEar

        return VoskEar(folder)
    from boxaloud.assistant.ears.whisper import model_folder

    folder = model_folder()
    if folder is not None:
        from boxaloud.assistant.ears.whisper.ear import WhisperEar

        return WhisperEar(folder)
    from boxaloud.assistant.ears.sphinx import SphinxEar

    return SphinxEar()
