"""Make the recordings of this folder from `spoken.txt`, with free voices that Debian carries.

    python audio_fixtures/make_recordings.py [FOLDER]

Needs the Debian packages flite, festival and festvox-us-slt-hts. A recording is named by what is
said in it and by the voice: `no_clamps_inside__rms.wav`; utterances with a pause between them
are joined by `__then__`; a name that begins with `oov_` holds talk that is not about boxes; those
of the first conversation are in `demo` and numbered.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import NamedTuple

import numpy as np

HERE = Path(__file__).parent
sys.path.insert(0, str(HERE.parent))

from boxaloud.assistant.asr.asr_types import Sound  # noqa: E402
from boxaloud.assistant.asr.audio.wav import RATE, read_wav, write_wav  # noqa: E402

#: Seconds of quiet around and between utterances, and how loud a quiet room is (of 32768).
BEFORE, BETWEEN, AFTER = 0.25, 1.0, 0.35
ROOM = 12.0


class Recording(NamedTuple):
    """One recording to be made: what is said in it, and by which voice."""

    utterances: tuple[str, ...]
    voice: str
    about_boxes: bool = True
    turn: int = 0
    """Its place in the first conversation, from 1; 0 for a recording that is none of it."""

    @property
    def file_name(self) -> str:
        """The words said, and the voice."""
        said = "__then__".join(part.replace(" ", "_") for part in self.utterances)
        before = f"demo/{self.turn}_" if self.turn else "" if self.about_boxes else "oov_"
        return f"{before}{said}__{self.voice}.wav"

    @classmethod
    def named(cls, path: Path) -> Recording:
        """The recording that bears a file name."""
        said, _, voice = path.stem.rpartition("__")
        about_boxes = not said.startswith("oov_")
        turn, _, rest = said.partition("_")
        said = rest if turn.isdigit() else said.removeprefix("oov_")
        parts = tuple(part.replace("_", " ") for part in said.split("__then__"))
        return cls(parts, voice, about_boxes, int(turn) if turn.isdigit() else 0)


def wanted(listing: str) -> Iterator[Recording]:
    """The recordings that a listing such as `spoken.txt` asks for."""
    turn = 0
    for line in listing.splitlines():
        if not line.strip() or line.startswith("#"):
            continue
        voices, said = line.split("|")
        first, *others = voices.split()
        utterances = tuple(part.strip() for part in said.split("/"))
        turn += first == "demo"
        for voice in others if first in ("demo", "oov") else (first, *others):
            yield Recording(utterances, voice, first != "oov", turn if first == "demo" else 0)


def flite(voice: str) -> Callable[[str, Path], None]:
    """A speaker that uses one of flite's built-in voices."""

    def speak(text: str, path: Path) -> None:
        subprocess.run(["flite", "-voice", voice, "-t", text, "-o", str(path)], check=True)

    return speak


def festival(text: str, path: Path) -> None:
    """The statistical voice of festvox-us-slt-hts."""
    voice = "(voice_cmu_us_slt_arctic_hts)"
    subprocess.run(
        ["text2wave", "-eval", voice, "-o", str(path)], input=text, text=True, check=True
    )


SPEAKERS: dict[str, Callable[[str, Path], None]] = {
    "kal16": flite("kal16"),
    "awb": flite("awb"),
    "rms": flite("rms"),
    "slt": flite("slt"),
    "hts": festival,
}


def speak(text: str, voice: str) -> Sound:
    """What one voice says, 16 kHz mono, without quiet around it."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "said.wav"
        SPEAKERS[voice](text, path)
        return read_wav(path)


def render(recording: Recording) -> Sound:
    """The whole recording, with the faint hiss of a quiet room around and under the words."""
    chance = np.random.default_rng(len(recording.file_name))
    pieces = [np.zeros(int(BEFORE * RATE))]
    for number, text in enumerate(recording.utterances):
        if number:
            pieces.append(np.zeros(int(BETWEEN * RATE)))
        said = np.frombuffer(speak(text, recording.voice).samples, "<i2").astype(float)
        pieces.append(said * (20000 / max(1.0, float(np.abs(said).max()))))
    pieces.append(np.zeros(int(AFTER * RATE)))
    whole = np.concatenate(pieces)
    whole += chance.normal(0, ROOM, len(whole))
    return Sound(whole.clip(-32768, 32767).astype("<i2").tobytes(), RATE)


def main(folder: Path) -> None:
    """Make every recording of `spoken.txt`."""
    for recording in wanted((HERE / "spoken.txt").read_text()):
        path = folder / recording.file_name
        path.parent.mkdir(parents=True, exist_ok=True)
        write_wav(render(recording), path)


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else HERE)
