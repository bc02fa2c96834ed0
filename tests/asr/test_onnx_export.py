"""The learnt ear hears in numpy what a runtime hears that we did not write, from a graph of it."""

from __future__ import annotations

import shutil
import subprocess
from pathlib import Path

import numpy as np
import pytest
from boxaloud.assistant.asr import AsrError, Sound, read_wav
from boxaloud.assistant.asr.engines.ctc import OWN_WEIGHTS
from boxaloud.assistant.asr.engines.ctc.alphabet import STRIDE_SAMPLES
from boxaloud.assistant.asr.engines.ctc.ctc_encoder import Array, NumpyEncoder, SpanNetwork
from boxaloud.assistant.asr.engines.ctc.ctc_recogniser import samples_heard
from boxaloud.assistant.asr.engines.ctc.ctc_weights import read_weights
from boxaloud.assistant.text.problem import Problem
from boxaloud.assistant.web.runtime_package import RuntimePackage, brought
from ctc_weights_files import random_arrays, written
from onnx_export import exported

SAID = Path(__file__).parents[2] / "audio_fixtures" / "four_grounds__hts.wav"
MOST_APART = 5e-5
"""Between logarithms of likelihoods: 32-bit numbers, added up in another order."""
MOST_APART_BY_SOUND = 0.02
"""The same where the spectrum is 32-bit numbers too: its softest bands are what is left over of
louder ones, and an unlikely letter may hang on one."""
BANDS, LETTERS = 80, 29
RUNTIME = RuntimePackage(
    package="onnxruntime-web",
    version="1.30.0",
    digest="sha512-q0y+JrrtukXSzsBWEMccVfqX25LRmosXHF+CaRJmg8pZClzcV7svNc4rKY3jL02Vb7QmRMDs1SigqR4CXAfKYQ==",
    licence="MIT",
    files=("dist/ort.wasm.bundle.min.mjs", "dist/ort-wasm-simd-threaded.wasm"),
    left_out=(),
)


@pytest.fixture(scope="session")
def runtime(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A runtime of such graphs, brought by npm once."""
    if not (shutil.which("npm") and shutil.which("node")):
        pytest.skip("npm and Node.js, which bring and run a browser's runtime, are missing")
    try:
        found = brought(RUNTIME)
    except Problem as problem:
        pytest.skip(f"a browser's runtime cannot be had here: {problem}")
    place = tmp_path_factory.mktemp("runtime")
    for name, raw in found:
        (place / name).write_bytes(raw)
    return place


def in_the_runtime(runtime: Path, place: Path, graph: bytes, name: str, given: Array) -> Array:
    """What a graph makes of `given`, which it calls `name`."""
    (place / "letters.onnx").write_bytes(graph)
    given.tofile(place / "given")
    script, out = Path(__file__).with_name("in_onnxruntime.mjs"), place / "out"
    shape = ",".join(map(str, given.shape))
    done = subprocess.run(
        ["node", script, runtime, place / "letters.onnx", name, place / "given", shape, out],
        capture_output=True, text=True, timeout=300,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr[-2000:]
    return np.fromfile(out, np.float32).reshape(-1, LETTERS)


@pytest.mark.parametrize("frames", [2, 34, 300])
@pytest.mark.parametrize(
    "shape", [{}, {"width": 384, "layers": 4, "heads": 6}], ids=["small", "as large as it is"]
)
def test_a_browsers_runtime_hears_the_same_letters(
    runtime: Path, tmp_path: Path, shape: dict[str, int], frames: int
) -> None:
    weights = written(tmp_path / "letters.npz", random_arrays(**shape))
    mel = np.random.default_rng(frames).normal(0, 1, (frames, BANDS)).astype(np.float32)
    found = in_the_runtime(runtime, tmp_path, exported(weights), "mel", mel[None])
    ours = NumpyEncoder(read_weights(weights)).letters(mel)
    assert np.abs(found - ours).max() < MOST_APART
    assert np.exp(found).sum(1) == pytest.approx(1, abs=1e-4)
    assert ours.std() > 0.1  # letters differ, or anything would be as near


@pytest.mark.parametrize("loud", [0.2, 0.001], ids=["loud", "soft"])
def test_it_hears_the_same_in_the_sound_itself(runtime: Path, tmp_path: Path, loud: float) -> None:
    """With the weights that are shipped, a recording, and the quiet around it."""
    sound = read_wav(SAID)
    span = (0.0, sound.seconds)
    start, end = samples_heard(span)
    part = np.zeros(end - start, np.float32)
    values = np.frombuffer(sound.samples, "<i2")
    softer = (values * loud).astype("<i2")
    part[-start : -start + len(values)] = softer / np.float32(32768)
    part = part[: len(part) // STRIDE_SAMPLES * STRIDE_SAMPLES]
    graph = exported(OWN_WEIGHTS, of_sound=True)
    found = in_the_runtime(runtime, tmp_path, graph, "sound", part[None])
    network = SpanNetwork(NumpyEncoder(read_weights(OWN_WEIGHTS)))
    ours = np.array(network.letters(Sound(softer.tobytes()), span), np.float32)
    likely = ours > np.log(0.01)
    assert np.abs(found - ours)[likely].max() < MOST_APART_BY_SOUND


def test_the_graph_is_as_small_as_the_weights(tmp_path: Path) -> None:
    """Bytes stay bytes: a graph of wide numbers would be four times as large."""
    weights = written(tmp_path / "letters.npz", random_arrays(width=384, layers=4, heads=6))
    assert len(exported(weights)) < 1.05 * weights.stat().st_size


def test_what_is_no_file_of_weights_gives_no_graph(tmp_path: Path) -> None:
    bad = tmp_path / "letters.npz"
    bad.write_bytes(b"no weights")
    with pytest.raises(AsrError):
        exported(bad)
