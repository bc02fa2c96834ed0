"""What is said of all of a kind, and not of what is in the box: "a three-way needs a 14-3"."""

from __future__ import annotations

from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.phrases.statements import Statement

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
    if _USUAL.fullmatch(following.line) is not None:
        return False  # "the GFCI takes one 12-2, the dimmer takes one 14-2": of those two
    named = [_size(found) for found in parts[place].found if found.kind == "cable"]
    return any(found.kind == "cable" and _size(found) in named for found in following.found)


def _size(found: Statement) -> tuple[object, object]:
    return found.get("awg"), found.get("conductors")
