"""Names of jobs and of the files they are kept in."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Container

LONGEST = 48
_RESERVED = frozenset({"con", "prn", "aux", "nul"})


def tidy(name: str) -> str:
    """A name on one line, with single spaces."""
    return " ".join("".join(c if c.isprintable() else " " for c in name).split())


def same(one: str, other: str) -> bool:
    """Whether two names are the same to a person."""
    return tidy(one).casefold() == tidy(other).casefold()


def unused(name: str, taken: Container[str]) -> str:
    """The name, or the name with the first number that is free. `taken` is in lower case."""
    if name.casefold() not in taken:
        return name
    number = 2
    while f"{name} {number}".casefold() in taken:
        number += 1
    return f"{name} {number}"


def file_stem(name: str) -> str:
    """The name as a file's name that any system takes."""
    plain = unicodedata.normalize("NFKD", tidy(name)).encode("ascii", "ignore").decode()
    stem = re.sub(r"[^a-z0-9]+", "-", plain.lower()).strip("-")[:LONGEST].strip("-")
    return f"job-{stem}" if not stem or stem in _RESERVED else stem
