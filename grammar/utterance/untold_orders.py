"""Orders of which nothing was made."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.clause import Clause

_ORDER = frozenset(
    {"more", "less", "fewer", "another", "extra", "put", "take", "make", "pull", "throw", "bring"}
)


def untold_order(made: list[Act], parts: list[Clause], heard: str) -> list[Unread]:
    """An order that made nothing ("put one more in the top"): no verdict stands over it."""
    if any(not isinstance(act, (acts.No, acts.Yes)) for act in made):
        return []
    for clause in parts:
        words = {element.tag for element in clause.elements}
        number = any(tag.startswith("<n:") for tag in words)
        if clause.mood == "declarative" and words & _ORDER and number:
            return [Unread(heard[clause.span[0] : clause.span[1]], clause.span, True)]
    return []
