"""Writing what was asked for with `-o`: whole or not at all, and only ever to a file.

A link is followed and stays; the mode of a file that is there stays; a folder, a pipe or a
device is refused, since putting a file in its place would take it away.
"""

from __future__ import annotations

import contextlib
import errno
import os
import shutil
import stat
from collections.abc import Iterator
from pathlib import Path

from boxaloud.assistant.text.atomic_file import draft_beside, put_in_place
from boxaloud.assistant.text.problem import Problem


@contextlib.contextmanager
def output(path: Path) -> Iterator[Path]:
    """An empty draft to write to; what is in it when the block ends stands at `path`.

    Raises Problem, in a sentence, where that cannot be.
    """
    try:
        target, known = _target(path)
        mode = stat.S_IMODE(known.st_mode) if known else 0o666 & ~_mask()
        with draft_beside(target, mode) as draft:
            yield draft
            _into_place(draft, target, known)
    except OSError as fault:
        raise _refused(path, fault) from None


def _refused(path: Path, fault: OSError) -> Problem:
    shown = str(path) if len(str(path)) <= 300 else f"{str(path)[:300]}…"
    return Problem(f"{shown} cannot be written: {fault.strerror or fault}.")


def _target(path: Path) -> tuple[Path, os.stat_result | None]:
    """Where the links from a path lead, and what stands there: a file, or nothing yet."""
    target = Path(os.path.realpath(path))
    try:
        found = os.stat(path)
    except FileNotFoundError:
        if target.is_symlink():
            raise Problem(f"{path} is a link that leads to itself: name a file.") from None
        return target, None
    except OSError as fault:
        if Path(path).is_symlink():
            raise Problem(f"{path} is a link that leads nowhere: name a file.") from None
        raise fault
    if not stat.S_ISREG(found.st_mode):
        kind = "a folder" if stat.S_ISDIR(found.st_mode) else "a pipe or a device"
        raise Problem(f"{path} is {kind}: name a file.")
    if not os.access(target, os.W_OK):
        raise PermissionError(errno.EACCES, os.strerror(errno.EACCES))
    return target, found


def _mask() -> int:
    """What the system takes from the mode of a new file."""
    mask = os.umask(0)
    os.umask(mask)
    return mask


def _into_place(draft: Path, target: Path, known: os.stat_result | None) -> None:
    """A file with several names, or of another owner, is written over; else the draft moves in."""
    if known is not None and (known.st_nlink > 1 or known.st_uid != draft.stat().st_uid):
        shutil.copyfile(draft, target)
        return
    put_in_place(draft, target)
