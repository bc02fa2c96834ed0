"""The total and the margin of a box as a report shows them: one value, whatever the form.

While something is open, a total is a bound; which one matters depends on the verdict. A box that
fits does so at its greatest total, one that is over at its least, and of one that is not finished
only what was described so far can be told.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import Literal, Protocol, TypeAlias

from boxaloud.rules.worksheet import Verdict, Worksheet

Bound: TypeAlias = Literal["exactly", "at least", "at most", "so far"]


@dataclass(frozen=True, slots=True)
class Amount:
    """A volume in cubic inches, and what it bounds."""

    value: Decimal
    bound: Bound


@dataclass(frozen=True, slots=True)
class Figures:
    """A box's total, and what it leaves or lacks: neither while the verdict is open."""

    total: Amount
    margin: Amount | None
    over_by: Amount | None


class Assessed(Protocol):
    """A box worked out: its worksheet, where it stands, and its least and greatest total, in³."""

    @property
    def sheet(self) -> Worksheet:
        """The worksheet."""

    @property
    def verdict(self) -> Verdict:
        """Where it stands."""

    @property
    def low(self) -> Decimal:
        """The least total that the open answers allow."""

    @property
    def high(self) -> Decimal:
        """The greatest total that they allow."""


def figures(box: Assessed) -> Figures:
    """The figures that go with a box's verdict."""
    room, exact = box.sheet.capacity, box.low == box.high == box.sheet.total
    small = box.verdict == "over" and room is not None and box.low <= room
    if room is None or box.verdict == "incomplete" or small:  # small: over by dimensions alone
        return Figures(Amount(box.sheet.total, "so far"), None, None)
    if box.verdict == "fits":
        total = Amount(box.high, "exactly" if exact else "at most")
        margin = Amount(room - box.high, "exactly" if exact else "at least")
        return Figures(total, margin, None)
    bound: Bound = "exactly" if exact else "at least"
    return Figures(Amount(box.low, bound), None, Amount(box.low - room, bound))
