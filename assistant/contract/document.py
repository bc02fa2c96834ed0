"""What all documents share: a frozen model with no unknown fields, and the scalars in it.

Volumes leave and enter as decimal strings: a JSON number becomes a binary fraction in most
readers, and 2.25 would no longer be what the Table says. The patterns that check a string are
those that the schema publishes.
"""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated, Any, TypeAlias

from pydantic import BaseModel, BeforeValidator, ConfigDict, Field, Strict

Volume: TypeAlias = Annotated[
    str, Field(pattern=r"^[0-9]+\.[0-9]+$", description="Cubic inches, a decimal in text.")
]
SignedVolume: TypeAlias = Annotated[
    str,
    Field(
        pattern=r"^-?[0-9]+\.[0-9]+$",
        description="Cubic inches, a decimal in text; less than nothing where it is too much.",
    ),
]
Millilitres: TypeAlias = Annotated[
    str,
    Field(
        pattern=r"^-?[0-9]+\.[0-9]+$",
        description="Millilitres, a decimal in text, where the box is counted in them.",
    ),
]
Number: TypeAlias = Annotated[
    str, Field(pattern=r"^[0-9]+(\.[0-9]+)?$", description="A decimal in text.")
]


class Document(BaseModel):
    """Data that leaves or enters. Raises pydantic.ValidationError for anything else."""

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True)

    def to_json(self) -> dict[str, Any]:
        """The document as plain data for JSON, all keys, in the order of its schema."""
        return self.model_dump(by_alias=True)


def whole(value: Any) -> Any:
    """A JSON number without a fraction is an integer, however it was written: `14.0`."""
    if isinstance(value, Decimal) and value.is_finite() and value.adjusted() < 9:
        return int(value) if value == value.to_integral_value() else value
    return value


def probability(value: Any) -> Any:
    """A JSON number that was read exactly, as the fraction that it was written from."""
    return float(value) if isinstance(value, Decimal) else value


_MOST = 999_999_999

AtLeast0: TypeAlias = Annotated[int, Field(ge=0, le=_MOST), BeforeValidator(whole)]
AtLeast1: TypeAlias = Annotated[int, Field(ge=1, le=_MOST), BeforeValidator(whole)]
Confidence: TypeAlias = Annotated[float, Field(ge=0, le=1), BeforeValidator(probability)]
Count: TypeAlias = Annotated[int, Field(ge=1, le=9999), BeforeValidator(whole)]
Awg: TypeAlias = Annotated[
    int, Field(ge=0, le=99, description="AWG number."), BeforeValidator(whole)
]

Texts: TypeAlias = Annotated[tuple[str, ...], Strict(False)]
"""A list of texts. Not strict, since JSON has lists where a frozen model has tuples."""
