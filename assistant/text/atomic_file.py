"""Files that appear whole or not at all: the one place where a draft is written and named.

A draft stands beside its target, so that giving it its name is one step of the file system; it
is flushed before that, and the folder after it. Whatever ends the writing, the draft goes.
"""

from __future__ import annotations

import contextlib
import os
import re
from collections.abc import Iterator
from pathlib import Path

PRIVATE_FILE = 0o600
"""For the owner alone."""

_DRAFT = re.compile(r"\..+\.(\d+)\.new(-journal|-wal|-shm)?")


@contextlib.contextmanager
def draft_beside(target: Path, mode: int = PRIVATE_FILE) -> Iterator[Path]:
    """An empty draft to write what shall stand at `target`, gone when the block ends.

    Its name is short whatever the target's is, and tells which process writes it. Raises OSError
    where none can be made.
    """
    draft = target.with_name(f".boxaloud-{os.urandom(4).hex()}.{os.getpid()}.new")
    os.close(os.open(draft, os.O_CREAT | os.O_EXCL | os.O_WRONLY, PRIVATE_FILE))
    try:
        if mode != PRIVATE_FILE and os.name == "posix":
            os.chmod(draft, mode)  # whatever the system takes from the mode of a new file
        yield draft
    finally:
        with contextlib.suppress(OSError):
            draft.unlink(missing_ok=True)


def put_in_place(draft: Path, target: Path) -> None:
    """Give the draft its name, in place of whatever file has it."""
    _flush(draft)
    os.replace(draft, target)
    _flush(target.parent)


def put_where_none_is(draft: Path, target: Path) -> None:
    """Give the draft its name. Raises FileExistsError rather than replace another file."""
    _flush(draft)
    try:
        os.link(draft, target)
    except FileExistsError:
        raise
    except (OSError, AttributeError):  # a file system, or a system, without hard links
        if target.exists() or target.is_symlink():
            raise FileExistsError(target) from None
        draft.rename(target)
    _flush(target.parent)


def write_whole(target: Path, text: str) -> None:
    """Write a text as a private file, in place of whatever file is there."""
    with draft_beside(target) as draft:
        draft.write_text(text, encoding="utf-8", newline="")
        put_in_place(draft, target)


def sweep(folder: Path) -> None:
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


def _flush(path: Path) -> None:
    """What was written, or a new name in a folder, must be on the disk where that can be done."""
    with contextlib.suppress(OSError):
        handle = os.open(path, os.O_RDONLY)
        try:
            os.fsync(handle)
        finally:
            os.close(handle)
