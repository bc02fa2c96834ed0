"""The operators of the synthesiser's ONNX graph, with PyTorch: inputs and attributes to outputs."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import numpy as np
import torch
import torch.nn.functional as F
from onnx import numpy_helper
from torch import Tensor

DTYPES = {1: torch.float32, 6: torch.int32, 7: torch.int64, 9: torch.bool}

Values = list[Any]
Operator = Callable[[Values, dict[str, Any]], Any]


def same(x: Values, a: dict[str, Any]) -> Any:
    return x[0]


def is_real(value: Any) -> bool:
    return isinstance(value, Tensor) and value.is_floating_point()


def _together(*tensors: Tensor) -> list[Tensor]:
    """The tensors on one device: that of the first that is not on the host."""
    away = next((each.device for each in tensors if each.device.type != "cpu"), None)
    return list(tensors) if away is None else [each.to(away) for each in tensors]


def _binary(work: Callable[[Tensor, Tensor], Tensor]) -> Operator:
    return lambda x, a: work(*_together(x[0], x[1]))


def _unary(work: Callable[[Tensor], Tensor]) -> Operator:
    return lambda x, a: work(x[0])


def _axes(axes: Tensor) -> list[int]:
    return [int(each) for each in axes.reshape(-1).tolist()]


def _divided(one: Tensor, other: Tensor) -> Tensor:
    if one.is_floating_point():
        return one / other
    return torch.div(one, other, rounding_mode="trunc")


def _gather(x: Values, a: dict[str, Any]) -> Tensor:
    data, index = x[0], x[1].to(x[0].device).long()
    axis = a.get("axis", 0) % data.dim()
    index = torch.where(index < 0, index + data.shape[axis], index)
    taken: Tensor = data.index_select(axis, index.reshape(-1))
    return taken.reshape((*data.shape[:axis], *index.shape, *data.shape[axis + 1 :]))


def _slice(x: Values, a: dict[str, Any]) -> Tensor:
    data = x[0]
    starts, ends = _axes(x[1]), _axes(x[2])
    axes = _axes(x[3]) if len(x) > 3 and x[3] is not None else list(range(len(starts)))
    steps = _axes(x[4]) if len(x) > 4 and x[4] is not None else [1] * len(starts)
    for start, end, axis, step in zip(starts, ends, axes, steps, strict=True):
        kept = range(data.shape[axis])[start:end:step]
        if step == 1:
            data = data.narrow(axis, kept.start if len(kept) else 0, len(kept))
        else:
            data = data.index_select(axis, torch.tensor(list(kept), device=data.device))
    return data


def _reshape(x: Values, a: dict[str, Any]) -> Tensor:
    data, shape = x[0], _axes(x[1])
    return data.reshape([data.shape[i] if n == 0 else n for i, n in enumerate(shape)])


def _unsqueezed(x: Values, a: dict[str, Any]) -> Tensor:
    data = x[0]
    whole = data.dim() + x[1].numel()
    for axis in sorted(each % whole for each in _axes(x[1])):
        data = data.unsqueeze(axis)
    return data


def _squeezed(x: Values, a: dict[str, Any]) -> Tensor:
    if len(x) < 2:
        return x[0].squeeze()
    data = x[0]
    for axis in sorted((each % data.dim() for each in _axes(x[1])), reverse=True):
        data = data.squeeze(axis)
    return data


def _padded(x: Tensor, pads: list[int]) -> tuple[Tensor, int]:
    """Input with the part of its padding that is not even, and the even part."""
    even = min(pads)
    extra = [each - even for each in pads]
    return (F.pad(x, extra) if any(extra) else x), even


def _conv(x: Values, a: dict[str, Any]) -> Tensor:
    data, even = _padded(x[0], list(a["pads"]))
    bias = x[2] if len(x) > 2 else None
    return F.conv1d(data, x[1], bias, a["strides"][0], even, a["dilations"][0], a.get("group", 1))


def _conv_integer(x: Values, a: dict[str, Any]) -> Tensor:
    return _conv([x[0], x[1] - x[3]], a)


def _conv_transposed(x: Values, a: dict[str, Any]) -> Tensor:
    bias = x[2] if len(x) > 2 else None
    (left, right), out = a["pads"], a.get("output_padding", [0])[0]
    assert left == right
    return F.conv_transpose1d(
        x[0], x[1], bias, a["strides"][0], left, out, a.get("group", 1), a["dilations"][0]
    )


def _lstm(x: Values, a: dict[str, Any]) -> Values:
    """A two-way LSTM; ONNX orders its gates input, output, forget, cell."""
    data, hidden = x[0], a["hidden_size"]
    order = torch.cat([torch.arange(hidden) + hidden * gate for gate in (0, 2, 3, 1)])
    order = order.to(data.device)
    weights: list[Tensor] = []
    for way in (0, 1):
        for matrix, scale, zero in ((x[1], x[8], x[9]), (x[2], x[10], x[11])):
            plain = (matrix[way] - zero[way]) * scale[way]
            weights.append(plain.t()[order].contiguous())
        both = x[3][way]
        weights += [both[: 4 * hidden][order], both[4 * hidden :][order]]
    initial = (x[5].to(data.device), x[6].to(data.device))
    found, _, _ = torch.lstm(data.contiguous(), initial, weights, True, 1, 0.0, False, True, False)
    length, batch, _ = found.shape
    return [found.reshape(length, batch, 2, hidden).permute(0, 2, 1, 3)]


def _resized(x: Values, a: dict[str, Any]) -> Tensor:
    scale = float(x[2][-1])
    whole = int(np.floor(x[0].shape[-1] * scale + 1e-4))
    if a["mode"] == b"nearest":
        places = (torch.arange(whole, device=x[0].device) / scale).floor().long()
        return x[0].index_select(-1, places.clamp(max=x[0].shape[-1] - 1))
    return F.interpolate(x[0], size=whole, mode="linear", align_corners=False)


def _layer_norm(x: Values, a: dict[str, Any]) -> Tensor:
    return F.layer_norm(x[0], x[0].shape[-1:], x[1], x[2], a["epsilon"])


def _skip_layer_norm(x: Values, a: dict[str, Any]) -> Tensor:
    return F.layer_norm(x[0] + x[1], x[0].shape[-1:], x[2], x[3], a["epsilon"])


def _stft(x: Values, a: dict[str, Any]) -> Tensor:
    frames = (
        x[0]
        .reshape(x[0].shape[0], -1)
        .unfold(1, int(x[3] if x[3] is not None else len(x[2])), int(x[1]))
    )
    return torch.view_as_real(torch.fft.rfft(frames * x[2]))


def _pad(x: Values, a: dict[str, Any]) -> Tensor:
    pads = _axes(x[1])
    half = len(pads) // 2
    return F.pad(x[0], (pads[half - 1], pads[-1]), mode="reflect")


def _scattered(x: Values, a: dict[str, Any]) -> Tensor:
    data, index, updates = x[0].clone(), x[1].to(x[0].device), x[2]
    data[tuple(index.unbind(-1))] = updates
    return data


def _fused_matmul(x: Values, a: dict[str, Any]) -> Tensor:
    one = x[0].transpose(-1, -2) if a["transA"] else x[0]
    other = x[1].transpose(-1, -2) if a["transB"] else x[1]
    return torch.matmul(one, other) * a["alpha"]


def _mean(x: Values, a: dict[str, Any]) -> Tensor:
    return x[0].mean(_axes(x[1]), keepdim=bool(a["keepdims"]))


def _filled(x: Values, a: dict[str, Any]) -> Tensor:
    value = torch.tensor(numpy_helper.to_array(a["value"]))
    return torch.full(_axes(x[0]), value.item(), dtype=value.dtype)


def _where(x: Values, a: dict[str, Any]) -> Tensor:
    return torch.where(*_together(x[0], x[1], x[2]))


def _concat(x: Values, a: dict[str, Any]) -> Tensor:
    return torch.cat(_together(*x), a["axis"])


OPERATORS: dict[str, Operator] = {
    "Add": _binary(torch.add),
    "And": _binary(torch.logical_and),
    # The phase of a bin that holds nothing at all is 0 by 0.
    "Atan": _unary(lambda x: torch.atan(x.nan_to_num(0.0))),
    "Cast": lambda x, a: x[0].to(DTYPES[a["to"]]),
    "Clip": lambda x, a: x[0].clamp(min=float(x[1])),
    "Concat": _concat,
    "ConstantOfShape": _filled,
    "Conv": _conv,
    "ConvInteger": _conv_integer,
    "ConvTranspose": _conv_transposed,
    "Cos": _unary(torch.cos),
    "CumSum": lambda x, a: x[0].cumsum(int(x[1])),
    "DequantizeLinear": lambda x, a: (x[0] - x[2]) * x[1],
    "Div": _binary(_divided),
    "DynamicQuantizeLSTM": _lstm,
    "DynamicQuantizeLinear": same,
    "Equal": _binary(torch.eq),
    "Exp": _unary(torch.exp),
    "Expand": lambda x, a: x[0] * torch.ones(_axes(x[1]), dtype=x[0].dtype, device=x[0].device),
    "FastGelu": lambda x, a: F.gelu(x[0] + x[1], approximate="tanh"),
    "Floor": _unary(torch.floor),
    "FusedMatMul": _fused_matmul,
    "Gather": _gather,
    "Greater": _binary(torch.gt),
    "GreaterOrEqual": _binary(torch.ge),
    "LayerNormalization": _layer_norm,
    "LeakyRelu": lambda x, a: F.leaky_relu(x[0], a["alpha"]),
    "Less": _binary(torch.lt),
    "MatMul": _binary(torch.matmul),
    "MatMulInteger": lambda x, a: torch.matmul(x[0], x[1] - x[3]),
    "Mul": _binary(torch.mul),
    "NonZero": lambda x, a: torch.nonzero(x[0]).t(),
    "Pad": _pad,
    "Pow": _binary(torch.pow),
    "Range": lambda x, a: torch.arange(int(x[0]), int(x[1]), int(x[2]), device=x[1].device),
    "ReduceMean": _mean,
    "ReduceSum": lambda x, a: x[0].sum(_axes(x[1]), keepdim=bool(a["keepdims"])),
    "Reshape": _reshape,
    "Resize": _resized,
    "Round": _unary(torch.round),
    "STFT": _stft,
    "ScatterND": _scattered,
    "Shape": lambda x, a: torch.tensor(x[0].shape),
    "Sigmoid": _unary(torch.sigmoid),
    "Sin": _unary(torch.sin),
    "SkipLayerNormalization": _skip_layer_norm,
    "Slice": _slice,
    "Softmax": lambda x, a: x[0].softmax(a["axis"]),
    "Split": lambda x, a: x[0].split(_axes(x[1]), a["axis"]),
    "Sqrt": _unary(torch.sqrt),
    "Squeeze": _squeezed,
    "Sub": _binary(torch.sub),
    "Tanh": _unary(torch.tanh),
    "Transpose": lambda x, a: x[0].permute(*a["perm"]),
    "Unsqueeze": _unsqueezed,
    "Where": _where,
}
