"""What a clause of the box says last that the box is not: "the inch and a half deep one, not two
and an eighth"."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.lazy_patterns import lazy_pattern

_TAIL = lazy_pattern(
    r"(?: (?:actually|really|now|then|instead|is what it is))*(?: and| but)?"
    r" (?:not|rather than|instead of) (?:(?:a|an|the|that|my|like|marked) )*<n:(?P<n>[0-9.]+)>"
    r"(?: (?:inch|inches|cubes|cubic|deep|box|one|<n:1>|<box_kind[^>]*>))*$"
)
_OF_BOX = lazy_pattern(r"<box_(?:volume|size)[^>]*>|\b(?:box|volume|marked|stamped|says)\b.* <n:")
_SIZED = lazy_pattern(r"<box_size[^>]*>(?: one| <n:1>)*$")
_LEAST_VOLUME = 5
"""The least number that can be the volume of a box and no count, in cubic inches."""


def without_denied_values(parts: Sequence[Clause]) -> list[Clause]:
    """The clauses, those of the box without the value that they deny at their end."""
    return [_without(clause) for clause in parts]


def _without(clause: Clause) -> Clause:
    found = _TAIL.search(clause.line)
    if found is None or found.start() == 0 or clause.mood != "declarative":
        return clause
    head = clause.line[: found.start()]
    denied = Decimal(found["n"])
    if not _denies_box(head, denied):
        return clause
    kept = clause.elements[: head.count(" ") + 1]
    return replace(clause, elements=kept, line=head)


def _denies_box(head: str, denied: Decimal) -> bool:
    """Whether a value that is denied behind these words is one of the box: a volume, or a depth
    behind a size."""
    if _SIZED.search(head):
        return True
    return denied >= _LEAST_VOLUME and _OF_BOX.search(head) is not None
