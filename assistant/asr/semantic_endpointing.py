"""Can what was said so far stand as a statement, or is the rest still to come?

Judged by the grammar on the words heard so far, so that a complete statement is answered after
half a second and a person who thinks in the middle of one is not cut off.
"""

from __future__ import annotations

import tomllib
from collections.abc import Sequence
from functools import lru_cache
from importlib.resources import files
from typing import Any

from boxaloud.assistant.asr.asr_types import UNKNOWN
from boxaloud.grammar import recognise
from boxaloud.grammar.acts import Act, Suppose, Utterance
from boxaloud.grammar.clauses.act_fields import THINGS


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
    read = recognise(" ".join(said), expect)
    if _change_lacks_object(said, read):
        return False
    if last in table["words"]["fractions"] or _is_number(last):
        return _number_completes(read.acts, expect)
    return True


def _change_lacks_object(said: Sequence[str], read: Utterance) -> bool:
    """True where a verb of change has nothing yet that it could do."""
    words = _table()["words"]
    ending = " ".join(said).lower()
    if any(ending == phrase or ending.endswith(f" {phrase}") for phrase in words["hanging"]):
        return True
    unread = " ".join(run.words.lower() for run in read.unread).split()
    named = said[0].lower() in words["changing"] and _names_only(read.acts)
    return named or any(word in words["changing"] for word in unread)


def _names_only(told: Sequence[Act]) -> bool:
    """True where things were named, and not what becomes of them."""
    return bool(told) and all(isinstance(act, tuple(THINGS.values())) for act in told)


def _number_completes(told: Sequence[Act], expect: str | None) -> bool:
    """True where the number at the end is all that was to come."""
    if not told:
        return False
    last = told[-1]
    if isinstance(last, Suppose):
        return _is_value(last.acts[-1]) if last.acts else False
    if not _is_value(last):
        return _in_act_group(last, "closed")
    if len(told) == 1:
        return expect in _table()["questions"]["numbered"]
    return _in_act_group(told[-2], "operators")


def _in_act_group(act: Act, group: str) -> bool:
    return type(act).__name__ in _table()["acts"][group]


def _is_value(act: Act) -> bool:
    return _in_act_group(act, "values")


@lru_cache(maxsize=256)
def _is_number(word: str) -> bool:
    told = recognise(word).acts
    return bool(told) and _is_value(told[0])


@lru_cache(maxsize=1)
def _table() -> dict[str, Any]:
    path = files("boxaloud.assistant.asr") / "data" / "unfinished.toml"
    return tomllib.loads(path.read_text(encoding="utf-8"))
