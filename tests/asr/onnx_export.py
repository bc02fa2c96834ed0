"""The learnt ear as an ONNX graph, from its file of weights, for runtimes that we did not write.

Weights stay bytes with a scale a row, so that the file is as small as the one it is made from.
The arithmetic is the one that `ctc_weights` tells.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import numpy as np
import onnx_protobuf
from boxaloud.assistant.asr.engines.ctc.alphabet import ALPHABET, PEAK
from boxaloud.assistant.asr.engines.ctc.ctc_encoder import (
    LAYER_NORM_EPSILON,
    LEAST_PEAK,
    LONGEST_WAVE,
)
from boxaloud.assistant.asr.engines.ctc.ctc_weights import read_weights
from boxaloud.assistant.asr.frontend import log_mel
from numpy.typing import NDArray

Arrays = dict[str, NDArray[Any]]


class Graph:
    """A graph being written, node after node."""

    def __init__(self, arrays: Arrays, width: int, heads: int) -> None:
        self._arrays = arrays
        self._width, self._heads = width, heads
        self.nodes: list[bytes] = []
        self.tensors: list[bytes] = []

    def op(self, kind: str, *given: str, **attributes: onnx_protobuf.Attribute) -> str:
        """Add a node of one output; gives the name of that."""
        made = f"v{len(self.nodes)}"
        self.nodes.append(onnx_protobuf.node(kind, given, [made], **attributes))
        return made

    def constant(self, values: NDArray[Any]) -> str:
        """Add a constant; gives its name."""
        name = f"c{len(self.tensors)}"
        self.tensors.append(onnx_protobuf.tensor(name, values))
        return name

    def numbers(self, *values: int) -> str:
        """A constant of whole numbers."""
        return self.constant(np.array(values, np.int64))

    def weight(self, steps: NDArray[np.int8], name: str, axis: int) -> str:
        """Steps of the rows of a map, whose scales run along `axis`, made wide."""
        worth = self.constant(self._arrays[f"{name}.s"].astype(np.float32))
        return self.op("DequantizeLinear", self.constant(steps), worth, axis=axis)

    def row(self, name: str) -> str:
        """A row of numbers."""
        return self.constant(self._arrays[name].astype(np.float32))

    def linear(self, state: str, name: str) -> str:
        """A map of the last axis."""
        weight = self.weight(self._arrays[f"{name}.q"].T, name, axis=1)
        return self.op("Add", self.op("MatMul", state, weight), self.row(f"{name}.b"))

    def convolution(self, state: str, name: str, step: int) -> str:
        """Each place with its two neighbours, every `step`-th, and the unit behind it. The
        places are along the last axis."""
        steps = self._arrays[f"{name}.q"]
        kernel = np.ascontiguousarray(steps.reshape(len(steps), 3, -1).transpose(0, 2, 1))
        found = self.op(
            "Conv", state, self.weight(kernel, name, axis=0), self.row(f"{name}.b"),
            strides=[step], pads=[1, 1],
        )  # fmt: skip
        return self.op("Gelu", found, approximate="tanh")

    def norm(self, state: str, name: str) -> str:
        """A normalisation of the last axis."""
        epsilon = float(LAYER_NORM_EPSILON)
        gain, shift = self.row(f"{name}.g"), self.row(f"{name}.b")
        return self.op("LayerNormalization", state, gain, shift, axis=-1, epsilon=epsilon)

    def waves(self, state: str) -> str:
        """What tells each place where it is, added."""
        half = self._width // 2
        rates = np.exp(-np.arange(half) * (np.log(LONGEST_WAVE) / (half - 1)))
        count = self.op("Gather", self.op("Shape", state), self.constant(np.array(1, np.int64)))
        zero, one = (self.constant(np.array(each, np.int64)) for each in (0, 1))
        places = self.op("Cast", self.op("Range", zero, count, one), to=1)
        column = self.op("Unsqueeze", places, self.numbers(1))
        turns = self.op("Mul", column, self.constant(rates.astype(np.float32)))
        both = self.op("Concat", self.op("Sin", turns), self.op("Cos", turns), axis=1)
        return self.op("Add", state, both)

    def attention(self, state: str, name: str) -> str:
        """Each place's look at all places."""
        whole = self.linear(state, f"{name}.qkv")
        thirds = [f"{whole}.{part}" for part in ("q", "k", "v")]
        sizes = self.numbers(*[self._width] * 3)
        self.nodes.append(onnx_protobuf.node("Split", [whole, sizes], thirds, axis=-1))
        wide = self._width // self._heads
        parted = self.numbers(1, -1, self._heads, wide)
        asked, keys, values = (
            self.op("Transpose", self.op("Reshape", third, parted), perm=perm)
            for third, perm in zip(thirds, ([0, 2, 1, 3], [0, 2, 3, 1], [0, 2, 1, 3]), strict=True)
        )
        scale = self.constant(np.array(wide**-0.5, np.float32))
        share = self.op("Mul", self.op("MatMul", asked, keys), scale)
        seen = self.op("MatMul", self.op("Softmax", share, axis=-1), values)
        side_by_side = self.op("Transpose", seen, perm=[0, 2, 1, 3])
        joined = self.op("Reshape", side_by_side, self.numbers(1, -1, self._width))
        return self.linear(joined, f"{name}.out")

    def layer(self, state: str, name: str) -> str:
        """A whole layer."""
        seen = self.attention(self.norm(state, f"{name}.norm1"), name)
        state = self.op("Add", state, seen)
        wide = self.linear(self.norm(state, f"{name}.norm2"), f"{name}.up")
        bent = self.op("Gelu", wide, approximate="tanh")
        return self.op("Add", state, self.linear(bent, f"{name}.down"))


def exported(weights: Path, of_sound: bool = False) -> bytes:
    """The graph of a file of weights: from `mel`, a spectrum, frames by bands; or with `of_sound`
    from `sound`, samples from -1 to 1 at 16 kHz, a whole number of places of them, all of which
    `SpanNetwork` does. Raises AsrError where the file is none of weights.
    """
    known = read_weights(weights)
    with np.load(weights, allow_pickle=False) as stored:
        arrays = {name: stored[name] for name in stored.files}
    graph = Graph(arrays, known.width, known.heads)
    state = graph.op("Transpose", _spectrum(graph) if of_sound else "mel", perm=[0, 2, 1])
    state = graph.convolution(graph.convolution(state, "conv1", 1), "conv2", 2)
    state = graph.waves(graph.op("Transpose", state, perm=[0, 2, 1]))
    for layer in range(known.layers):
        state = graph.layer(state, f"layers.{layer}")
    scores = graph.linear(graph.norm(state, "norm"), "head")
    graph.nodes.append(onnx_protobuf.node("LogSoftmax", [scores], ["letters"], axis=-1))
    mel = onnx_protobuf.value("mel", 1, "frames", known.bands)
    given = onnx_protobuf.value("sound", 1, "samples") if of_sound else mel
    made = onnx_protobuf.value("letters", 1, "places", 1 + len(ALPHABET))
    name = str(json.loads(arrays["meta"].tobytes())["name"])
    return onnx_protobuf.model(onnx_protobuf.graph(graph.nodes, graph.tensors, given, made, name))


def _spectrum(graph: Graph) -> str:
    """`log_mel.spectrum` of the sound, first made as loud as it is to be."""

    def number(value: float) -> str:
        return graph.constant(np.array(value, np.float32))

    loudest = graph.op("ReduceMax", graph.op("Abs", "sound"), keepdims=1)
    gain = graph.op("Div", number(PEAK), graph.op("Max", loudest, number(LEAST_PEAK)))
    half = log_mel.WINDOW_SAMPLES // 2
    sides = graph.numbers(0, half, 0, half)
    padded = graph.op("Pad", graph.op("Mul", "sound", gain), sides, mode="reflect")
    hann = np.hanning(log_mel.WINDOW_SAMPLES + 1)[:-1].astype(np.float32)
    hop, length = (
        graph.constant(np.array(each, np.int64))
        for each in (log_mel.HOP_SAMPLES, log_mel.WINDOW_SAMPLES)
    )
    waves = graph.op("STFT", padded, hop, graph.constant(hann), length, onesided=1)
    # one frame more than there are hops, which is left out
    waves = graph.op("Slice", waves, graph.numbers(0), graph.numbers(-1), graph.numbers(1))
    power = graph.op("ReduceSumSquare", waves, graph.numbers(3), keepdims=0)
    bands = graph.op("MatMul", power, graph.constant(log_mel.mel_filter_bank().T))
    least = number(log_mel.LEAST_POWER)
    levels = graph.op("Div", graph.op("Log", graph.op("Max", bands, least)), number(np.log(10)))
    top = graph.op("ReduceMax", levels, keepdims=1)
    floor = graph.op("Sub", top, number(log_mel.DYNAMIC_RANGE_LOG10))
    return graph.op("Div", graph.op("Add", graph.op("Max", levels, floor), number(4)), number(4))
