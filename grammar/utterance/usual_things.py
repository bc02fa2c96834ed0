"""What is said of all of a kind, and not of what is in the box: "a three-way needs a 14-3"."""

from __future__ import annotations

from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.lazy_patterns import lazy_pattern

_USUAL = lazy_pattern(
    r"(?:(?:well|but|no|and|so|oh|right|yeah|of course|sure|then) )*(?:a|an|every|any|each)?(?: )?"
    r"<device:1?:> (?:always |only |really |just )*(?:needs?|takes?|wants|gets|uses|requires"
    r"|is supposed to have|has to have|ought to have) (?:its own |at least )*<cable:1?:>"
)


def says_what_is_usual(parts: list[Clause], place: int) -> bool:
    """ "Well a three-way needs a 14-3. Two 14-2s and one 14-3.": of all of its kind, where what is
    there is told behind it."""
    following = parts[place + 1] if place + 1 < len(parts) else None
    if following is None or _USUAL.fullmatch(parts[place].line) is None:
        return False
    return any(found.kind == "cable" for found in following.found)
