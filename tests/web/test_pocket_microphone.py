"""The open microphone of a page that stands alone parts what is said as the laptop's does."""

from __future__ import annotations

import json
import shutil
import subprocess
from pathlib import Path

import numpy as np
import pytest
from boxaloud.assistant.asr import Sound, read_wav
from boxaloud.assistant.asr.audio.audio_devices import FRAME_BYTES
from boxaloud.assistant.asr.engines.ctc import OWN_WEIGHTS
from boxaloud.assistant.asr.engines.ctc.alphabet import STRIDE_SAMPLES
from boxaloud.assistant.asr.engines.ctc.ctc_encoder import SpanNetwork, encoder
from boxaloud.assistant.asr.engines.ctc.ctc_recogniser import CONTEXT_SECONDS, RATE
from boxaloud.assistant.asr.vad import band_levels
from boxaloud.assistant.web.ear_files import language_archive
from boxaloud.assistant.web.open_microphone import IDLE_SECONDS
from boxaloud.assistant.web.page_files import page_files
from boxaloud.assistant.web.pocket_microphone import PocketMicrophone

DEMO = sorted((Path(__file__).parents[2] / "audio_fixtures" / "demo").glob("*.wav"))
SAID = ["two fourteen two cables and one switch", "the box is eighteen cubic inches",
        "no clamps inside"]  # fmt: skip
QUIET = bytes(2 * 2 * RATE)
PIECE = 5 * FRAME_BYTES


@pytest.fixture
def microphone() -> PocketMicrophone:
    return PocketMicrophone(language_archive())


@pytest.fixture(scope="module")
def network() -> SpanNetwork:
    return SpanNetwork(encoder(OWN_WEIGHTS))


def letters_of(microphone: PocketMicrophone, network: SpanNetwork, samples: bytes) -> list[bytes]:
    """What the page's network hears in a sound, by this Python's network."""
    context = int(CONTEXT_SECONDS * RATE)
    found = []
    for start, end in microphone.stretches(samples):
        span = (start + context) / RATE, (end - context) / RATE
        heard = np.array(network.letters(Sound(samples), span), np.float32)
        assert abs(len(heard) - (end - start) // STRIDE_SAMPLES) <= 1
        found.append(heard.tobytes())
    return found


def pieces(sound: bytes) -> list[tuple[bytes, list[list[float]]]]:
    """A sound a tenth of a second at a time, with the bands of each frame."""
    found = []
    for place in range(0, len(sound) - PIECE + 1, PIECE):
        piece = sound[place : place + PIECE]
        frames = [piece[at : at + FRAME_BYTES] for at in range(0, PIECE, FRAME_BYTES)]
        found.append((piece, [band_levels(frame) for frame in frames]))
    return found


def test_each_statement_is_heard_at_its_pause(
    microphone: PocketMicrophone, network: SpanNetwork
) -> None:
    sound = QUIET + b"".join(read_wav(path).samples + QUIET for path in DEMO)
    heard = []
    for piece, bands in pieces(sound):
        wanted = microphone.feed(piece, bands)
        if wanted in ("pause", "end"):
            letters = letters_of(microphone, network, microphone.statement)
            if wanted == "end" or microphone.stands(letters, None):
                heard += microphone.words(letters, None)
    assert [" ".join(word.text for word in words) for words in heard] == SAID


def test_nothing_is_heard_of_the_voice_of_the_page(microphone: PocketMicrophone) -> None:
    microphone.voice(True)
    sound = pieces(QUIET + read_wav(DEMO[0]).samples + QUIET)
    assert {microphone.feed(*piece) for piece in sound} == {""}
    assert microphone.close() == ""


def test_what_is_being_said_as_it_is_closed_is_heard(microphone: PocketMicrophone) -> None:
    assert not microphone.speaking
    for piece in pieces(QUIET + read_wav(DEMO[0]).samples)[:-5]:
        microphone.feed(*piece)
    assert microphone.speaking
    assert microphone.close() == "end"
    assert not microphone.speaking
    assert len(microphone.statement) > 2 * RATE


def test_it_is_idle_once_nobody_has_spoken_for_long(microphone: PocketMicrophone) -> None:
    silence = [[-90.0] * 5] * 500
    seconds, wanted = 0, ""
    while not wanted:
        wanted, seconds = microphone.feed(bytes(500 * FRAME_BYTES), silence), seconds + 10
    assert wanted == "idle"
    assert IDLE_SECONDS <= seconds <= IDLE_SECONDS + 10


@pytest.mark.skipif(not shutil.which("node"), reason="Node.js is missing")
def test_the_page_finds_the_bands_that_the_laptop_finds(tmp_path: Path) -> None:
    (tmp_path / "bands.mjs").write_bytes(page_files()["speech_bands.js"])
    (tmp_path / "sound").write_bytes(read_wav(DEMO[0]).samples)
    script = (
        "import fs from 'node:fs'; import { bandsOf } from './bands.mjs';"
        "const raw = fs.readFileSync('sound');"
        "const samples = new Int16Array(raw.buffer, raw.byteOffset, raw.length >> 1);"
        "console.log(JSON.stringify(bandsOf(samples)))"
    )
    done = subprocess.run(
        ["node", "--input-type=module", "-e", script], cwd=tmp_path, capture_output=True, text=True
    )
    assert done.returncode == 0, done.stderr
    sound = (tmp_path / "sound").read_bytes()
    whole = len(sound) // FRAME_BYTES * FRAME_BYTES
    ours = [band_levels(sound[at : at + FRAME_BYTES]) for at in range(0, whole, FRAME_BYTES)]
    assert np.abs(np.array(json.loads(done.stdout)) - np.array(ours)).max() < 1e-6
