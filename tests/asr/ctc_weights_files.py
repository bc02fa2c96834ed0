"""Files of weights as an exporter writes them, made up at random: for tests of what reads them."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import numpy as np
from boxaloud.assistant.asr.engines.ctc.alphabet import ALPHABET, STRIDE_SAMPLES
from boxaloud.assistant.asr.engines.ctc.ctc_weights import FORMAT, shapes

META: dict[str, Any] = {
    "format": FORMAT, "alphabet": ALPHABET, "gelu": "tanh", "stride": STRIDE_SAMPLES,
    "width": 48, "layers": 2, "heads": 3, "bands": 80, "name": "random",
}  # fmt: skip


def random_arrays(seed: int = 1, **changes: Any) -> dict[str, np.ndarray]:
    """The arrays of a small network whose weights are random."""
    dice = np.random.default_rng(seed)
    meta = {**META, **changes}
    linear, norms = shapes(meta["width"], meta["layers"], meta["bands"])
    text = json.dumps(meta).encode()
    arrays: dict[str, np.ndarray] = {"meta": np.frombuffer(text, np.uint8)}
    for name, (rows, columns) in linear.items():
        arrays[f"{name}.q"] = dice.integers(-127, 128, (rows, columns)).astype(np.int8)
        worth = dice.uniform(0.5, 1.5, rows) * 0.02 / np.sqrt(columns)
        arrays[f"{name}.s"] = worth.astype(np.float16)
        arrays[f"{name}.b"] = dice.normal(0, 0.1, rows).astype(np.float16)
    for name in norms:
        arrays[f"{name}.g"] = dice.normal(1, 0.1, meta["width"]).astype(np.float16)
        arrays[f"{name}.b"] = dice.normal(0, 0.1, meta["width"]).astype(np.float16)
    return arrays


def written(path: Path, arrays: dict[str, np.ndarray]) -> Path:
    """A file of these arrays."""
    np.savez_compressed(path, **arrays)  # type: ignore[arg-type]
    return path
