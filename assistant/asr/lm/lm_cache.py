"""Files that can be made again, kept in the user's cache folder; in a passing one if need be."""

from __future__ import annotations

import shutil
import tempfile
import time
import weakref
from collections.abc import Callable
from pathlib import Path

from boxaloud.assistant.text.atomic_file import write_whole

#: Folders of other states kept beside the one in use.
KEPT = 3


class ModelCache:
    """Text files made once and found again.

    A file appears whole or not at all, whoever else makes it at the same time. Where the folder
    cannot be written, a passing one is used and removed with this object; nothing fails for want
    of a cache. `seconds` is the time spent on making files so far.
    """

    def __init__(self, folder: Path | None = None) -> None:
        self.seconds = 0.0
        self._folder = folder or _user_cache_folder()
        self._temporary = False

    @property
    def folder(self) -> Path:
        """Where the files are, or will be."""
        return self._folder

    def file(self, name: str, make: Callable[[], str]) -> Path:
        """The file `name` (a path below the folder), made by `make` unless it is there."""
        path = self._folder / name
        if path.is_file():
            return path
        began = time.perf_counter()
        text = make()
        try:
            _write(path, text)
        except OSError:
            if self._temporary:
                raise
            path = self._use_temporary_folder() / name
            _write(path, text)
        if path.parent != self._folder and not self._temporary:
            _evict_older(path.parent)
        self.seconds += time.perf_counter() - began
        return path

    def forget(self, name: str) -> None:
        """Remove a file that proved unusable, so that it is made again."""
        (self._folder / name).unlink(missing_ok=True)

    def _use_temporary_folder(self) -> Path:
        self._folder = Path(tempfile.mkdtemp(prefix="boxaloud-"))
        self._temporary = True
        weakref.finalize(self, shutil.rmtree, self._folder, ignore_errors=True)
        return self._folder


def _user_cache_folder() -> Path:
    from platformdirs import user_cache_path

    return user_cache_path("boxaloud") / "ears"


def _write(path: Path, text: str) -> None:
    path.parent.mkdir(parents=True, exist_ok=True)
    write_whole(path, text)


def _evict_older(current: Path) -> None:
    """Leave only the latest few sibling folders."""
    siblings = [path for path in current.parent.iterdir() if path.is_dir() and path != current]
    siblings.sort(key=lambda path: path.stat().st_mtime, reverse=True)
    for path in siblings[KEPT:]:
        shutil.rmtree(path, ignore_errors=True)
