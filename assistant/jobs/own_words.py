"""A person's own words ("when I say blue box I mean …"), kept for all their jobs."""

from __future__ import annotations

import contextlib
import json
import os
from collections.abc import Mapping

from assistant.jobs.places import own_words_file


def read() -> dict[str, str]:
    """Every own word and what it means; none where the file is not there or not readable."""
    with contextlib.suppress(OSError, ValueError):
        found = json.loads(own_words_file().read_text(encoding="utf-8"))
        if isinstance(found, dict):
            return {str(word): str(meaning) for word, meaning in found.items()}
    return {}


def write(words: Mapping[str, str]) -> None:
    """Keep these, whole or not at all. Trouble is no matter: the journal has them, too."""
    path = own_words_file()
    draft = path.with_name(f".{path.name}.{os.getpid()}.new")
    with contextlib.suppress(OSError):
        path.parent.mkdir(parents=True, exist_ok=True)
        with draft.open("w", encoding="utf-8") as out:
            json.dump({**read(), **words}, out, ensure_ascii=False, indent=1)
            out.flush()
            os.fsync(out.fileno())
        os.replace(draft, path)
