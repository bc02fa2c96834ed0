"""Sound in, words with doubt out: recordings, microphones and the engines that hear them.
Nothing here knows what an act does to a box. An engine gets a folder in `engines`.
A threshold that is touched is measured again with tests/asr/bench_recognition.py.
"""

from __future__ import annotations

from boxaloud.assistant.asr.asr_errors import AsrError
from boxaloud.assistant.asr.asr_types import UNKNOWN, Recogniser, RecognitionResult, Sound
from boxaloud.assistant.asr.audio.wav import read_wav, write_wav

__all__ = [
    "UNKNOWN",
    "AsrError",
    "Recogniser",
    "RecognitionResult",
    "Sound",
    "default_recogniser",
    "read_wav",
    "write_wav",
]


def default_recogniser() -> Recogniser:
    """The ear of this computer, ready to hear.

    Vosk where a model of it was added; else the hearing network where it is installed; else the
    embedded one.

    Raises:
        EarsError: the speech engine or the model that was added is missing or broken.
    """
    from boxaloud.assistant.asr.engines.vosk.model_registry import VoskModelRegistry

    folder = VoskModelRegistry().in_use()
    if folder is not None:
        from boxaloud.assistant.asr.engines.vosk.vosk_recogniser import VoskRecogniser

        return VoskRecogniser(folder)
    from boxaloud.assistant.asr.engines.whisper import model_folder

    folder = model_folder()
    if folder is not None:
        from boxaloud.assistant.asr.engines.whisper.whisper_recogniser import WhisperRecogniser

        return WhisperRecogniser(folder)
    from boxaloud.assistant.asr.engines.pocketsphinx.pocketsphinx_recogniser import (
        PocketsphinxRecogniser,
    )

    return PocketsphinxRecogniser()
