"""Learn how loud the upper half of a voice is from its lower half: data/upper_band.toml.

    python tests/asr/fit_bandwidth_extension.py

By least squares over every frame of every recording in audio_fixtures/; prints the share of the
variation that each upper band's rule explains.
"""

from __future__ import annotations

import sys
from pathlib import Path

import numpy as np
from boxaloud.assistant.asr.audio.wav import read_wav
from boxaloud.assistant.asr.frontend.bandwidth_extension import (
    EXTENSION_BAND,
    LOG_POWER_FLOOR,
    band_log_power,
    narrowband_log_power,
    spectra,
)

ROOT = Path(__file__).parents[2]
OUT = ROOT / "assistant" / "asr" / "data" / "upper_band.toml"
ABOUT = """\
# How loud each band above 3.9 kHz is, from the twelve below and a constant (natural logarithms of
# power). Made from audio_fixtures/ by tests/asr/fit_bandwidth_extension.py; not to be written by
# hand.
"""


def main() -> None:
    known, wanted = [], []
    for path in sorted((ROOT / "audio_fixtures").rglob("*.wav")):
        found = spectra(np.frombuffer(read_wav(path).samples, "<i2") / 32768)
        levels, loudest = narrowband_log_power(found)
        known.append(np.hstack([levels, np.ones((len(levels), 1))]))
        wanted.append(np.maximum(band_log_power(found, EXTENSION_BAND) - loudest, LOG_POWER_FLOOR))
    lower, upper = np.vstack(known), np.vstack(wanted)
    rule = np.linalg.lstsq(lower, upper, rcond=None)[0]
    left = ((upper - lower @ rule) ** 2).mean(axis=0) / upper.var(axis=0)
    sys.stdout.write(f"explained, band by band: {np.round(1 - left, 2).tolist()}\n")
    rows = ",\n".join(f"  {np.round(row, 4).tolist()}" for row in rule.T)
    OUT.write_text(f"{ABOUT}rule = [\n{rows},\n]\n", encoding="utf-8")


if __name__ == "__main__":
    main()
