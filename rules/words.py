"""Counts as words in the lines of a worksheet: short, so that they can be read aloud."""

from __future__ import annotations

from functools import cache, lru_cache

SMALL = (
    "no", "one", "two", "three", "four", "five", "six",
    "seven", "eight", "nine", "ten", "eleven", "twelve",
)  # fmt: skip
"""The counts that are said as words."""


def counted(count: int, name: str) -> str:
    """`two switches`, `one receptacle`, `13 conductors`."""
    said = SMALL[count] if count < len(SMALL) else str(count)
    return f"{said} {name if count == 1 else plural(name)}"


def either(names: tuple[str, ...]) -> str:
    """ "2020", "2020 or 2023", "2017, 2020 or 2023"."""
    if len(names) < 2:
        return "".join(names)
    return f"{', '.join(names[:-1])} or {names[-1]}"


@lru_cache(maxsize=256)
def plural(name: str) -> str:
    """The plural of a trade name by the common English endings."""
    if name.endswith(("s", "x", "ch", "sh", "z")):
        return name + "es"
    if name.endswith("y") and name[-2:-1] not in "aeiou":
        return name[:-1] + "ies"
    return name + "s"


_WIRES = {
    "ends": ("{} AWG conductor", ""),
    "through": ("{} AWG conductor", " passing through"),
    "loop": ("uncut loop", " of {} AWG"),
    "short_loop": ("short uncut loop", " of {} AWG"),
    "inside": ("{} AWG conductor", " staying inside"),
}


@cache
def _wire(path: str, awg: int) -> tuple[str, str]:
    name, more = _WIRES[path]
    return name.format(awg), more.format(awg)


def wire_words(count: int, path: str, awg: int) -> str:
    """`four 14 AWG conductors`, `one uncut loop of 12 AWG`."""
    name, more = _wire(path, awg)
    return counted(count, name) + more
