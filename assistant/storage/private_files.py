"""New files for jobs: private, there whole or not at all, and never in another's place."""

from __future__ import annotations

import contextlib
import os
import re
from collections.abc import Iterator
from pathlib import Path

PRIVATE_FILE, PRIVATE_FOLDER = 0o600, 0o700
_DRAFT = re.compile(r"\..+\.(\d+)\.new(-journal|-wal|-shm)?")


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
def draft_of(path: Path) -> Iterator[Path]:
    """An empty private file to write what shall stand at `path`, gone when the block ends."""
    draft = path.with_name(f".{path.name}.{os.getpid()}.new")
    _sweep(path.parent)
    draft.unlink(missing_ok=True)
    os.close(os.open(draft, os.O_CREAT | os.O_EXCL | os.O_WRONLY, PRIVATE_FILE))
    try:
        yield draft
    finally:
        with contextlib.suppress(OSError):
            draft.unlink(missing_ok=True)


def _sweep(folder: Path) -> None:
    """Drop the drafts of processes that were ended in the middle."""
    with contextlib.suppress(OSError):
        for entry in os.listdir(folder):
            found = _DRAFT.fullmatch(entry)
            if found and not _lives(int(found[1])):
                (folder / entry).unlink(missing_ok=True)


def _lives(process: int) -> bool:
    if os.name != "posix":  # elsewhere asking would end it
        return True
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except (OSError, OverflowError):
        return True
    return True


def into_place(draft: Path, path: Path) -> None:
    """Give the draft its name. Raises FileExistsError rather than replace another file."""
    try:
        os.link(draft, path)
    except FileExistsError:
        raise
    except OSError:  # a file system without hard links
        if path.exists() or path.is_symlink():
            raise FileExistsError(path) from None
        draft.rename(path)
    _flush_folder(path.parent)


def _flush_folder(folder: Path) -> None:
    """The new name itself must be on the disk, too, where the system can do that."""
    with contextlib.suppress(OSError):
        handle = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)


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
