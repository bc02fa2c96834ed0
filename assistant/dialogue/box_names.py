"""The name that a box of a job is meant by: "the hall", "box three", "box hall"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from boxaloud.rules.words import SMALL


def named(name: str) -> str:
    """The name in "box hall" and in "the hall"; "box 3" is a name as it stands."""
    bare = name.removeprefix("the ").strip()
    rest = bare.removeprefix("box ").removeprefix("number ")
    if rest.isdigit() or rest in SMALL:
        return f"box {rest}" if rest != bare or rest.isdigit() else bare
    return rest or bare


def numbered(name: str) -> str:
    """ "box one" is "box 1"."""
    head, _, last = name.rpartition(" ")
    if head in ("box", "") and last in SMALL[1:]:
        return f"box {SMALL.index(last)}"
    return name


def meant(name: str, names: Sequence[str]) -> str | None:
    """The one of `names` that is meant, None where none or several can be.

    By its whole name, by its number, else by the only one that holds it.
    """
    wanted = numbered(name.lower().strip())
    for known in (wanted, wanted.removesuffix(" box"), named(wanted)):
        if known in names:
            return known
    part = named(wanted.removesuffix(" box"))
    close = [known for known in names if part and part in known]
    if len(close) == 1:
        return close[0]
    words = set(part.split()) - {"one", "box", "the"}
    alike = [
        known
        for known in names
        if words and (words <= set(known.split()) or set(known.split()) <= words)
    ]
    if len(alike) == 1:
        return alike[0]
    number = re.fullmatch(r"(?:box )?(\d+)", wanted)
    if number and 1 <= int(number[1]) <= len(names):
        return names[int(number[1]) - 1]
    return None


_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth")


def placed(said: str, count: int) -> int | None:
    """The place from 0 that "the first box" or "the last one" says among so many; None where it
    says none."""
    word = said.lower().removeprefix("the ").partition(" ")[0]
    if word == "last":
        return count - 1
    if word == "other" and count == 2:
        return None
    return _ORDINALS.index(word) if word in _ORDINALS else None
