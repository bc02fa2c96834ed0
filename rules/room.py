"""How many more of a thing will fit, exactly: "will a 12-3 still fit?"."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Literal

from boxaloud.rules.checks import validate
from boxaloud.rules.contents import Box, Content
from boxaloud.rules.data import table
from boxaloud.rules.errors import RulesError
from boxaloud.rules.work import work_out

_NO_VOLUME = "How many more fit cannot be said before the volume of the box is known."


@dataclass(frozen=True, slots=True)
class Room:
    """How many more of `content` fit. `least` and `most` differ only while answers are open."""

    content: Content
    least: int
    """At the worst case of every open answer."""
    most: int
    """At the best case of every open answer."""
    unlimited: bool
    """It takes no more room however many there are; the counts stop at the most allowed."""
    margin: Decimal
    """Cubic inches left after one more, at the worst case; negative where it does not fit."""


def room_for(box: Box, content: Content) -> Room:
    """How many more of one `content` (its own count aside) fit, 314.16(B).

    Exact: a larger conductor raises clamps, fittings and grounds, and grounds go by quarters
    from 2020. Raises RulesError while the volume of the box is unknown, or where `content`
    cannot be.
    """
    one = replace(content, count=1)
    validate(one)
    if work_out(box).capacity is None:
        raise RulesError(_NO_VOLUME)
    limit: int = table("limits")["most_of_anything"]

    def left(count: int, slot: Literal["low", "high"]) -> Decimal:
        more = (*box.contents, replace(one, count=count))
        sheet = work_out(replace(box, contents=more))
        if sheet.capacity is None:
            raise RulesError(_NO_VOLUME)
        return sheet.capacity - (sheet.low if slot == "low" else sheet.high)

    least = _most_that_fit(lambda count: left(count, "high"), limit)
    most = _most_that_fit(lambda count: left(count, "low"), limit)
    return Room(one, least, most, least == limit, left(1, "high"))


def _most_that_fit(left: Callable[[int], Decimal], limit: int) -> int:
    """The largest count that leaves nothing below zero. What is left falls with the count."""
    low, high = 0, limit
    while low < high:
        middle = (low + high + 1) // 2
        if left(middle) >= 0:
            low = middle
        else:
            high = middle - 1
    return low
