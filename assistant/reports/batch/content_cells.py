"""Cells that list what is in a box: `2 x 14-2; 12-3 no ground`, `switch on 14`.

A cell lists things with semicolons between. A thing may begin with a count.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from decimal import Decimal, InvalidOperation
from functools import lru_cache
from typing import TypeAlias

from boxaloud.assistant.reports.batch.batch_row import BadRow, shown
from boxaloud.rules import ground_for
from boxaloud.rules.contents import (
    BondingJumper,
    Cable,
    Conductors,
    Content,
    FixtureWires,
    Grounds,
    SupportFitting,
    TerminalBlock,
    Uncounted,
    Yoke,
)

Read: TypeAlias = Callable[[str], tuple[Content, ...]]

_COUNT = re.compile(r"(?:(\d{1,4})\s*[x×]\s*)?(.+)")
_CABLE = re.compile(
    r"(\d{1,2})-(\d{1,2})(?: (no ground)| ground (\d{1,2}))?(?: (through|loop|short loop|inside))?"
)
_WIRE = re.compile(r"(\d{1,2})(?: (through|loop|short loop|inside))?")
_TAIL = re.compile(r"(\d{1,2})(?: (no canopy|canopy))?")
_GROUND = re.compile(r"(\d{1,2})(?: (isolated|canopy))?")
_JUMPER = re.compile(r"(\d{1,2})(?: (enters|inside))?")
_ENTERING: Mapping[str | None, bool | None] = {None: None, "enters": True, "inside": False}
_DEVICE = re.compile(r"(.+?)(?: on (\d{1,2}))?(?: (\d) gangs?)?(?: ([\d.]{1,6}) cm)?")
_NOT_COUNTED = re.compile(r"(.+?)(?: on (\d{1,2}))?")
_BLOCK = re.compile(r"(\d{1,2}|unknown)")
_ANYTHING = re.compile(r"(.+)")


def _counted(item: str, pattern: re.Pattern[str], example: str) -> tuple[int, re.Match[str]]:
    split = _COUNT.fullmatch(" ".join(item.split()))
    found = pattern.fullmatch(split[2]) if split else None
    if split is None or found is None:
        raise BadRow(f"{shown(item)} is not understood: say it like “{example}”.")
    return int(split[1] or 1), found


def _path(said: str | None) -> str:
    return (said or "ends").replace(" ", "_")


@lru_cache(maxsize=4096)
def _cable(item: str) -> tuple[Content, ...]:
    count, found = _counted(item.lower(), _CABLE, "2 x 14-2, or 12-3 no ground")
    awg = int(found[1])
    ground = None if found[3] else int(found[4]) if found[4] else ground_for(awg)
    return (Cable(awg, int(found[2]), ground, count, _path(found[5])),)  # type: ignore[arg-type]


@lru_cache(maxsize=4096)
def _wires(item: str) -> tuple[Content, ...]:
    count, found = _counted(item.lower(), _WIRE, "3 x 12, or 2 x 14 through")
    return (Conductors(int(found[1]), count, _path(found[2])),)  # type: ignore[arg-type]


@lru_cache(maxsize=4096)
def _tails(item: str) -> tuple[Content, ...]:
    count, found = _counted(item.lower(), _TAIL, "2 x 18, or 2 x 18 no canopy")
    return (FixtureWires(int(found[1]), count, found[2] != "no canopy"),)


@lru_cache(maxsize=4096)
def _grounds(item: str) -> tuple[Content, ...]:
    if item.lower() in ("none", "0"):
        return ()
    count, found = _counted(item.lower(), _GROUND, "1 x 12, 1 x 12 isolated, or none")
    return (Grounds(int(found[1]), count, found[2] == "isolated", found[2] == "canopy"),)


@lru_cache(maxsize=4096)
def _jumpers(item: str) -> tuple[Content, ...]:
    count, found = _counted(item.lower(), _JUMPER, "1 x 12 enters, or 1 x 12 inside")
    return (BondingJumper(int(found[1]), count, _ENTERING[found[2]]),)


@lru_cache(maxsize=4096)
def _device(item: str) -> tuple[Content, ...]:
    count, found = _counted(item, _DEVICE, "2 x switch on 14, or range receptacle on 6 2 gangs")
    awg = int(found[2]) if found[2] else None
    return (Yoke(found[1], awg, int(found[3] or 1), count, _depth(found[4])),)


def _depth(said: str | None) -> Decimal | None:
    """Centimetres behind the strap."""
    try:
        return None if said is None else Decimal(said)
    except InvalidOperation:
        raise BadRow(f"{said!r} is no depth of a device in centimetres.") from None


@lru_cache(maxsize=4096)
def _fitting(item: str) -> tuple[Content, ...]:
    count, found = _counted(item, _ANYTHING, "luminaire stud")
    return (SupportFitting(found[1].lower(), count),)


@lru_cache(maxsize=4096)
def _block(item: str) -> tuple[Content, ...]:
    count, found = _counted(item.lower(), _BLOCK, "1 x 12")
    return (TerminalBlock(None if found[1] == "unknown" else int(found[1]), count),)


@lru_cache(maxsize=4096)
def _uncounted(item: str) -> tuple[Content, ...]:
    if item.lower() in ("none", "0"):
        return ()
    count, found = _counted(item, _NOT_COUNTED, "3 x wire connector, or 2 x wire connector on 12")
    return (Uncounted(found[1].lower(), count, int(found[2]) if found[2] else None),)


READERS: Mapping[str, Read] = {
    "cables": _cable,
    "conductors": _wires,
    "fixture_wires": _tails,
    "grounds": _grounds,
    "jumpers": _jumpers,
    "devices": _device,
    "fittings": _fitting,
    "terminal_blocks": _block,
    "not_counted": _uncounted,
}
"""How each column that lists contents is read. Every reader raises BadRow, in a sentence."""
