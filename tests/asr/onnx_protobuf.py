"""Just enough of ONNX's file format to write a graph: protocol buffers as `onnx.proto3` numbers
their fields (ONNX 1.16, IR version 10, Apache License 2.0)."""

from __future__ import annotations

import struct
from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

IR_VERSION = 10
OPERATORS = 20
_TYPES = {"float32": 1, "int8": 3, "int64": 7}
Attribute = int | float | str | Sequence[int]


def model(graph: bytes) -> bytes:
    """A whole file of a graph."""
    operators = _field(8, _number(2, OPERATORS))
    return _number(1, IR_VERSION) + _field(2, b"boxaloud") + _field(7, graph) + operators


def graph(
    nodes: Sequence[bytes], tensors: Sequence[bytes], given: bytes, made: bytes, name: str
) -> bytes:
    """A graph of nodes in their order, with its constants, what goes in and what comes out."""
    parts = [_field(1, node) for node in nodes] + [_field(2, name.encode())]
    parts += [_field(5, each) for each in tensors] + [_field(11, given), _field(12, made)]
    return b"".join(parts)


def node(kind: str, given: Sequence[str], made: Sequence[str], **attributes: Attribute) -> bytes:
    """One operation: the names of what it takes and of what it makes."""
    parts = [_field(1, each.encode()) for each in given]
    parts += [_field(2, each.encode()) for each in made]
    parts += [_field(4, kind.encode())]
    parts += [_field(5, _attribute(key, value)) for key, value in attributes.items()]
    return b"".join(parts)


def tensor(name: str, values: NDArray[Any]) -> bytes:
    """A constant."""
    parts = [_number(1, length) for length in values.shape]
    parts += [_number(2, _TYPES[values.dtype.name]), _field(8, name.encode())]
    return b"".join(parts) + _field(9, np.ascontiguousarray(values).tobytes())


def value(name: str, *lengths: int | str) -> bytes:
    """What goes in or comes out: numbers of 32 bits, a name in place of a length that varies."""
    each = (_number(1, one) if isinstance(one, int) else _field(2, one.encode()) for one in lengths)
    shape = b"".join(_field(1, one) for one in each)
    return _field(1, name.encode()) + _field(2, _field(1, _number(1, 1) + _field(2, shape)))


def _attribute(name: str, given: Attribute) -> bytes:
    start = _field(1, name.encode())
    if isinstance(given, float):
        return start + _key(2, 5) + struct.pack("<f", given) + _number(20, 1)
    if isinstance(given, int):
        return start + _number(3, given) + _number(20, 2)
    if isinstance(given, str):
        return start + _field(4, given.encode()) + _number(20, 3)
    return start + b"".join(_number(8, each) for each in given) + _number(20, 7)


def _field(number: int, raw: bytes) -> bytes:
    return _key(number, 2) + _varint(len(raw)) + raw


def _number(number: int, worth: int) -> bytes:
    return _key(number, 0) + _varint(worth & (1 << 64) - 1)


def _key(number: int, kind: int) -> bytes:
    return _varint(number << 3 | kind)


def _varint(worth: int) -> bytes:
    out = bytearray()
    while worth > 127:
        out.append(worth & 127 | 128)
        worth >>= 7
    out.append(worth)
    return bytes(out)
