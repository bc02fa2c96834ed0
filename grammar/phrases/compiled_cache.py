"""Where the compiled grammar is kept: in the package if it was built so, else in the user's cache.

A cache is only ever a saving of time. One that cannot be read, is damaged or was made from
another state of the grammar is passed over, and one that cannot be written is not written.
"""

from __future__ import annotations

import os
from functools import lru_cache
from typing import TYPE_CHECKING

from boxaloud.grammar import package_files

if TYPE_CHECKING:
    from boxaloud.grammar.phrases.compiled_form import Compiled

#: The file that a build puts beside the modules.
SHIPPED = "compiled.grammar"
#: Compiled grammars kept in the cache, this one among them.
KEPT = 3
#: Drafts that a process left when it was killed are removed after this many seconds.
_ABANDONED = 3600


@lru_cache(maxsize=1)
def kept() -> Compiled | None:
    """The compiled grammar for the state of the files, where one is kept. Looked for once."""
    try:
        found = _checked(package_files.content(SHIPPED))
    except OSError:
        found = None
    if found is not None:
        return found
    folder = users_folder()
    if not folder:
        return None
    try:
        with open(os.path.join(folder, _name()), "rb") as file:
            return _checked(file.read())
    except OSError:
        return None


def keep(raw: bytes) -> None:
    """Put a compiled grammar into the user's cache, whole or not at all; silent if it cannot."""
    folder = users_folder()
    if not folder:
        return
    try:
        os.makedirs(folder, exist_ok=True)
        _write_whole(folder, raw)
        _forget_older(folder)
    except OSError:
        return


def users_folder() -> str:
    """The folder of compiled grammars in the user's cache; "" where the user has none."""
    try:
        from platformdirs import user_cache_dir

        folder = os.path.join(user_cache_dir("boxaloud"), "grammar")
    except (ImportError, OSError, RuntimeError):
        return ""
    return folder if os.path.isabs(folder) else ""


def _checked(raw: bytes) -> Compiled | None:
    from boxaloud.grammar.phrases.compiled_form import read

    return read(raw, package_files.fingerprint())


def _name() -> str:
    return f"{package_files.fingerprint()}.grammar"


def _write_whole(folder: str, raw: bytes) -> None:
    from contextlib import suppress
    from tempfile import mkstemp

    handle, draft = mkstemp(dir=folder, suffix=".draft")
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(raw)
        os.replace(draft, os.path.join(folder, _name()))
    except BaseException:
        with suppress(OSError):
            os.unlink(draft)
        raise


def _forget_older(folder: str) -> None:
    """Leave the compiled grammars used last, and no draft that nobody writes any more."""
    import time

    with os.scandir(folder) as entries:
        aged = sorted(((entry.stat().st_mtime, entry.path) for entry in entries), reverse=True)
    compiled = [path for _, path in aged if path.endswith(".grammar")]
    began = time.time() - _ABANDONED
    drafts = [path for changed, path in aged if path.endswith(".draft") and changed < began]
    for path in (*compiled[KEPT:], *drafts):
        os.unlink(path)
