"""Sound in, words with doubt out: recordings, microphones and the engines that hear them.
Nothing here knows what an act does to a box. An engine gets a folder in `engines`.
A threshold that is touched is measured again with tests/asr/bench_recognition.py.
"""

from __future__ import annotations

from boxaloud.assistant.asr.asr_errors import AsrError
from boxaloud.assistant.asr.asr_types import UNKNOWN, Recogniser, RecognitionResult, Sound
from boxaloud.assistant.asr.audio.wav import read_wav, write_wav
from boxaloud.assistant.asr.ear_choice import default_recogniser

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
