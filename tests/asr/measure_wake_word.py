"""How surely the wake phrase is found, and how often where it was not said. Run by hand.

    python tests/asr/measure_wake_word.py

Needs the Debian packages flite, festival and festvox-us-slt-hts. The false ones are looked for in
every recording of audio_fixtures/, about boxes or not.
"""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np

ROOT = Path(__file__).parents[2]
sys.path.insert(0, str(ROOT / "audio_fixtures"))

from boxaloud.assistant.asr.asr_types import Sound  # noqa: E402
from boxaloud.assistant.asr.audio.wav import RATE, read_wav  # noqa: E402
from boxaloud.assistant.asr.wake_word import WAKE_PHRASE, WakeWordDetector  # noqa: E402
from make_recordings import SPEAKERS, speak  # noqa: E402

AFTER = ("", ", two fourteen two cables", ", no clamps inside", ", what is the total")
THRESHOLDS = (1e-10, 1e-20, 1e-30, 1e-45)


def noisy(sound: Sound, decibels: float | None) -> Sound:
    """The sound with quiet around it, and with pink noise."""
    samples = np.frombuffer(sound.samples, "<i2").astype(float)
    speech = samples[np.abs(samples) > 300].std()
    samples = np.pad(samples, 6400)
    chance = np.random.default_rng(len(samples))
    spectrum = np.fft.rfft(chance.normal(0, 1, len(samples)))
    pink = np.fft.irfft(spectrum / np.sqrt(np.arange(len(spectrum)) + 1), len(samples))
    loud = 12.0 if decibels is None else speech / 10 ** (decibels / 20)
    mixed = np.clip(samples + pink / pink.std() * loud, -32768, 32767)
    return Sound(mixed.astype("<i2").tobytes(), RATE)


def main() -> None:
    """Print a line for each threshold and noise."""
    said = [speak(WAKE_PHRASE + rest, voice) for voice in SPEAKERS for rest in AFTER]
    other = [read_wav(path) for path in sorted((ROOT / "audio_fixtures").rglob("*.wav"))]
    for threshold in THRESHOLDS:
        wake = WakeWordDetector(threshold)
        for level in (None, 15, 10):
            found = sum(wake.after(noisy(sound, level)) is not None for sound in said)
            false = sum(wake.after(noisy(sound, level)) is not None for sound in other)
            sys.stdout.write(
                f"threshold {threshold:.0e}, {level} dB: {found} of {len(said)} found, "
                f"false {false} of {len(other)}\n"
            )
            sys.stdout.flush()


if __name__ == "__main__":
    main()
