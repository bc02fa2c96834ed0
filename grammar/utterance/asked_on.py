"""What a clause behind a question is still of it: more that is supposed, the asker's guess."""

from __future__ import annotations

from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.clauses.list_ends import asks_for_all
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.correction_markers import is_marker
from boxaloud.grammar.utterance.whereabouts import about_something_else


def goes_on_asking(first: Clause, last: Clause, clause: Clause) -> bool:
    """Whether a clause goes on with the question or supposition before it."""
    if last.closes not in (",", "", ":", "(", "[") or is_marker(clause):
        return False
    if clause.mood == "declarative":
        asks_of_things = first.mood == "conditional" or first.fit or "box" in first.line
        asks_of_things = asks_of_things or asks_for_all(first)
        return (asks_of_things or _of_no_count(first, clause)) and bool(clause.found)
    return first.mood == "conditional" or (clause.mood == "conditional")


def _of_no_count(first: Clause, clause: Clause) -> bool:
    """ "Must I count the wire nuts, of which there are four?": of what counts nothing anyway."""
    named = first.found[-1].kind if first.found else ""
    return named in ("uncounted", "clamps") and clause.line.startswith("of which ")


#: "What's the allowance for a 12, 2.25?".
_ASKS_WHAT = lazy_pattern(
    r"(?:(?:so|and|ok|okay|but|well|hey|oh|now) )*(?:what|how (?:much|many)|which)\b"
    r"(?! (?:if|about|happens)\b)(?!.*\b(?:fit|need|smallest|room|left)\b)"
)
_GUESSED = frozenset({"number", "size", "box_size"})
_GUESSING = frozenset({"or", "a", "about", "like", "maybe", "what"})


def guesses(asked: Clause, clause: Clause) -> bool:
    """ "How many amps is the breaker, thirty?": the answer that who asks of something else gives
    himself is of that, and no number of the box."""
    own = clause.closes == "?" and _ASKS_WHAT.match(asked.line) is not None
    if asked.closes != "," or not (own or about_something_else(asked)):
        return False
    if "<" not in clause.line or not (clause.closes == "?" or " or " in clause.line):
        return False
    return all(
        element.tag in _GUESSING or element.tag.startswith("<n:")
        if element.found is None
        else element.found.kind in _GUESSED and "family" not in element.found.slots
        for element in clause.elements
    )
