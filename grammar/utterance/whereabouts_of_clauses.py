"""The second stage of `whereabouts`: whether a clause is about other things or people, by its
line, in which each thing is a tag."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache, lru_cache

from boxaloud.grammar import grammar_data
from boxaloud.grammar.clauses.clause import Clause, Element
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.phrases.vocabulary import known_words
from boxaloud.grammar.utterance.whereabouts_rows import here, rows_in, words_of

_UNITS = frozenset(grammar_data.table("clauses")["other"]["units"])
_LEADING = grammar_data.table("whereabouts")["leading_away"]
_PLACES = frozenset(_LEADING["places"])
_SUBJECTS = frozenset(_LEADING["subjects"])
_WORKED = frozenset(grammar_data.table("clauses")["purposes"]["worked"])
_PREPOSITIONS = frozenset(_LEADING["prepositions"])
_VERBS = frozenset(_LEADING["verbs"])
#: "ten three", "ten-three": said as words it is a cable; "10-3" may be a date.
_SPOKEN_SIZE = lazy_pattern(r"\S \S|[a-z]-[a-z]", re.IGNORECASE)


def about_something_else(clause: Clause, described: bool = False) -> bool:
    """Whether a clause is about other things or people, so that nothing in it is of the box.

    `described`: the utterance describes a box, so that a thing of the trade in it is of that box
    unless a length, a price or a stock says otherwise.
    """
    things = any(element.found is not None for element in clause.elements)
    exact = things and any(map(evidence, clause.elements))
    return _elsewhere(clause.line, things, exact, described)


#: "He just told me it does have clamps": what is told is of this box; "bring it in", of what was
#: supposed, is an order.
_REPORTED = lazy_pattern(
    r"(?:(?:and|so|but|ok|okay|oh|well|now) )*(?:he|she|they|(?:the|my|our) (?:[a-z]+ )?[a-z]+)"
    r"(?: just| now| also)* (?:told|tells|is telling) (?:me|us)(?: that)?"
    r"(?: (?:it|there|they|this|this one|this box|the box))?"
    r"(?: (?:is|are|has|have|does|do|got|also|actually|really|still))*"
    r" <(?:clamps|fitting|device)[^>]*>(?: (?:in|inside) (?:it|there|here))?"
    r"(?: (?:too|now|after all))*$"
)
_BROUGHT = lazy_pattern(
    r"(?:(?:and|so|but|ok|okay|oh|well|then|now) )*bring (?:it|that|that one) in$"
)


@lru_cache(maxsize=1024)
def _elsewhere(line: str, things: bool, exact: bool, described: bool) -> bool:
    """The same of a line with `things` of the box, said `exact`ly or not. Remembered: things are
    tags in it, so that most lines are said again, of other things."""
    if here("tags").search(line):
        return False
    rows = list(rows_in(line, "tags"))
    if any(row.firm for row in rows):
        return True
    if described and things and not _place_without_boxes().search(line):
        return False
    if exact or (things and here("tags_loose").search(line)):
        return False
    if _BROUGHT.match(line) or (things and _REPORTED.match(line)):
        return False
    words = line.split(" ")
    if words_of("remark").match(line):
        known = known_words()
        rest = [w for w in words if w.isalpha() and w not in known]
        if rest and not any(w.startswith("<n") for w in words):
            return True
    if not rows and _runs_to_a_building().search(line):
        return False
    return bool(rows) or any(_leads_away(words, place) for place in range(len(words)))


@cache
def _runs_to_a_building() -> re.Pattern[str]:
    """ "12-3 goes out to the shed": a cable that goes on from this box, and nothing that is kept
    there."""
    rooms = grammar_data.table("clauses")["rooms"]["names"]
    return re.compile(
        r"^(?:(?:and|then|also|plus|so|ok|okay|oh) )*<cable[^>]*>"
        r" (?:(?:that|which|just|also|then) )*"
        r"(?:goes|runs|heads|feeds|leaves|going|running|heading|feeding)"
        r"(?: (?:on|out|over|down|up|off|underground|for|to|toward|towards|the|a|my|our|his|her))+ "
        r"(?:" + "|".join(_PLACES.intersection(rooms)) + r")\b"
    )


@cache
def _place_without_boxes() -> re.Pattern[str]:
    """Where things are that are in no box. A shed, a shop or an office has boxes of its own too."""
    rooms = grammar_data.table("clauses")["rooms"]["names"]
    return re.compile(r"\b(?:" + "|".join(_PLACES.difference(rooms)) + r")\b")


def _leads_away(words: Sequence[str], place: int) -> bool:
    """Whether the word at a place shows that the clause is about something else."""
    word = words[place]
    if word in _PLACES:
        return True
    if (word in _SUBJECTS or word.removesuffix("s") in _SUBJECTS) and not _modifies(words, place):
        return True
    if word.endswith("'s") and word[:-2] in _SUBJECTS:
        return _is_verb(words, place)  # "my meter's reading 122"
    if word in _VERBS and _governs(words, place):
        return True
    return word in _UNITS and place > 0 and words[place - 1].startswith("<n:")


def evidence(element: Element) -> bool:
    """A thing said so exactly that the clause is of a box, whoever else is in it."""
    found = element.found
    if found is None:
        return False
    if found.kind == "cable":
        return found.get("count") is not None or _SPOKEN_SIZE.search(found.words) is not None
    if found.kind == "edition":
        return not found.words.strip().isdigit()
    if found.kind == "box_volume":
        # "lunch at 12 or 1": one of two bare numbers says no more than a bare number does
        return found.get("rival") is None or "box" in found.words.lower()
    if found.kind == "box_size":
        return "family" in found.slots
    return found.kind in ("conductors", "fixture_wires", "terminal_block") and "awg" in found.slots


def _modifies(words: Sequence[str], place: int) -> bool:
    """ "for the garage", "from the panel", "dryer box": it only says which."""
    if place + 1 < len(words) and words[place + 1] == "box":
        return True
    if len(words) == place + 2 and words[place] in _WORKED and words[place + 1][:6] == "<cable":
        return True  # "dryer 10/3"
    return any(word in _PREPOSITIONS for word in words[max(0, place - 4) : place])


def _is_verb(words: Sequence[str], place: int) -> bool:
    """Whether the "'s" of a word is "is": what follows it is no thing that it owns."""
    after = words[place + 1] if place + 1 < len(words) else "<"
    return not after.startswith("<") and not _modifies(words, place)


def _governs(words: Sequence[str], place: int) -> bool:
    """A verb at the head of the clause, or right behind its subject."""
    return place <= 2 or words[place - 1] in ("i", "we", "he", "she", "they", "you", "to", "and")
