"""A list that ends in a question mark: "what box for two 14-2s, clamps inside, and a switch?".

Alone, "and a dimmer?" asks what a dimmer counts. Behind a list it is the last thing of it, and is
told as the others are: a box that is counted without it would be too small.
"""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.lazy_patterns import lazy_pattern

#: "And a switch", "and the clamps": the last of a list.
_LAST = lazy_pattern(r"(?:and|or) <(?:device|clamps|fitting|grounds|jumper|terminal_block)[^>]*>$")
#: "A switch", "plus two 14-2s in a deep square": things, and what stands between them.
_THINGS = lazy_pattern(
    r"(?:(?:and|so|ok|okay|for|with|plus|of|in|a|an|the|it|is|has|have|i|got|there|are) "
    r"|<[^>]*>(?: |$))+$"
)
#: "What size box do I need for <…>", "min volume for <…>": of what is listed behind.
_ASKS_FOR_ALL = lazy_pattern(
    r"\b(?:box|fit|fits|volume|room|space|min|minimum|total|fill|need|smallest|inches|in|size)\b"
    r".* (?:for|with|of|hold|holds|takes|take) .*<(?:cable|conductors)[^>]*>"
)
_WIRES = frozenset({"cable", "conductors"})


def joined_to_lists(parts: Sequence[Clause]) -> None:
    """Let the last thing of a list do what the list does."""
    for place, clause in enumerate(parts):
        before = parts[place - 1] if place else None
        if (
            before is not None
            and clause.mood == "interrogative"
            and clause.closes == "?"
            and before.closes == ","
            and _LAST.fullmatch(clause.line)
            and _lists(parts[:place])
        ):
            clause.mood, clause.fit, clause.modal = "declarative", False, False


def asks_for_all(clause: Clause) -> bool:
    """Whether a clause asks of what it begins to list: "what is the total for two 14-2s"."""
    return _ASKS_FOR_ALL.search(clause.line) is not None


def _lists(parts: Sequence[Clause]) -> bool:
    """Whether the clauses right before, joined by commas, list what is in a box."""
    wires = False
    for clause in reversed(parts):
        if clause.closes != ",":
            break
        of_all = asks_for_all(clause)
        things = clause.mood == "declarative" and _THINGS.match(clause.line) is not None
        if not (of_all or things):
            break
        wires = wires or any(found.kind in _WIRES for found in clause.found)
        if of_all:
            break
    return wires
