"""The recordings of audio_fixtures and what their names say is in them."""

from __future__ import annotations

import sys
from collections.abc import Iterable
from pathlib import Path

import numpy as np
from boxaloud.assistant.asr.asr_types import Recogniser, RecognitionResult, Sound
from boxaloud.assistant.asr.audio.wav import read_wav
from boxaloud.assistant.asr.hypotheses.meaning_representation import meaning

FOLDER = Path(__file__).parents[2] / "audio_fixtures"
sys.path.insert(0, str(FOLDER))

from make_recordings import Recording, wanted  # noqa: E402

ALL = sorted(FOLDER.rglob("*.wav"))
ABOUT_BOXES = [path for path in ALL if Recording.named(path).about_boxes]
OTHER_TALK = [path for path in ALL if not Recording.named(path).about_boxes]
VOICES = {Recording.named(path).voice for path in ALL}


def said_in(path: Path) -> tuple[str, ...]:
    """The utterances that a recording's name says are in it."""
    return Recording.named(path).utterances


def text_of(hearing: RecognitionResult) -> str:
    return " ".join(word.text for word in hearing.words)


def otherwise(ear: Recogniser, path: Path) -> list[str]:
    """What was heard in a recording, where that means something else than its name says."""
    heard = [text_of(hearing) for hearing in ear.hear(read_wav(path))]
    said = said_in(path)
    same = len(heard) == len(said) and all(
        one == other or meaning(one) == meaning(other)
        for one, other in zip(said, heard, strict=True)
    )
    return [] if same else [*heard, "nothing"]


def listed() -> set[str]:
    """The file names that the listing asks for."""
    return {one.file_name for one in wanted((FOLDER / "spoken.txt").read_text())}


def sound_of(values: Iterable[float], rate: int = 16000) -> Sound:
    """Samples from -1 to 1 as a sound."""
    array = np.asarray(values, dtype=float)
    return Sound((array.clip(-1, 1) * 32767).astype("<i2").tobytes(), rate)


def samples_of(sound: Sound) -> np.ndarray:
    """A sound's samples from -1 to 1."""
    return np.frombuffer(sound.samples, "<i2") / 32768
