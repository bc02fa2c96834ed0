"""The learnt ear as an ONNX graph gives the same letters in a browser's runtime as in numpy."""

from __future__ import annotations

import base64
import hashlib
import shutil
import subprocess
import tarfile
from pathlib import Path

import numpy as np
import pytest
from boxaloud.assistant.asr.asr_errors import AsrError
from boxaloud.assistant.asr.engines.ctc.ctc_encoder import NumpyEncoder
from boxaloud.assistant.asr.engines.ctc.ctc_weights import read_weights
from boxaloud.assistant.asr.engines.ctc.onnx_export import exported
from ctc_weights_files import random_arrays, written
from platformdirs import user_cache_path

RUNTIME = "onnxruntime-web@1.30.0"
DIGEST = "q0y+JrrtukXSzsBWEMccVfqX25LRmosXHF+CaRJmg8pZClzcV7svNc4rKY3jL02Vb7QmRMDs1SigqR4CXAfKYQ=="
MOST_APART = 5e-5
"""Between logarithms of likelihoods: 32-bit numbers, added up in another order."""
BANDS, LETTERS = 80, 29


@pytest.fixture(scope="session")
def runtime(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The package of the runtime, brought by npm once, and taken only if it is exactly that."""
    if not (shutil.which("npm") and shutil.which("node")):
        pytest.skip("npm and Node.js, which bring and run a browser's runtime, are missing")
    folder = user_cache_path("boxaloud") / "web"
    archive = folder / f"{RUNTIME.replace('@', '-')}.tgz"
    if not archive.is_file():
        folder.mkdir(parents=True, exist_ok=True)
        if subprocess.run(
            ["npm", "pack", "--silent", RUNTIME], cwd=folder, capture_output=True
        ).returncode:
            pytest.skip("npm could not bring a browser's runtime")
    assert hashlib.sha512(archive.read_bytes()).digest() == base64.b64decode(DIGEST)
    place = tmp_path_factory.mktemp("runtime")
    with tarfile.open(archive) as held:
        held.extractall(place, filter="data")
    return place / "package"


@pytest.mark.parametrize("frames", [2, 34, 300])
@pytest.mark.parametrize(
    "shape", [{}, {"width": 384, "layers": 4, "heads": 6}], ids=["small", "as large as it is"]
)
def test_a_browsers_runtime_hears_the_same_letters(
    runtime: Path, tmp_path: Path, shape: dict[str, int], frames: int
) -> None:
    weights = written(tmp_path / "letters.npz", random_arrays(**shape))
    graph = tmp_path / "letters.onnx"
    graph.write_bytes(exported(weights))
    mel = np.random.default_rng(frames).normal(0, 1, (frames, BANDS)).astype(np.float32)
    mel.tofile(tmp_path / "mel")
    script = Path(__file__).with_name("in_onnxruntime.mjs")
    sound, out = tmp_path / "mel", tmp_path / "out"
    done = subprocess.run(
        ["node", script, runtime, graph, sound, str(frames), str(BANDS), out],
        capture_output=True, text=True, timeout=300,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    found = np.fromfile(out, np.float32).reshape(frames // 2, LETTERS)
    ours = NumpyEncoder(read_weights(weights)).letters(mel)
    assert np.abs(found - ours).max() < MOST_APART
    assert np.exp(found).sum(1) == pytest.approx(1, abs=1e-4)
    assert ours.std() > 0.1  # letters differ, or anything would be as near


def test_the_graph_is_as_small_as_the_weights(tmp_path: Path) -> None:
    """Bytes stay bytes: a graph of wide numbers would be four times as large."""
    weights = written(tmp_path / "letters.npz", random_arrays(width=384, layers=4, heads=6))
    assert len(exported(weights)) < 1.05 * weights.stat().st_size


def test_what_is_no_file_of_weights_gives_no_graph(tmp_path: Path) -> None:
    bad = tmp_path / "letters.npz"
    bad.write_bytes(b"no weights")
    with pytest.raises(AsrError):
        exported(bad)
