"""A name to be called by: an open microphone that only heeds what follows it.

The embedded engine looks for the one phrase, whichever engine hears the words after it.
"""

from __future__ import annotations

import hashlib
from pathlib import Path

from boxaloud.assistant.ears.cache import Cache
from boxaloud.assistant.ears.devices import RATE
from boxaloud.assistant.ears.hearing import Sound
from boxaloud.assistant.ears.level import levelled
from boxaloud.assistant.ears.split import split
from boxaloud.assistant.ears.wav import at_rate

PHRASE = "listen box aloud"
_PRONUNCIATIONS = "aloud AH L AW D\nbox B AA K S\nlisten L IH S AH N\n"
_STATE = hashlib.sha256(_PRONUNCIATIONS.encode()).hexdigest()[:8]
#: How unlike the phrase a sound may be. Measured by tests/ears/measure_wake.py.
THRESHOLD = 1e-45
#: Frames a second of the engine.
FRAMES = 100


class WakePhrase:
    """Finds the phrase in an utterance."""

    def __init__(self, threshold: float = THRESHOLD, cache: Path | None = None) -> None:
        from pocketsphinx import Decoder, get_model_path

        dictionary = Cache(cache).file(f"wake/{_STATE}.dict", lambda: _PRONUNCIATIONS)
        self._decoder = Decoder(
            hmm=str(Path(get_model_path()) / "en-us" / "en-us"),
            dict=str(dictionary),
            lm=None,
            keyphrase=PHRASE,
            kws_threshold=threshold,
            loglevel="FATAL",
        )

    def after(self, sound: Sound) -> Sound | None:
        """The sound after the phrase, perhaps none at all; None where the phrase is not in it."""
        sound = at_rate(sound, RATE)
        self._decoder.start_utt()
        self._decoder.process_raw(levelled(sound).samples, full_utt=True)
        self._decoder.end_utt()
        if self._decoder.hyp() is None:
            return None
        end = max(part.end_frame for part in self._decoder.seg())
        rest = Sound(sound.samples[int(end / FRAMES * RATE) * 2 :], RATE)
        return rest if split(rest) else Sound(b"", RATE)
