"""Trained weights into the product's file: bytes with a scale a row.

    python export.py IN.pt OUT.npz [--name NAME]

The format is told in `assistant/asr/engines/ctc/ctc_weights.py`.
"""

from __future__ import annotations

import argparse
import json
import sys
from pathlib import Path
from typing import Any

import numpy as np
import torch
from model import BANDS, HEADS, LAYERS, LETTERS, WIDTH

STRIDE_SAMPLES = 320
FORMAT = 1


def quantised(weight: np.ndarray) -> tuple[np.ndarray, np.ndarray]:
    """A matrix in steps from -127 to 127, and how much a step of each row is worth."""
    scale = np.maximum(np.abs(weight).max(1) / 127, 1e-7).astype(np.float16)
    steps = np.rint(weight / scale.astype(np.float32)[:, None])
    return np.clip(steps, -127, 127).astype(np.int8), scale


def arrays(state: dict[str, torch.Tensor], name: str) -> dict[str, np.ndarray]:
    """The arrays of the file."""
    found: dict[str, np.ndarray] = {}
    for key in [each for each in state if each.endswith(".weight") and "middle" not in each]:
        part = key.removesuffix(".weight")
        weight, bias = state[key].float().numpy(), state[f"{part}.bias"].float().numpy()
        if weight.ndim == 2:
            found[f"{part}.q"], found[f"{part}.s"] = quantised(weight)
        else:
            found[f"{part}.g"] = weight.astype(np.float16)
        found[f"{part}.b"] = bias.astype(np.float16)
    meta = {
        "format": FORMAT, "name": name, "alphabet": LETTERS[1:], "width": WIDTH, "layers": LAYERS,
        "heads": HEADS, "bands": BANDS, "gelu": "tanh", "stride": STRIDE_SAMPLES,
    }  # fmt: skip
    found["meta"] = np.frombuffer(json.dumps(meta).encode(), np.uint8)
    return found


def main() -> None:
    """Write the file."""
    reader = argparse.ArgumentParser(description=__doc__)
    reader.add_argument("trained", type=Path)
    reader.add_argument("out", type=Path)
    reader.add_argument("--name", default="letters")
    given = reader.parse_args()
    state = torch.load(given.trained, map_location="cpu")
    stored: dict[str, Any] = dict(arrays(state, given.name))
    np.savez_compressed(given.out, **stored)
    sys.stdout.write(f"{given.out}: {given.out.stat().st_size} bytes\n")


if __name__ == "__main__":
    main()
