"""Names of devices that became part of nothing: each counts, 314.16(B)(4)."""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.grammar.clauses.clause import Element
from boxaloud.grammar.lazy_patterns import lazy_pattern

_DEVICES = frozenset(
    {"switch", "switches", "dimmer", "dimmers", "receptacle", "receptacles", "gfci", "timer"}
)
_ARTICLE = lazy_pattern(r"an?|another|<n:[^>]*>")


def is_device_named(elements: Sequence[Element], place: int) -> bool:
    """ "A switch to the left of it": a device behind an article, and no order to switch."""
    if elements[place].tag not in _DEVICES or not place:
        return False
    return _ARTICLE.fullmatch(elements[place - 1].tag) is not None


def names_device(heard: str, span: tuple[int, int]) -> bool:
    """The same of words that nothing was made of, where no clause is at hand."""
    before = heard[: span[0]].lower().split()[-1:]
    return heard[slice(*span)].lower() in _DEVICES and before in (["a"], ["an"], ["one"])
