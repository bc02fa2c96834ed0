"""The page's own arithmetic hears the letters that numpy hears, in little memory."""

from __future__ import annotations

import gzip
import json
import shutil
import subprocess
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pytest
from boxaloud.assistant.asr import AsrError, Sound, read_wav
from boxaloud.assistant.asr.engines.ctc import OWN_WEIGHTS
from boxaloud.assistant.asr.engines.ctc.alphabet import STRIDE_SAMPLES
from boxaloud.assistant.asr.engines.ctc.ctc_encoder import Array, NumpyEncoder, SpanNetwork
from boxaloud.assistant.asr.engines.ctc.ctc_recogniser import CONTEXT_SECONDS, RATE
from boxaloud.assistant.asr.engines.ctc.ctc_weights import read_weights
from boxaloud.assistant.asr.engines.ctc.letters_file import letters_file
from boxaloud.assistant.web.page_files import page_files
from ctc_weights_files import random_arrays, written

SAID = Path(__file__).parents[2] / "audio_fixtures" / "four_grounds__hts.wav"
RUNNER = Path(__file__).with_name("in_the_page.mjs")
SCRIPTS = ("letter_network.js", "matrix_kernel.js", "wasm_writer.js")
MOST_APART = 2e-3
"""Between logarithms of likelihoods: the spectrum's softest bands are what is left over of louder
ones, and here they are 32-bit numbers."""
FUSED = "--experimental-wasm-relaxed-simd"
LETTERS = 29


@dataclass(frozen=True)
class Heard:
    """What the page's scripts make of sounds."""

    letters: Array
    bytes: int
    fused: bool


@pytest.fixture(scope="module")
def scripts(tmp_path_factory: pytest.TempPathFactory) -> Path:
    if not shutil.which("node"):
        pytest.skip("Node.js is missing")
    place = tmp_path_factory.mktemp("scripts")
    (place / "package.json").write_text('{"type": "module"}')
    for name in SCRIPTS:
        (place / name).write_bytes(page_files()[name])
    return place


def by_the_page(
    scripts: Path, place: Path, file: bytes, sounds: list[Array], fused: bool = False
) -> Heard:
    (place / "letters.bin").write_bytes(file)
    np.concatenate(sounds).astype(np.float32).tofile(place / "sounds")
    lengths = ",".join(str(len(each)) for each in sounds)
    names = [str(place / name) for name in ("letters.bin", "sounds", "letters")]
    flags, arithmetic = ([FUSED], "any") if fused else ([], "plain")
    done = subprocess.run(
        ["node", *flags, str(RUNNER), str(scripts), *names, lengths, arithmetic],
        capture_output=True, text=True, timeout=300,
    )  # fmt: skip
    if fused and "bad option" in done.stderr:
        pytest.skip("this Node.js has no such arithmetic behind a switch")
    assert done.returncode == 0, done.stderr[-2000:]
    found = np.fromfile(place / "letters", np.float32).reshape(-1, LETTERS)
    return Heard(found, **json.loads(done.stdout))


def by_numpy(weights: Path, sound: Array) -> Array:
    network = SpanNetwork(NumpyEncoder(read_weights(weights)))
    samples = np.round(sound * 32768).astype("<i2").tobytes()
    span = CONTEXT_SECONDS, len(sound) / RATE - CONTEXT_SECONDS
    return np.array(network.letters(Sound(samples), span), np.float32)


def random_sound(places: int) -> Array:
    dice = np.random.default_rng(places)
    loud = np.repeat(dice.uniform(0.01, 0.5, places), STRIDE_SAMPLES)
    steps = np.round(dice.uniform(-1, 1, len(loud)) * loud * 32768)
    found: Array = (steps / 32768).astype(np.float32)
    return found


@pytest.mark.parametrize("fused", [False, True], ids=["plain", "fused"])
@pytest.mark.parametrize(
    "shape", [{}, {"width": 384, "layers": 4, "heads": 6}], ids=["small", "as large as it is"]
)
def test_the_page_hears_the_same_letters_in_sounds_of_any_length(
    scripts: Path, tmp_path: Path, shape: dict[str, int], fused: bool
) -> None:
    """One after another in one memory, longer ones and shorter ones, panels full and not."""
    weights = written(tmp_path / "letters.npz", random_arrays(**shape))
    sounds = [random_sound(places) for places in (31, 32, 129, 33, 40)]
    heard = by_the_page(scripts, tmp_path, letters_file(weights), sounds, fused)
    ours = np.concatenate([by_numpy(weights, sound) for sound in sounds])
    assert heard.fused == fused
    assert np.abs(heard.letters - ours).max() < MOST_APART
    assert np.exp(heard.letters).sum(1) == pytest.approx(1, abs=1e-4)
    assert ours.std() > 0.1  # letters differ, or anything would be as near


@pytest.mark.parametrize("loud", [0.2, 0.001], ids=["loud", "soft"])
def test_it_hears_the_same_in_what_is_said(scripts: Path, tmp_path: Path, loud: float) -> None:
    values = np.frombuffer(read_wav(SAID).samples, "<i2")
    sound = ((values * loud).astype("<i2") / 32768).astype(np.float32)
    sound = np.pad(sound, (4800, 4800 + -len(sound) % STRIDE_SAMPLES))
    heard = by_the_page(scripts, tmp_path, letters_file(OWN_WEIGHTS), [sound])
    ours = by_numpy(OWN_WEIGHTS, sound)
    likely = ours > np.log(0.01)
    assert np.abs(heard.letters - ours)[likely].max() < MOST_APART
    assert (heard.letters.argmax(1) == ours.argmax(1)).all()


def test_it_takes_little_more_memory_than_its_file(scripts: Path, tmp_path: Path) -> None:
    """Fourteen seconds are heard at once at most, and what is around them."""
    file = letters_file(OWN_WEIGHTS)
    heard = by_the_page(scripts, tmp_path, file, [random_sound(730)])
    assert heard.bytes < len(file) + 16_000_000


def test_the_file_is_as_small_on_its_way_as_the_weights() -> None:
    """Bytes stay bytes: wide numbers would be four times as large."""
    packed = gzip.compress(letters_file(OWN_WEIGHTS))
    assert len(packed) < 1.05 * OWN_WEIGHTS.stat().st_size


def test_what_is_no_file_of_weights_gives_none(tmp_path: Path) -> None:
    bad = tmp_path / "letters.npz"
    bad.write_bytes(b"no weights")
    with pytest.raises(AsrError):
        letters_file(bad)
