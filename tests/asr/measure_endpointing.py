"""Where live statements begin and end, over recordings with room and site noise. Run by hand.

    python tests/asr/measure_endpointing.py [FOLDER]

Prints, for each noise and each strictness of the detector: recordings of one utterance that were
taken as exactly one statement, the median delay from the true end of speech to the end of the
statement (which holds the wait of 0.5 s), and statements begun in noise alone, per minute.
"""

from __future__ import annotations

import statistics
import sys
from collections.abc import Iterator
from pathlib import Path

import numpy as np
from boxaloud.assistant.asr.asr_types import Sound
from boxaloud.assistant.asr.audio.audio_devices import SAMPLE_RATE
from boxaloud.assistant.asr.audio.recorded_device import RecordedDevice
from boxaloud.assistant.asr.audio.wav import read_wav
from boxaloud.assistant.asr.endpointer import Endpointer, EndpointEvent
from boxaloud.assistant.asr.vad import VoiceActivityDetector

FIXTURES = Path(__file__).parents[2] / "audio_fixtures"
#: Seconds of the room before each recording.
BEFORE = 1.5
LEVELS = (None, 20, 15, 10)


def noise(kind: str, length: int, seed: int) -> np.ndarray:
    chance = np.random.default_rng(seed)
    if kind == "hiss":
        return chance.normal(0, 1, length)
    spectrum = np.fft.rfft(chance.normal(0, 1, length))
    pink = np.fft.irfft(spectrum / np.sqrt(np.maximum(np.arange(len(spectrum)), 1)), length)
    if kind == "pink":
        return np.asarray(pink / pink.std())
    time = np.arange(length) / SAMPLE_RATE
    hum = sum(np.sin(2 * np.pi * 120 * part * time) / part for part in (1, 2, 3, 5))
    return np.asarray(hum / np.std(hum) + 0.3 * pink / pink.std())


def mixed(sound: Sound, kind: str, decibels: float | None, before: float = BEFORE) -> Sound:
    samples = np.frombuffer(sound.samples, "<i2").astype(float)
    quiet = np.zeros(int(before * SAMPLE_RATE))
    samples = np.concatenate([quiet, samples, np.zeros(2 * SAMPLE_RATE)])
    if decibels is None:
        samples = samples + np.random.default_rng(1).normal(0, 12, len(samples))
    else:
        speech = samples[np.abs(samples) > 300].std()
        samples = samples + noise(kind, len(samples), len(samples)) * speech / 10 ** (decibels / 20)
    return Sound(np.clip(samples, -32768, 32767).astype("<i2").tobytes(), SAMPLE_RATE)


def statements(sound: Sound, strictness: int) -> Iterator[tuple[float, float]]:
    listening = Endpointer(VoiceActivityDetector(strictness), "open")
    began = 0.0
    for frame in RecordedDevice([sound]).frames():
        for event in listening.frame(frame):
            if event is EndpointEvent.BEGAN:
                began = frame.now
            if event is EndpointEvent.PAUSED and EndpointEvent.ENDED in listening.judge(True):
                yield began, frame.now
            if event is EndpointEvent.ENDED:
                yield began, frame.now


def main(folder: Path) -> None:
    paths = [path for path in sorted(folder.glob("*.wav")) if "__then__" not in path.name]
    sounds = [read_wav(path) for path in paths[::2]]
    ends = [BEFORE + _end(sound) / SAMPLE_RATE for sound in sounds]
    for strictness in (1, 2, 3):
        for kind in ("hiss", "pink", "hum"):
            for level in LEVELS:
                if level is None and kind != "hiss":
                    continue
                report(sounds, ends, strictness, kind, level)


def _end(sound: Sound) -> int:
    samples = np.abs(np.frombuffer(sound.samples, "<i2"))
    return int(np.nonzero(samples > 250)[0][-1])


def report(
    sounds: list[Sound], ends: list[float], strictness: int, kind: str, level: float | None
) -> None:
    whole, delays, false = 0, [], 0
    for sound, end in zip(sounds, ends, strict=True):
        found = list(statements(mixed(sound, kind, level), strictness))
        if len(found) == 1:
            whole += 1
            delays.append(found[0][1] - end)
    if level is not None:
        samples = noise(kind, 60 * SAMPLE_RATE, 9) * 3000 / 10 ** (level / 20)
        alone = Sound(samples.astype("<i2").tobytes(), SAMPLE_RATE)
        false = len(list(statements(alone, strictness)))
    middle = statistics.median(delays) if delays else float("nan")
    sys.stdout.write(
        f"strictness {strictness}, {kind} {level} dB: {whole}/{len(sounds)} whole, "
        f"end after {middle:.2f} s, in noise alone {false} a minute\n"
    )


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else FIXTURES)
