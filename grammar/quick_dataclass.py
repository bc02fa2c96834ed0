"""Frozen dataclasses that are made quickly, for the many kinds of acts.

The decorator of the standard library writes and compiles source for six methods of every class,
which took a quarter of the time in which a command starts. Here only the constructor is made so:
the other methods are shared by all classes and give the same results. That no field is set anew
is held by the type checker, which sees the decorator of the standard library in place of this one.
"""

from __future__ import annotations

import dataclasses
from operator import attrgetter
from typing import TYPE_CHECKING, Any

__all__ = ["dataclass"]

if TYPE_CHECKING:
    from dataclasses import dataclass
else:

    def dataclass(*, frozen, **options):
        """As `dataclasses.dataclass`, for classes that are frozen and compared field by field.

        Raises TypeError for a class that may change: those are made by the standard library.
        """
        if not frozen:
            raise TypeError("only what is frozen is made here")

        def made(cls):
            return _shared(dataclasses.dataclass(cls, eq=False, repr=False, **options))

        return made


def _shared(cls: Any) -> Any:
    """Give a dataclass the methods by which its values are compared, hashed and shown."""
    values = attrgetter(*(field.name for field in dataclasses.fields(cls)))

    def equal(self: Any, other: Any) -> Any:
        same = other.__class__ is self.__class__
        return values(self) == values(other) if same else NotImplemented

    def hashed(self: Any) -> int:
        return hash(values(self))

    for name, method in (("__eq__", equal), ("__hash__", hashed), ("__repr__", _shown)):
        setattr(cls, name, method)
    return cls


def _shown(self: Any) -> str:
    """A value as the call that makes it."""
    fields = dataclasses.fields(self)
    given = ", ".join(f"{field.name}={getattr(self, field.name)!r}" for field in fields)
    return f"{type(self).__qualname__}({given})"
