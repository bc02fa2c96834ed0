"""A name to be called by: an open microphone that only heeds what follows it.

The embedded engine looks for the one phrase, whichever engine hears the words after it.
"""

from __future__ import annotations

import hashlib
from pathlib import Path

from boxaloud.assistant.asr.asr_types import Sound
from boxaloud.assistant.asr.audio.audio_devices import SAMPLE_RATE
from boxaloud.assistant.asr.audio.levels import normalise_level
from boxaloud.assistant.asr.audio.pause_segmentation import split
from boxaloud.assistant.asr.audio.wav import at_rate
from boxaloud.assistant.asr.lm.lm_cache import ModelCache

WAKE_PHRASE = "listen box aloud"
_PRONUNCIATIONS = "aloud AH L AW D\nbox B AA K S\nlisten L IH S AH N\n"
_STATE = hashlib.sha256(_PRONUNCIATIONS.encode()).hexdigest()[:8]
#: How unlike the phrase a sound may be. Measured by tests/asr/measure_wake_word.py.
KEYWORD_THRESHOLD = 1e-45
#: Frames a second of the engine.
FRAMES_PER_SECOND = 100


class WakeWordDetector:
    """Finds the phrase in an utterance."""

    def __init__(self, threshold: float = KEYWORD_THRESHOLD, cache: Path | None = None) -> None:
        from pocketsphinx import Decoder, get_model_path

        dictionary = ModelCache(cache).file(f"wake/{_STATE}.dict", lambda: _PRONUNCIATIONS)
        self._decoder = Decoder(
            hmm=str(Path(get_model_path()) / "en-us" / "en-us"),
            dict=str(dictionary),
            lm=None,
            keyphrase=WAKE_PHRASE,
            kws_threshold=threshold,
            loglevel="FATAL",
        )

    def after(self, sound: Sound) -> Sound | None:
        """The sound after the phrase, perhaps none at all; None where the phrase is not in it."""
        sound = at_rate(sound, SAMPLE_RATE)
        self._decoder.start_utt()
        self._decoder.process_raw(normalise_level(sound).samples, full_utt=True)
        self._decoder.end_utt()
        if self._decoder.hyp() is None:
            return None
        end = max(part.end_frame for part in self._decoder.seg())
        rest = Sound(sound.samples[int(end / FRAMES_PER_SECOND * SAMPLE_RATE) * 2 :], SAMPLE_RATE)
        return rest if split(rest) else Sound(b"", SAMPLE_RATE)
