"""The folders of jobs: private, and held by one front end where a job is begun or renamed."""

from __future__ import annotations

import contextlib
import os
from collections.abc import Iterator
from pathlib import Path

from boxaloud.assistant.text.atomic_file import PRIVATE_FILE

PRIVATE_FOLDER = 0o700
"""For the owner alone."""


def private_folder(folder: Path) -> None:
    """Make a folder and those above it that are missing, for their owner alone."""
    missing = []
    while not os.path.isdir(folder):
        missing.append(folder)
        folder = folder.parent
    for each in reversed(missing):
        with contextlib.suppress(FileExistsError):  # another front end was quicker
            each.mkdir(PRIVATE_FOLDER)


@contextlib.contextmanager
def alone_in(folder: Path) -> Iterator[None]:
    """Hold off others that begin or rename a job here meanwhile, where the system can do that.

    Without it two that begin one job at once would each find its name free.
    """
    with contextlib.ExitStack() as held:
        with contextlib.suppress(OSError):
            private_folder(folder)
            handle = os.open(folder / ".lock", os.O_CREAT | os.O_RDWR, PRIVATE_FILE)
            held.callback(os.close, handle)
            _lock(handle)
        yield


def _lock(handle: int) -> None:
    """Wait for the lock of an open file; it goes with the file."""
    try:
        import fcntl
    except ImportError:
        import msvcrt

        msvcrt.locking(handle, msvcrt.LK_LOCK, 1)  # type: ignore[attr-defined,unused-ignore]
    else:
        fcntl.flock(handle, fcntl.LOCK_EX)
