"""One core is enough: the arrays are small, and threads of a mathematics library only wait."""

from __future__ import annotations

from contextlib import AbstractContextManager, nullcontext


def single_blas_thread() -> AbstractContextManager[object]:
    """Keep numpy to one thread until the end of the block, where that can be told it."""
    try:
        from threadpoolctl import threadpool_limits
    except ImportError:
        return nullcontext()
    limits: AbstractContextManager[object] = threadpool_limits(1, "blas")
    return limits
