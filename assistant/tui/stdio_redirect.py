"""Keeping file descriptors 1 and 2 for the screen alone.

Engines in C write to them behind Python's back and would tear the picture. While the screen
runs, both lead to a log; Textual draws through copies of the real ones.
"""

from __future__ import annotations

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from io import TextIOWrapper
from pathlib import Path


@contextmanager
def kept_quiet(log: Path) -> Iterator[None]:
    """Send what anyone else writes to descriptors 1 and 2 into `log`, or nowhere."""
    sys.stdout.flush()
    sys.stderr.flush()
    real = {descriptor: os.dup(descriptor) for descriptor in (1, 2)}
    before = sys.__stdout__, sys.__stderr__
    sink = _opened(log)
    copies = [_stream(os.dup(real[1])), _stream(os.dup(real[2]))]
    try:
        os.dup2(sink, 1)
        os.dup2(sink, 2)
        sys.__stdout__, sys.__stderr__ = copies  # type: ignore[misc]
        yield
    finally:
        for descriptor, copy in real.items():
            os.dup2(copy, descriptor)
            os.close(copy)
        os.close(sink)
        sys.__stdout__, sys.__stderr__ = before  # type: ignore[misc]
        for stream in copies:
            stream.close()


def _opened(log: Path) -> int:
    """The log, begun anew; where it cannot be written, nowhere."""
    try:
        log.parent.mkdir(parents=True, exist_ok=True)
        return os.open(log, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, 0o600)
    except OSError:
        return os.open(os.devnull, os.O_WRONLY)


def _stream(descriptor: int) -> TextIOWrapper:
    return os.fdopen(descriptor, "w", encoding="utf-8", errors="replace")
