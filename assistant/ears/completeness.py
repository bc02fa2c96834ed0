"""Can what was said so far stand as a statement, or is the rest still to come?

Judged by the grammar on the words heard so far, so that a complete statement is answered after
half a second and a person who thinks in the middle of one is not cut off.
"""

from __future__ import annotations

import tomllib
from functools import lru_cache
from importlib.resources import files
from typing import Any

from assistant.ears.hearing import UNKNOWN
from grammar import understand


def complete(words: str, expect: str | None = None) -> bool:
    """False where the words end in the middle of something.

    `expect` names the open question. Where nothing of the trade was heard there is nothing to
    wait for.
    """
    said = words.replace(UNKNOWN, " ").split()
    if not said:
        return True
    table, last = _table(), said[-1].lower()
    leading = last in table["words"]["leading"]
    if leading:
        return len(said) == 1 and last in table["words"]["alone"]
    kinds = [statement.kind for statement in understand(" ".join(said), expect).statements]
    if kinds and kinds[-1] in table["kinds"]["hanging"]:
        return False
    if last in table["words"]["fractions"] or _is_number(last):
        return _ends(kinds, expect)
    return True


def _ends(kinds: list[str], expect: str | None) -> bool:
    """True where the number at the end is all that was to come."""
    table = _table()
    if not kinds or kinds[-1] not in table["kinds"]["values"]:
        return bool(kinds) and kinds[-1] in table["kinds"]["closed"]
    if len(kinds) == 1:
        return expect in table["questions"]["numbered"]
    return kinds[-2] in table["kinds"]["operators"]


@lru_cache(maxsize=256)
def _is_number(word: str) -> bool:
    kinds = [statement.kind for statement in understand(word).statements]
    return bool(kinds) and kinds[0] in _table()["kinds"]["values"]


@lru_cache(maxsize=1)
def _table() -> dict[str, Any]:
    path = files("assistant.ears") / "data" / "unfinished.toml"
    return tomllib.loads(path.read_text(encoding="utf-8"))
