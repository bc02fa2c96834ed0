"""Run an ONNX graph with PyTorch, quantised arithmetic undone: for speech synthesis on a GPU.

No runtime of the registries' reach runs a dynamically quantised graph on a GPU. Here every
quantised product is worked out in float32 with the weights that the integers stand for, so that
the sound is that of the unquantised network. Only the operators that the synthesiser uses are
known; another one raises `KeyError` with its name.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import numpy as np
import onnx
import torch
from onnx import helper, numpy_helper
from onnx_operators import OPERATORS, Operator, is_real, same
from torch import Tensor

#: ONNX's number of the type int32, to which a bias is rounded.
ROUNDED = 6
#: Integers of fewer values than this are shapes and places: they stay on the host.
SMALL = 4096


@dataclass(slots=True)
class _Step:
    """One operator of the graph: where its inputs and outputs stand, and what ends with it."""

    run: Operator
    kind: str
    attributes: dict[str, Any]
    inputs: list[str]
    outputs: list[str]
    last_used: list[str]


class Graph:
    """An ONNX graph on `device`, its constant part worked out once."""

    def __init__(self, path: str, device: str) -> None:
        graph = onnx.load(path).graph
        self.device = device
        self.known: dict[str, Any] = {"": None}
        self.same: dict[str, str] = {}
        for constant in graph.initializer:
            self.known[constant.name] = self._placed(numpy_helper.to_array(constant))
        self.output = graph.output[0].name
        self.steps: list[_Step] = []
        for node in graph.node:
            self._add(node)
        self._note_last_uses()

    def _placed(self, array: np.ndarray) -> Tensor:
        tensor = torch.from_numpy(np.array(array))
        if tensor.dtype in (torch.int8, torch.uint8):
            tensor = tensor.float()
        host = not tensor.is_floating_point() and tensor.numel() < SMALL
        return tensor if host else tensor.to(self.device)

    def _add(self, node: onnx.NodeProto) -> None:
        attributes = {each.name: helper.get_attribute_value(each) for each in node.attribute}
        step = _Step(
            OPERATORS[node.op_type], node.op_type, attributes, [*node.input], [*node.output], []
        )
        step.inputs = [self.same.get(name, name) for name in step.inputs]
        if node.op_type == "DynamicQuantizeLinear":
            quantised, scale, zero = step.outputs
            self.same[quantised] = step.inputs[0]
            self.known[scale] = torch.tensor(1.0, device=self.device)
            self.known[zero] = torch.tensor(0.0, device=self.device)
        elif all(name in self.known for name in step.inputs):
            # Constants are rounded only to be added to integers, and here nothing is one.
            rounds = step.kind == "Floor" or step.attributes.get("to") == ROUNDED
            step.run = same if rounds and is_real(self.known[step.inputs[0]]) else step.run
            self._run(step, self.known)
        else:
            self.steps.append(step)

    def _note_last_uses(self) -> None:
        seen = {self.output}
        for step in reversed(self.steps):
            for name in {*step.inputs, *step.outputs} - seen - self.known.keys():
                step.last_used.append(name)
                seen.add(name)

    def _run(self, step: _Step, values: dict[str, Any]) -> None:
        inputs = [values[name] for name in step.inputs]
        results = step.run(inputs, step.attributes)
        if not isinstance(results, (tuple, list)):
            results = (results,)
        for name, result in zip(step.outputs, results, strict=False):
            values[name] = result

    @torch.inference_mode()
    def __call__(self, **inputs: Tensor) -> Tensor:
        """The first output of the graph."""
        values = dict(self.known)
        values.update(inputs)
        for step in self.steps:
            self._run(step, values)
            for name in step.last_used:
                values.pop(name, None)
        result: Tensor = values[self.output]
        return result
