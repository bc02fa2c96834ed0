"""The form of a compiled grammar: named sections of plain data in one run of bytes.

First a line with the fingerprint of what it was made from and a check sum of all that follows,
then a line that says where each section lies, then the sections. A section is JSON, or whole
numbers of 2 or 4 bytes in the order of the machine. Nothing in it can be executed, and a section
is not read before it is asked for.
"""

from __future__ import annotations

import json
import zlib
from collections.abc import Mapping, Sequence
from typing import Any


class Compiled:
    """The sections of a compiled grammar."""

    def __init__(self, sections: Mapping[str, Sequence[Any]], body: memoryview) -> None:
        self._sections = sections
        self._body = body

    def data(self, name: str) -> Any:
        """A section of JSON, read anew at every call."""
        _, first, last = self._sections[name]
        return json.loads(bytes(self._body[first:last]))

    def numbers(self, name: str) -> memoryview:
        """A section of whole numbers, in place: they are read one by one as they are used."""
        code, first, last = self._sections[name]
        return self._body[first:last].cast(code)


def written(
    fingerprint: str, data: Mapping[str, Any], numbers: Mapping[str, Sequence[int]]
) -> bytes:
    """The sections as bytes. Raises TypeError for data that JSON cannot say."""
    from array import array

    sections: dict[str, tuple[str, int, int]] = {}
    body = b""
    for name, values in numbers.items():
        code = "H" if max(values, default=0) < 1 << 16 else "I"
        part = array(code, values).tobytes()
        sections[name] = (code, len(body), len(body) + len(part))
        body += part
    for name, value in data.items():
        part = json.dumps(value, ensure_ascii=False, separators=(",", ":")).encode()
        sections[name] = ("", len(body), len(body) + len(part))
        body += part
    checked = json.dumps(sections, separators=(",", ":")).encode() + b"\n" + body
    return f"{fingerprint} {zlib.crc32(checked):08x}\n".encode() + checked


def read(raw: bytes, fingerprint: str) -> Compiled | None:
    """The sections in `raw`; None where it is damaged or was made from another state."""
    first = raw.find(b"\n") + 1
    checked = memoryview(raw)[first:]
    if raw[:first] != f"{fingerprint} {zlib.crc32(checked):08x}\n".encode():
        return None
    second = raw.index(b"\n", first) + 1
    return Compiled(json.loads(raw[first:second]), memoryview(raw)[second:])
