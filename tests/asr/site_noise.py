"""The noise of a building site, made from arithmetic and from voices: hum, hiss, hammer, babble."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from boxaloud.assistant.asr.asr_types import Sound
from numpy.typing import NDArray

RATE = 16000
KINDS = ("hum", "hiss", "hammer", "babble")
#: Seconds of the site alone before and after what is said.
AROUND = 0.4

Samples = NDArray[np.float64]


def hum(length: int, chance: np.random.Generator) -> Samples:
    """A motor: the mains' second harmonic and those above it, unsteady, and its air."""
    time = np.arange(length) / RATE
    wobble = 1 + 0.01 * np.sin(2 * np.pi * 0.7 * time)
    tones = sum(
        np.sin(2 * np.pi * 120 * part * time * wobble + chance.uniform(0, 6)) / part
        for part in range(1, 9)
    )
    return np.asarray(tones / np.std(tones) + 0.4 * hiss(length, chance))


def hiss(length: int, chance: np.random.Generator) -> Samples:
    """Pink noise: air, rain, a compressor far away."""
    spectrum = np.fft.rfft(chance.normal(0, 1, length))
    pink = np.fft.irfft(spectrum / np.sqrt(np.arange(len(spectrum)) + 1), length)
    return np.asarray(pink / pink.std())


def hammer(length: int, chance: np.random.Generator) -> Samples:
    """Blows on wood, two or three a second, ringing for a twentieth of one, over some hiss."""
    wave = 0.15 * hiss(length, chance)
    at = chance.uniform(0, 0.3)
    while at * RATE < length:
        start = int(at * RATE)
        ring = np.arange(min(RATE // 5, length - start)) / RATE
        body = np.sin(2 * np.pi * chance.uniform(300, 900) * ring) + chance.normal(0, 1, len(ring))
        wave[start : start + len(ring)] += chance.uniform(2, 4) * body * np.exp(-ring / 0.03)
        at += chance.uniform(0.3, 0.55)
    return wave


def babble(length: int, chance: np.random.Generator, talk: Sequence[Sound]) -> Samples:
    """Four other people talking at once, about other things."""
    whole = np.zeros(length)
    for _ in range(4):
        stream = np.concatenate(
            [values(talk[at]) for at in chance.choice(len(talk), size=6, replace=False)]
        )
        whole += np.roll(np.resize(stream, length), chance.integers(0, length))
    return whole


def values(sound: Sound) -> Samples:
    return np.frombuffer(sound.samples, "<i2").astype(np.float64)


def loud(samples: Samples) -> float:
    """Root mean square of the frames in which something is to be heard."""
    frames = samples[: len(samples) // 320 * 320].reshape(-1, 320)
    power = (frames**2).mean(axis=1)
    return float(np.sqrt(power[power > power.max(initial=0.0) / 1000].mean()))


def noise(kind: str, length: int, seed: int, talk: Sequence[Sound] = ()) -> Samples:
    """Noise of one kind at a root mean square of 1, the same for the same seed."""
    chance = np.random.default_rng(seed)
    made = (
        babble(length, chance, talk)
        if kind == "babble"
        else {"hum": hum, "hiss": hiss, "hammer": hammer}[kind](length, chance)
    )
    return np.asarray(made / np.sqrt((made**2).mean()))


def in_noise(
    sound: Sound, kind: str, decibels: float | None, seed: int = 1, talk: Sequence[Sound] = ()
) -> Sound:
    """What is said, on a site so many decibels softer; None for a quiet room."""
    around = np.zeros(int(AROUND * RATE))
    said = np.concatenate([around, values(sound), around])
    if decibels is None:
        mixed = said + np.random.default_rng(seed).normal(0, 12, len(said))
    else:
        level = loud(said) / 10 ** (decibels / 20)
        mixed = said + level * noise(kind, len(said), seed, talk)
    peak = float(np.abs(mixed).max())
    mixed *= min(1.0, 32000 / peak) if peak else 1.0
    return Sound(np.rint(mixed).astype("<i2").tobytes(), RATE)


def alone(kind: str, seconds: float, seed: int, talk: Sequence[Sound] = ()) -> Sound:
    """Noise and nobody speaking into the microphone."""
    made = 2500 * noise(kind, int(seconds * RATE), seed, talk)
    return Sound(made.clip(-32768, 32767).astype("<i2").tobytes(), RATE)
