"""Which of the very many rewritings of sentences are tried in a run: one in six, the same ones
each time, and every one that is known to fail. `BOXALOUD_EVERY=1` has all of them tried."""

from __future__ import annotations

import os
from functools import cache
from zlib import crc32

from matrix_rows import known_faults

ONE_IN = 1 if os.environ.get("BOXALOUD_EVERY") else 6


def is_due(name: str) -> bool:
    """Whether a rewriting is tried, by its name in a trial."""
    return crc32(name.encode()) % ONE_IN == 0 or name in _known()


@cache
def _known() -> frozenset[str]:
    return frozenset(name for faults in known_faults().values() for name in faults)
