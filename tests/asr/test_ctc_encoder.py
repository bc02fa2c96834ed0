"""The learnt ear's network: against plain arithmetic by loops, written from the format alone."""

from __future__ import annotations

import json
import math
from pathlib import Path

import numpy as np
import pytest
from boxaloud.assistant.asr import AsrError
from boxaloud.assistant.asr.engines.ctc.ctc_encoder import (
    NumpyEncoder,
    OnnxEncoder,
    encoder,
    sinusoids,
)
from boxaloud.assistant.asr.engines.ctc.ctc_weights import read_weights
from ctc_weights_files import META, random_arrays, written

FRAMES = 14


@pytest.fixture
def arrays() -> dict[str, np.ndarray]:
    return random_arrays()


@pytest.fixture
def mel() -> np.ndarray:
    return np.random.default_rng(2).normal(0, 1, (FRAMES, 80)).astype(np.float32)


class Slowly:
    """The same network one number at a time, in double precision."""

    def __init__(self, arrays: dict[str, np.ndarray]) -> None:
        self.arrays = {name: array.astype(float) for name, array in arrays.items()}

    def linear(self, row: list[float], name: str) -> list[float]:
        q, s, b = (self.arrays[f"{name}.{part}"] for part in "qsb")
        return [
            math.fsum(q[i][j] * s[i] * row[j] for j in range(len(row))) + b[i]
            for i in range(len(q))
        ]

    def norm(self, row: list[float], name: str) -> list[float]:
        mean = sum(row) / len(row)
        spread = math.sqrt(sum((x - mean) ** 2 for x in row) / len(row) + 1e-5)
        g, b = self.arrays[f"{name}.g"], self.arrays[f"{name}.b"]
        return [(x - mean) / spread * g[i] + b[i] for i, x in enumerate(row)]

    def convolved(self, rows: list[list[float]], name: str, step: int) -> list[list[float]]:
        nothing = [0.0] * len(rows[0])
        around = [nothing, *rows, nothing]
        places = range(0, len(rows), step)
        threes = [around[at] + around[at + 1] + around[at + 2] for at in places]
        return [[bent(x) for x in self.linear(three, name)] for three in threes]

    def attended(self, rows: list[list[float]], name: str, heads: int) -> list[list[float]]:
        width = len(rows[0])
        each = width // heads
        made = [self.linear(self.norm(row, f"{name}.norm1"), f"{name}.qkv") for row in rows]
        out = []
        for mine in made:
            seen: list[float] = []
            for head in range(heads):
                part = range(head * each, (head + 1) * each)
                scores = [
                    sum(mine[i] * other[width + i] for i in part) / math.sqrt(each)
                    for other in made
                ]
                shares = [math.exp(score - max(scores)) for score in scores]
                seen += [
                    sum(
                        share * other[2 * width + i]
                        for share, other in zip(shares, made, strict=True)
                    )
                    / sum(shares)
                    for i in part
                ]
            out.append(self.linear(seen, f"{name}.out"))
        return out

    def letters(self, mel: np.ndarray) -> list[list[float]]:
        rows = self.convolved(self.convolved(mel.tolist(), "conv1", 1), "conv2", 2)
        width = len(rows[0])
        half = width // 2
        for place, row in enumerate(rows):
            for k in range(half):
                turn = place * math.exp(-k * math.log(10000) / (half - 1))
                row[k] += math.sin(turn)
                row[half + k] += math.cos(turn)
        for layer in range(META["layers"]):
            name = f"layers.{layer}"
            seen = self.attended(rows, name, META["heads"])
            rows = [added(x, y) for x, y in zip(rows, seen, strict=True)]
            for at, row in enumerate(rows):
                wide = [bent(x) for x in self.linear(self.norm(row, f"{name}.norm2"), f"{name}.up")]
                more = self.linear(wide, f"{name}.down")
                rows[at] = added(row, more)
        found = [self.linear(self.norm(row, "norm"), "head") for row in rows]
        return [[x - math.log(math.fsum(map(math.exp, row))) for x in row] for row in found]


def added(one: list[float], other: list[float]) -> list[float]:
    return [a + b for a, b in zip(one, other, strict=True)]


def bent(x: float) -> float:
    """GELU in its tanh form (Hendrycks and Gimpel, 2016, section 2)."""
    return 0.5 * x * (1 + math.tanh(math.sqrt(2 / math.pi) * (x + 0.044715 * x**3)))


def test_it_is_the_arithmetic_of_the_format(
    arrays: dict[str, np.ndarray], mel: np.ndarray, tmp_path: Path
) -> None:
    network = encoder(written(tmp_path / "some.npz", arrays))
    got = network.letters(mel)
    assert got.shape == (FRAMES // 2, 29)
    assert np.allclose(got, Slowly(arrays).letters(mel), atol=1e-4)
    assert network.name == "random"


def test_every_place_is_a_distribution(arrays: dict[str, np.ndarray], mel: np.ndarray) -> None:
    assert np.allclose(np.exp(Slowly(arrays).letters(mel)).sum(1), 1)


def test_places_are_told_by_the_sinusoids_of_the_published_encoder() -> None:
    """Whisper, `sinusoids(length, channels)` (Radford et al., 2022; from memory): the first pair
    turns by a radian a place, the last by one in 10,000."""
    waves = sinusoids(3, 8)
    assert waves[0].tolist() == [0, 0, 0, 0, 1, 1, 1, 1]
    assert waves[1][0] == pytest.approx(math.sin(1))
    assert waves[2][3] == pytest.approx(math.sin(2e-4), rel=1e-3)
    assert waves[1][4] == pytest.approx(math.cos(1))


@pytest.mark.parametrize(
    "change",
    [
        {"format": 2}, {"alphabet": "abc"}, {"gelu": "erf"}, {"stride": 160}, {"layers": 3},
        {"width": 64},
    ],
    ids=str,
)  # fmt: skip
def test_a_file_of_another_form_is_refused_in_a_sentence(
    change: dict[str, object], arrays: dict[str, np.ndarray], tmp_path: Path
) -> None:
    text = json.dumps({**META, **change}).encode()
    arrays["meta"] = np.frombuffer(text, np.uint8)
    with pytest.raises(AsrError, match="does not hold the weights"):
        read_weights(written(tmp_path / "other.npz", arrays))


@pytest.mark.parametrize("name", ["layers.1.up.q", "layers.0.norm1.g", "head.s", "conv1.b", "meta"])
def test_a_file_that_lacks_something_is_refused(
    name: str, arrays: dict[str, np.ndarray], tmp_path: Path
) -> None:
    del arrays[name]
    with pytest.raises(AsrError, match="does not hold the weights"):
        read_weights(written(tmp_path / "less.npz", arrays))


def test_numbers_that_are_none_are_refused(arrays: dict[str, np.ndarray], tmp_path: Path) -> None:
    arrays["norm.g"][3] = np.nan
    with pytest.raises(AsrError, match="does not hold the weights"):
        read_weights(written(tmp_path / "none.npz", arrays))


@pytest.mark.parametrize("content", [None, b"", b"PK\x03\x04 cut off", b"other"])
def test_a_missing_or_broken_file_is_told(content: bytes | None, tmp_path: Path) -> None:
    path = tmp_path / "letters.npz"
    if content is not None:
        path.write_bytes(content)
    with pytest.raises(AsrError, match="missing or broken"):
        read_weights(path)


def test_nothing_pickled_is_read(tmp_path: Path) -> None:
    path = tmp_path / "letters.npz"
    np.savez(path, meta=np.array([object()], dtype=object))
    with pytest.raises(AsrError):
        read_weights(path)


def test_a_file_for_onnxruntime_that_is_none_is_refused(tmp_path: Path) -> None:
    pytest.importorskip("onnxruntime")
    path = tmp_path / "letters.onnx"
    path.write_bytes(b"no model")
    with pytest.raises(AsrError, match="does not hold the weights"):
        OnnxEncoder(path)


def test_the_weights_are_wide_enough_to_be_worked(
    arrays: dict[str, np.ndarray], tmp_path: Path
) -> None:
    weights = read_weights(written(tmp_path / "some.npz", arrays))
    assert all(array.dtype == np.float32 for array in weights.arrays.values())
    assert isinstance(encoder(tmp_path / "some.npz"), NumpyEncoder)
