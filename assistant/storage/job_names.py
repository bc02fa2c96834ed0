"""Names of jobs and of the files they are kept in."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Container

LONGEST = 48
_JOINERS = "\u200c\u200d"
"""Not seen themselves, but letters of several scripts are other letters without them."""
MOST_LETTERS = 120
_RESERVED = frozenset({"con", "prn", "aux", "nul"})


def tidy(name: str) -> str:
    """A name on one line, with single spaces, each letter composed with its marks."""
    plain = "".join(c if c.isprintable() or c in _JOINERS else " " for c in name)
    return " ".join(unicodedata.normalize("NFC", plain).split())


def folded(name: str) -> str:
    """What is the same in all ways to write a name: in full or half width, in any case, with
    its letters composed or not."""
    return unicodedata.normalize("NFKC", tidy(name)).casefold()


def same(one: str, other: str) -> bool:
    """Whether two names are the same to a person."""
    return folded(one) == folded(other)


def unused(name: str, taken: Container[str]) -> str:
    """The name, or the name with the first number that is free. `taken` is folded."""
    if folded(name) not in taken:
        return name
    number = 2
    while folded(f"{name} {number}") in taken:
        number += 1
    return f"{name} {number}"


def file_stem(name: str) -> str:
    """The name as a file's name that any system takes."""
    plain = unicodedata.normalize("NFKD", tidy(name)).encode("ascii", "ignore").decode()
    stem = re.sub(r"[^a-z0-9]+", "-", plain.lower()).strip("-")[:LONGEST].strip("-")
    return f"job-{stem}" if not stem or stem in _RESERVED else stem
