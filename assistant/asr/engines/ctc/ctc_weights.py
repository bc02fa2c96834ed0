"""The weights of the learnt ear: how the file is made up, and how it is read.

**The file** is one `.npz` (a zip of `.npy` arrays, compressed or not, no pickled objects). A
linear map from `m` numbers to `n` is three arrays under its name:

=========== ======= ======== =================================================================
name        type    shape    what
=========== ======= ======== =================================================================
`<name>.q`  int8    (n, m)   the weights in steps, one row for each number that comes out;
                             from -127 to 127, so that -128 never stands there
`<name>.s`  float16 (n,)     how much a step of a row is worth: `weight = q * s`. Round `s` to
                             float16 first and the weights to steps of that after it
`<name>.b`  float16 (n,)     what is added
=========== ======= ======== =================================================================

A layer normalisation is `<name>.g` (what it is multiplied with) and `<name>.b` (what is added),
both float16, (width,). With `width` 384, `layers` 4, `heads` 6, `bands` 80 and 29 letters:

====================================================== ===================== =================
name                                                   kind                  .q is of
====================================================== ===================== =================
`conv1`                                                linear, then GELU     (384, 3 * 80)
`conv2`                                                linear, then GELU     (384, 3 * 384)
`layers.N.norm1`                                       normalisation
`layers.N.qkv` (queries, keys, values in this order)   linear                (3 * 384, 384)
`layers.N.out`                                         linear                (384, 384)
`layers.N.norm2`                                       normalisation
`layers.N.up`                                          linear, then GELU     (4 * 384, 384)
`layers.N.down`                                        linear                (384, 4 * 384)
`norm`                                                 normalisation
`head`                                                 linear                (29, 384)
====================================================== ===================== =================

`N` counts from 0. `meta` is a uint8 array, (length,): UTF-8 text of one JSON object with

- `format`: 1
- `alphabet`: what the outputs after the blank are, in order: `"abcdefghijklmnopqrstuvwxyz' "`,
  so that output 0 is CTC's blank, 1 to 26 are the letters, 27 is the apostrophe and 28 the space
  between words
- `width`, `layers`, `heads`, `bands`: as above
- `gelu`: `"tanh"`; the other form, by the error function, is not read
- `stride`: 320, the samples of 16 kHz between two outputs (20 ms)
- `name`: what the weights are called; shown to the user

**The arithmetic.** `frames` by `bands`, 100 frames a second, as `frontend/log_mel.spectrum` makes
them: an even number of frames, of the utterance alone (never filled up to half a minute), the
samples first made so loud that the greatest is 0.5. Normalisations divide by the root of the
variance + 1e-5.

1. Each frame with its two neighbours, the one before first: `[t-1, t, t+1]` beside each other,
   240 numbers, frames of zeros outside; `conv1`; GELU. (A convolution's weight `(out, in, 3)` is
   therefore stored as `transpose(0, 2, 1).reshape(out, 3 * in)`.)
2. The same with `conv2` at every second frame, beginning with frame 0 (stride 2, padding 1): half
   as many places.
3. Sinusoids are added, `place` from 0: `sin(place * f_k)` for k = 0 … 191, then
   `cos(place * f_k)`, with `f_k = exp(-k * ln(10000) / 191)`. They are worked out, not stored.
4. Each layer: `x + out(attention(qkv(norm1(x))))`, then `x + down(GELU(up(norm2(x))))`. Attention
   is over all places, each head 64 wide, scaled by 64 ** -0.5. Keys without a bias have zeros in
   their third of `layers.N.qkv.b`.
5. `head(norm(x))`, and the logarithm of the softmax of that: places by 29.

An `.onnx` file beside it, if there is one, has the input `mel`, float32 (1, frames, 80), and the
output `letters`, float32 (1, frames / 2, 29), of logarithms.
"""

from __future__ import annotations

import json
import zipfile
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np
from boxaloud.assistant.asr.asr_errors import AsrError
from boxaloud.assistant.asr.asr_messages import say
from boxaloud.assistant.asr.engines.ctc.alphabet import ALPHABET, STRIDE_SAMPLES
from numpy.typing import NDArray

FORMAT = 1


@dataclass(frozen=True, slots=True)
class CtcWeights:
    """The arrays of a file, wide enough to be worked, and the dimensions of its network."""

    arrays: Mapping[str, NDArray[np.float32]]
    width: int
    layers: int
    heads: int
    bands: int
    name: str


def read_weights(path: Path) -> CtcWeights:
    """The weights in a file.

    Raises:
        AsrError: there is no such file, or it is not as this module describes.
    """
    try:
        with np.load(path, allow_pickle=False) as stored:
            arrays = {name: stored[name] for name in stored.files}
    except (OSError, EOFError, ValueError, zipfile.BadZipFile) as error:
        raise AsrError(say("ctc.missing", path=path)) from error
    try:
        return _parsed(arrays)
    except (KeyError, ValueError, TypeError) as error:
        raise AsrError(say("ctc.no_model", path=path)) from error


def _parsed(arrays: Mapping[str, NDArray[Any]]) -> CtcWeights:
    meta = json.loads(arrays["meta"].tobytes().decode())
    fixed = {"format": FORMAT, "alphabet": ALPHABET, "gelu": "tanh", "stride": STRIDE_SAMPLES}
    if any(meta[key] != value for key, value in fixed.items()):
        raise ValueError("of another form")
    width, layers, heads, bands = (int(meta[key]) for key in ("width", "layers", "heads", "bands"))
    linear, norms = shapes(width, layers, bands)
    found: dict[str, NDArray[np.float32]] = {}
    for name, (rows, columns) in linear.items():
        steps, worth = arrays[f"{name}.q"], arrays[f"{name}.s"]
        if steps.dtype != np.int8 or steps.shape != (rows, columns) or worth.shape != (rows,):
            raise ValueError(name)
        wide = steps.astype(np.float32) * worth.astype(np.float32)[:, None]
        found[f"{name}.w"] = np.ascontiguousarray(wide.T)
        found[f"{name}.b"] = _row(arrays, f"{name}.b", rows)
    for name in norms:
        found[f"{name}.g"] = _row(arrays, f"{name}.g", width)
        found[f"{name}.b"] = _row(arrays, f"{name}.b", width)
    return CtcWeights(found, width, layers, heads, bands, str(meta["name"]))


def _row(arrays: Mapping[str, NDArray[Any]], name: str, length: int) -> NDArray[np.float32]:
    row = arrays[name].astype(np.float32)
    if row.shape != (length,) or not np.isfinite(row).all():
        raise ValueError(name)
    return row


def shapes(width: int, layers: int, bands: int) -> tuple[dict[str, tuple[int, int]], list[str]]:
    """The linear maps by name, each with what comes out and what goes in; and normalisations."""
    linear = {"conv1": (width, 3 * bands), "conv2": (width, 3 * width)}
    norms = ["norm"]
    for layer in range(layers):
        name = f"layers.{layer}"
        linear[f"{name}.qkv"] = (3 * width, width)
        linear[f"{name}.out"] = (width, width)
        linear[f"{name}.up"] = (4 * width, width)
        linear[f"{name}.down"] = (width, 4 * width)
        norms += [f"{name}.norm1", f"{name}.norm2"]
    linear["head"] = (1 + len(ALPHABET), width)
    return linear, norms
