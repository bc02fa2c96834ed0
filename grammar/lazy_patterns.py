"""Regular expressions that are compiled when they are first tried.

A process that answers one utterance and ends tries few of those that the grammar has, and to
compile them all would take as long as all else that it does.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING, Any

__all__ = ["lazy_pattern"]


class _LazyPattern:
    """Stands for what `re.compile` makes of the same arguments.

    A method that was asked for is kept, so that the next call goes straight to it.
    """

    def __init__(self, *arguments: Any) -> None:
        self._arguments = arguments

    def __getattr__(self, name: str) -> Any:
        found = getattr(re.compile(*self._arguments), name)
        setattr(self, name, found)
        return found


if TYPE_CHECKING:
    from re import compile as lazy_pattern
else:
    lazy_pattern = _LazyPattern
