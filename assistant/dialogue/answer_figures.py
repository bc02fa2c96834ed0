"""The numbers that answer a question, as data beside the sentence that says them."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal, TypeAlias

from boxaloud.grammar.quick_dataclass import dataclass
from boxaloud.rules.worksheet import Unit

FigureKind: TypeAlias = Literal["room", "needed", "capacity", "takes"]
"""What a number is: how many more fit, the volume that is needed, the volume there is, what a
thing takes."""


@dataclass(frozen=True, slots=True)
class Figure:
    """One number. `least` and `most` differ only while it hangs on what is open."""

    of: FigureKind
    least: Decimal
    most: Decimal
    unit: Unit | Literal["count"]
