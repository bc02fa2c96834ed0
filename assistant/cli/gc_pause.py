"""Starting without searching for garbage: nearly all that a start makes lasts to the end."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def lasting() -> Iterator[None]:
    """Put off the search for garbage; what was made meanwhile is left out of it from then on.

    Without this a process searches the grammar several times over while it is being built, and
    once more when it ends, and finds nothing.
    """
    gc.disable()
    try:
        yield
    finally:
        gc.freeze()
        gc.enable()
