"""The learnt ear as one file for a phone's page, whose script works it: `letter_network.js`.

The file: how long the description is, 32 bits, least first; the description, JSON; and what it
tells the places of, in bytes from the file's begin. The steps of a map stand in panels of eight
outputs, `(outputs / 8, inputs, 8)`, where outputs are filled up to whole panels; all else is 32-bit
numbers.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import numpy as np
from boxaloud.assistant.asr.engines.ctc.alphabet import ALPHABET, PEAK, STRIDE_SAMPLES
from boxaloud.assistant.asr.engines.ctc.ctc_encoder import (
    LAYER_NORM_EPSILON,
    LEAST_PEAK,
    LONGEST_WAVE,
)
from boxaloud.assistant.asr.engines.ctc.ctc_weights import read_weights, shapes
from boxaloud.assistant.asr.frontend import log_mel
from numpy.typing import NDArray

COLUMNS = 8
"""Outputs of a panel."""
ALIGNED = 16
"""Everything begins at a multiple of so many bytes."""
DESCRIPTION = 8192
"""Bytes that are left for the description."""


class _Written:
    """What stands behind the description."""

    def __init__(self) -> None:
        self.parts: list[bytes] = []
        self.next = DESCRIPTION

    def put(self, values: NDArray[Any]) -> int:
        """Add an array; gives its place in the file."""
        place, raw = self.next, np.ascontiguousarray(values).tobytes()
        raw += bytes(-len(raw) % ALIGNED)
        self.parts.append(raw)
        self.next += len(raw)
        return place

    def numbers(self, values: NDArray[Any]) -> int:
        """Add a row of 32-bit numbers."""
        return self.put(values.astype("<f4"))


def letters_file(weights: Path) -> bytes:
    """The file of a file of weights. Raises AsrError where that is none."""
    known = read_weights(weights)
    with np.load(weights, allow_pickle=False) as stored:
        arrays = {name: stored[name] for name in stored.files}
    written = _Written()
    linear, norms = shapes(known.width, known.layers, known.bands)
    about = {
        "letters": 1 + len(ALPHABET), "stride": STRIDE_SAMPLES, "peak": PEAK,
        "width": known.width, "wide": linear["layers.0.up"][0], "layers": known.layers,
        "heads": known.heads, "bands": known.bands,
        "least_peak": LEAST_PEAK, "longest_wave": LONGEST_WAVE,
        "epsilon": float(LAYER_NORM_EPSILON), "window": log_mel.WINDOW_SAMPLES,
        "hop": log_mel.HOP_SAMPLES, "least_power": log_mel.LEAST_POWER,
        "dynamic_range": log_mel.DYNAMIC_RANGE_LOG10,
        "bank": written.numbers(_panels(_filled(log_mel.mel_filter_bank(), 4, 1))),
        "maps": {name: _map(arrays, name, written) for name in linear},
        "norms": {
            name: {"gain": written.numbers(arrays[f"{name}.g"]),
                   "shift": written.numbers(arrays[f"{name}.b"])}
            for name in norms
        },
    }  # fmt: skip
    told = json.dumps(about).encode()
    begin = len(told).to_bytes(4, "little") + told
    return begin + bytes(DESCRIPTION - len(begin)) + b"".join(written.parts)


def _map(arrays: dict[str, NDArray[Any]], name: str, written: _Written) -> dict[str, int]:
    steps = _filled(arrays[f"{name}.q"], COLUMNS, 0)
    outputs, inputs = steps.shape
    return {
        "inputs": inputs,
        "outputs": outputs,
        "steps": written.put(_panels(steps)),
        "scales": written.numbers(_filled(arrays[f"{name}.s"], COLUMNS, 0)),
        "shift": written.numbers(_filled(arrays[f"{name}.b"], COLUMNS, 0)),
    }


def _filled(values: NDArray[Any], to: int, axis: int) -> NDArray[Any]:
    """Filled up with nought along an axis, to a multiple of `to`."""
    more = [(0, 0)] * values.ndim
    more[axis] = (0, -values.shape[axis] % to)
    return np.pad(values, more)


def _panels(rows: NDArray[Any]) -> NDArray[Any]:
    """Rows, one an output, as panels."""
    outputs, inputs = rows.shape
    return rows.reshape(outputs // COLUMNS, COLUMNS, inputs).transpose(0, 2, 1)
