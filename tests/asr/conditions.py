"""What can be wrong with a sound besides the noises that the ears were measured with: for the
benchmark alone. Every condition is a function of a sound and a seed; the same seed, the same sound.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence

import numpy as np
from boxaloud.assistant.asr.asr_types import Sound
from numpy.typing import NDArray
from site_noise import loud, values

RATE = 16000
#: Seconds of room before and after what is said.
AROUND = 0.4
ROOM = 12.0

Samples = NDArray[np.float64]
Condition = Callable[[Sound, int], Sound]


def saw(length: int, dice: np.random.Generator) -> Samples:
    """A blade that takes hold and lets go: a whine that sinks and rises, and its teeth."""
    time = np.arange(length) / RATE
    load = 0.5 + 0.5 * np.sin(2 * np.pi * dice.uniform(0.2, 0.5) * time + dice.uniform(0, 6))
    turns = 2 * np.pi * np.cumsum(dice.uniform(300, 600) * (1 - 0.3 * load)) / RATE
    whine = sum(np.sin(part * turns) / part for part in (1, 2, 3, 5, 7))
    return np.asarray(whine + load * dice.normal(0, 1.5, length))


def rain(length: int, dice: np.random.Generator) -> Samples:
    """Drops on a roof of sheet metal."""
    wave = np.zeros(length)
    ring = np.exp(-np.arange(160) / 25) * np.sin(np.arange(160) * 1.9)
    for at in dice.integers(0, max(1, length - 160), length // 90):
        wave[at : at + 160] += dice.exponential(1.0) * ring
    return wave + 0.1 * dice.normal(0, 1, length)


def generator(length: int, dice: np.random.Generator) -> Samples:
    """A small engine: bangs of four strokes at an uneven pace, and its silencer."""
    period = RATE / dice.uniform(22, 30)
    wave, at = np.zeros(length + RATE), 0.0
    bang = np.exp(-np.arange(900) / 160) * np.sin(np.cumsum(np.linspace(0.2, 0.03, 900)))
    while at < length:
        wave[int(at) : int(at) + 900] += dice.uniform(0.6, 1.2) * bang
        at += period * dice.uniform(0.93, 1.07)
    return wave[:length] + 0.05 * dice.normal(0, 1, length)


def music(length: int, dice: np.random.Generator) -> Samples:
    """A radio that plays chords, plucked."""
    wave = np.zeros(length + 2 * RATE)
    for at in range(0, length, RATE // 3):
        root = 110 * 2 ** (dice.integers(0, 12) / 12)
        time = np.arange(RATE) / RATE
        for ratio in (1, 5 / 4, 3 / 2, 2):
            wave[at : at + RATE] += np.sin(2 * np.pi * root * ratio * time) * np.exp(-3 * time)
    return wave[:length]


NOISES = (saw, rain, generator, music)


def in_room(sound: Sound, seed: int) -> Samples:
    """What is said with a quiet room around and under it."""
    around = np.zeros(int(AROUND * RATE))
    said = np.concatenate([around, values(sound), around])
    return said + np.random.default_rng(seed).normal(0, ROOM, len(said))


def clean(sound: Sound, seed: int) -> Sound:
    """A quiet room."""
    return _sound(in_room(sound, seed))


def noise(decibels: float) -> Condition:
    """One of the noises, so many decibels under the words."""

    def made(sound: Sound, seed: int) -> Sound:
        said, dice = in_room(sound, seed), np.random.default_rng(seed)
        wave = NOISES[seed % len(NOISES)](len(said), dice)
        level = loud(said) / 10 ** (decibels / 20) / np.sqrt((wave**2).mean())
        return _sound(said + level * wave)

    return made


def talker(decibels: float, others: Sequence[Sound]) -> Condition:
    """Somebody else who goes on talking, so many decibels under the words: a television."""

    def made(sound: Sound, seed: int) -> Sound:
        said, dice = in_room(sound, seed), np.random.default_rng(seed)
        order = dice.permutation(len(others))
        stream = np.concatenate([values(others[at]) for at in order])
        stream = np.roll(np.resize(stream, len(said) + RATE), dice.integers(0, RATE))[: len(said)]
        return _sound(said + stream * loud(said) / loud(stream) / 10 ** (decibels / 20))

    return made


def reverberant(sound: Sound, seed: int) -> Sound:
    """An empty room of half a second's reverberation."""
    return _sound(_echoed(in_room(sound, seed), 0.5, 3.0, seed))


def far(sound: Sound, seed: int) -> Sound:
    """Four metres away: more of the room than of the voice, softly."""
    said = _echoed(in_room(sound, seed), 0.4, -3.0, seed)
    return _sound(said * 0.15 + np.random.default_rng(seed).normal(0, ROOM, len(said)))


def telephone(sound: Sound, seed: int) -> Sound:
    """300 to 3400 Hz, in the 256 steps of ITU-T G.711 (mu-law)."""
    said = in_room(sound, seed)
    spectrum = np.fft.rfft(said)
    hertz = np.fft.rfftfreq(len(said), 1 / RATE)
    spectrum[(hertz < 300) | (hertz > 3400)] = 0
    part = np.fft.irfft(spectrum, len(said)) / 32768
    bent = np.sign(part) * np.log1p(255 * np.abs(part)) / np.log(256)
    bent = np.rint(bent * 127) / 127
    return _sound(32768 * np.sign(bent) * (256 ** np.abs(bent) - 1) / 255)


def clipped(sound: Sound, seed: int) -> Sound:
    """Overdriven by a recorder: the loudest quarter of the range is cut off four times over."""
    said = in_room(sound, seed)
    limit = float(np.abs(said).max()) / 4
    return _sound(said.clip(-limit, limit) * 3.5)


def packet_loss(sound: Sound, seed: int) -> Sound:
    """One packet of 20 ms in twelve is lost, at times two in a row."""
    said, dice = in_room(sound, seed), np.random.default_rng(seed)
    for start in range(0, len(said), RATE // 50):
        if dice.random() < 1 / 12:
            said[start : start + RATE // 50 * dice.integers(1, 3)] = 0
    return _sound(said)


def _echoed(said: Samples, seconds: float, direct_db: float, seed: int) -> Samples:
    """In a room whose echo falls by 60 dB in so many seconds, `direct_db` under the voice."""
    dice = np.random.default_rng(seed)
    time = np.arange(int(seconds * RATE)) / RATE
    echo = dice.normal(0, 1, len(time)) * 10 ** (-3 * time / seconds)
    echo[: RATE // 200] = 0
    echo *= 10 ** (-direct_db / 20) / np.sqrt((echo**2).sum())
    echo[0] = 1.0
    length = len(said) + len(echo)
    whole = np.fft.irfft(np.fft.rfft(said, length) * np.fft.rfft(echo, length), length)
    return whole[: len(said)]


def _sound(samples: Samples) -> Sound:
    peak = max(1.0, float(np.abs(samples).max(initial=0.0)))
    return Sound(np.rint(samples * min(1.0, 32000 / peak)).astype("<i2").tobytes(), RATE)
