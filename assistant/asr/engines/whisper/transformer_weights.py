"""The arrays of a model file as CTranslate2 writes it (binary version 6). Nothing in it is run."""

from __future__ import annotations

import struct
from pathlib import Path
from typing import TYPE_CHECKING, Any

from boxaloud.assistant.asr.asr_errors import AsrError
from boxaloud.assistant.asr.asr_messages import say

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

FORMAT_VERSION = 6
#: How the file numbers the types of its arrays.
DTYPES = {0: "<f4", 1: "i1", 2: "<i2", 3: "<i4", 4: "<f2"}


def read_weights(path: Path) -> dict[str, NDArray[Any]]:
    """The arrays of a model file by name, as they are stored, looked at in place.

    Raises:
        EarsError: there is no such file, or it is of another kind.
    """
    import numpy as np

    try:
        content = np.memmap(path, np.uint8, "r")
    except (OSError, ValueError) as error:
        raise AsrError(say("whisper.missing", path=path)) from error
    try:
        return _parse_weights(content)
    except (struct.error, ValueError, KeyError, UnicodeDecodeError) as error:
        raise AsrError(say("whisper.no_model", path=path)) from error


def _parse_weights(content: NDArray[np.uint8]) -> dict[str, NDArray[Any]]:
    at = 0

    def number(kind: str) -> int:
        nonlocal at
        form = struct.Struct(f"<{kind}")
        (value,) = form.unpack(content[at : at + form.size].tobytes())
        at += form.size
        return int(value)

    def text() -> str:
        nonlocal at
        length = number("H")
        at += length
        return bytes(content[at - length : at]).rstrip(b"\0").decode()

    if number("I") != FORMAT_VERSION or text() != "WhisperSpec":
        raise ValueError("of another kind")
    number("I")
    found = {}
    for _ in range(number("I")):
        name = text()
        shape = [number("I") for _ in range(number("B"))]
        kind = DTYPES[number("B")]
        size = number("I")
        at += size
        found[name] = content[at - size : at].view(kind).reshape(shape)
    return found
