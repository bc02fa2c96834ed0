"""A frozen value with some of its fields changed, made fast: each act makes a new state."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any, TypeVar

__all__ = ["altered", "with_told"]

_Value = TypeVar("_Value")
_Record = TypeVar("_Record", bound=Any)

if TYPE_CHECKING:
    from dataclasses import replace as altered
else:

    def altered(value: _Value, /, **changes: object) -> _Value:
        """As `dataclasses.replace`, for a class without slots and `__post_init__`.

        The fields are taken over all at once; `replace` reads and sets each by itself. That there
        is a field of a name is seen to by the type checker.
        """
        made = object.__new__(type(value))
        made.__dict__.update(value.__dict__, **changes)
        return made


def with_told(said: _Record, act: object, *slots: str) -> _Record:
    """A record of what was said, with the slots of an act in it that have a value there."""
    told = {slot: getattr(act, slot) for slot in slots if getattr(act, slot) is not None}
    return replace(said, **told) if told else said
