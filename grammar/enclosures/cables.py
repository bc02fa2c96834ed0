"""Cables that enter a pull box: "two 4/0 SER cables", "three cables of 3 conductor 500 kcmil".

A cable counts as the raceway that its conductors would need, 314.28(A): which that is, is asked.
"""

from __future__ import annotations

import re

from boxaloud.grammar.enclosures import lengths
from boxaloud.grammar.enclosures.conductor_sizes import conductor
from boxaloud.grammar.enclosures.enclosure_words import words
from boxaloud.grammar.enclosures.pull_piece import Piece, Raceways
from boxaloud.grammar.lazy_patterns import lazy_pattern

_NUMBER = r"one|two|three|four|five|six|[1-6]"
_COUNT = lazy_pattern(rf"(?P<n>a|an|the|{_NUMBER}) ")
_WIRES = lazy_pattern(rf"(?:{_NUMBER})[ -](?:conductors?|wires?)(?: of)?(?!\w)")
_PLAIN_COUNT = lazy_pattern(rf"(?:{_NUMBER}) ")
_GAP = lazy_pattern(r"[ -]*")
_EACH = lazy_pattern(r"(?:each|apiece|in each|per cable)(?!\w)")
_OF = lazy_pattern(r"(?:of|with|holding|carrying)(?!\w)")


def cables(text: str, at: int, lone: bool) -> Piece | None:
    """Cables, how many, and the conductor in them where its size was said."""
    count = _COUNT.match(text, at)
    place, size, noun = (count.end() if count else at), "", False
    end = place
    while True:
        gap = _GAP.match(text, place)
        place = gap.end() if gap else place
        wires = _WIRES.match(text, place)
        each = _EACH.match(text, place) if noun else None
        link = (words("cable_kind").match(text, place) if not noun else None) or (
            _OF.match(text, place) if noun else None
        )
        named = words("cable").match(text, place)
        if wires is not None or (each is not None and size):
            end = place = (wires or each).end()  # type: ignore[union-attr]
        elif named is not None and not noun:
            noun, end, place = True, named.end(), named.end()
        elif link is not None:
            place = link.end()
        elif not size and (said := _size(text, place)) is not None:
            size, place = said
            end = place if noun else end
        else:
            break
    if not noun:
        return None
    many = _many(count[1] if count else None, text[at:end])
    return Piece("items", at, end, size and f"conductor {size}", items=(many,))


def _size(text: str, at: int) -> tuple[str, int] | None:
    """A conductor's size without the word "cable" behind it."""
    counted = _PLAIN_COUNT.match(text, at)
    for place in (at, *([counted.end()] if counted else [])):
        found = conductor(text, place, False)
        if found is None:
            continue
        stop = re.search(r" cables?\b", text[place : found.end])
        return found.value.removeprefix("conductor "), (place + stop.start() if stop else found.end)
    return None


def _many(said: str | None, whole: str) -> Raceways:
    if said in ("a", "an", "the"):
        return Raceways(1, None, cable=True)
    worth = lengths.value(said) if said else None
    if worth is None:
        return Raceways(None, None, whole.endswith("s"), cable=True)
    return Raceways(int(worth), None, cable=True)
