"""Counts as words in the lines of a worksheet: short, so that they can be read aloud."""

from __future__ import annotations

_SMALL = (
    "no",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
)


def counted(count: int, name: str) -> str:
    """`two switches`, `one receptacle`, `13 conductors`."""
    said = _SMALL[count] if count < len(_SMALL) else str(count)
    return f"{said} {name if count == 1 else plural(name)}"


def plural(name: str) -> str:
    """The plural of a trade name by the common English endings."""
    if name.endswith(("s", "x", "ch", "sh", "z")):
        return name + "es"
    if name.endswith("y") and name[-2:-1] not in "aeiou":
        return name[:-1] + "ies"
    return name + "s"
