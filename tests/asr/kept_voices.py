"""Speakers that a training run spoke with and never trained on, for fitting: `collect.py` of
`training/` writes the file. Nothing that is measured in a benchmark is said by them."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

import numpy as np
from boxaloud.assistant.asr.asr_types import Sound

RATE = 16000
#: Quiet before and after what is said, in samples.
AROUND = 4800


@dataclass(frozen=True, slots=True)
class KeptUtterance:
    """What a speaker says."""

    text: str
    speaker: str
    sound: Sound


@lru_cache(maxsize=1)
def kept_utterances(path: Path) -> tuple[KeptUtterance, ...]:
    """All of a file's, in its order. The file is one of numpy's: `sound` (samples, int16, 16 kHz),
    `lengths` in samples, `texts` and `speakers`, each an utterance a row."""
    with np.load(path) as kept:
        ends = np.cumsum(kept["lengths"])
        parts = np.split(kept["sound"], ends[:-1])
        rows = list(zip(kept["texts"], kept["speakers"], parts, strict=True))
    quiet = np.zeros(AROUND, np.int16)
    return tuple(
        KeptUtterance(
            str(text), str(speaker), Sound(np.concatenate([quiet, part, quiet]).tobytes(), RATE)
        )
        for text, speaker, part in rows
    )
