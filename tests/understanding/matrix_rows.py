"""The rows of the matrix: what is said, and the box that the code's arithmetic makes of it.

`due` lists allowances by wire size with the paragraph of NEC 314.16(B) that asks for each,
"14: 4 (1) + 2 (4)"; the total is worked out here from Table 314.16(B)(1), never copied from a run.
"""

from __future__ import annotations

import re
import tomllib
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
from pathlib import Path
from typing import Any

ROWS = Path(__file__).parent / "rows"
KNOWN = Path(__file__).parent / "known.toml"

VOLUME = {
    18: Decimal("1.50"), 16: Decimal("1.75"), 14: Decimal("2.00"), 12: Decimal("2.25"),
    10: Decimal("2.50"), 8: Decimal("3.00"), 6: Decimal("5.00"),
}  # fmt: skip
"""Cubic inches of one allowance by AWG size: NEC 2023 Table 314.16(B)(1)."""

_DUE = re.compile(r"(\d+)(?: (\d)/(\d))? \(([1-6])\)")


@dataclass(frozen=True)
class Row:
    """One short talk and how the box must stand after it. Volumes in cubic inches."""

    capability: str
    say: tuple[str, ...]
    parts: tuple[str, ...]
    """The independent statements of a talk of one utterance: their order does not matter."""
    source: str
    verdict: str
    total: Decimal | None
    capacity: Decimal | None
    near: Decimal
    conductors: tuple[int, ...]
    """The sizes that are in the box as conductors, 314.16(B)(1)."""
    or_asked: bool
    boxless: bool
    asks: str | None
    edition: str | None
    at: str | None
    boxes: tuple[str, ...]
    says: str
    never: str
    spoken: bool

    @property
    def name(self) -> str:
        """The row in words."""
        return " / ".join(self.say)


def total_of(due: str) -> Decimal:
    """The total in cubic inches that a list of allowances comes to."""
    total = Fraction(0)
    for size in due.split(";"):
        awg, _, counts = size.partition(":")
        for term in counts.split("+"):
            found = _DUE.fullmatch(term.strip())
            if found is None:
                raise ValueError(f"{due!r}: {term.strip()!r} is no count with its paragraph")
            whole, top, bottom, _ = found.groups()
            count = int(whole) + (Fraction(int(top), int(bottom)) if top else 0)
            total += count * Fraction(VOLUME[int(awg)])
    return Decimal(total.numerator) / Decimal(total.denominator)


def sizes_of(due: str) -> tuple[int, ...]:
    """The sizes with conductors of 314.16(B)(1) among the allowances, largest first."""
    return tuple(sorted(int(size.split(":")[0]) for size in due.split(";") if "(1)" in size))


@lru_cache(maxsize=1)
def rows() -> tuple[Row, ...]:
    """Every row, by capability in the order of the file names."""
    made = []
    for path in sorted(ROWS.glob("*.toml")):
        data = tomllib.loads(path.read_text(encoding="utf-8"))
        made += [_row(path.stem.replace("_", " "), data["source"], one) for one in data["row"]]
    return tuple(made)


def _row(capability: str, source: str, one: dict[str, Any]) -> Row:
    parts = tuple(one.get("parts", ()))
    due = one.get("due")
    return Row(
        capability=capability,
        say=(", ".join(parts),) if parts else tuple(one["say"]),
        parts=parts,
        source=source + ("; " + one["why"] if "why" in one else ""),
        verdict=one["verdict"],
        total=total_of(due) if due else None,
        capacity=Decimal(one["box"]) if "box" in one else None,
        near=Decimal("0.06") if one.get("box_near") else Decimal(0),
        conductors=sizes_of(due) if due else (),
        or_asked=one.get("or_asked", False),
        boxless=one.get("boxless", False),
        asks=one.get("asks"),
        edition=one.get("edition"),
        at=one.get("at"),
        boxes=tuple(one.get("boxes", ())),
        says=one.get("says", ""),
        never=one.get("never", ""),
        spoken=one.get("spoken", False),
    )


@lru_cache(maxsize=1)
def known_faults() -> dict[tuple[str, str], dict[str, str]]:
    """Faults of the program that are known: kind of test and capability -> talk -> the reason."""
    found: dict[tuple[str, str], dict[str, str]] = {}
    for one in tomllib.loads(KNOWN.read_text(encoding="utf-8")).get("fault", ()):
        of = found.setdefault((one["test"], one["capability"]), {})
        of.update(dict.fromkeys(one["says"], one["reason"]))
    return found
