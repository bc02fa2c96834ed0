"""Cables that enter a pull box: "two 4/0 SER cables", "three cables of 3 conductor 500 kcmil".

A cable counts as the raceway that its conductors would need, 314.28(A); where nobody said which
they are, that raceway is asked for.
"""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.grammar.enclosures import cable_wires, lengths
from boxaloud.grammar.enclosures.conductor_sizes import conductor
from boxaloud.grammar.enclosures.enclosure_words import words
from boxaloud.grammar.enclosures.pull_piece import Piece, Raceways
from boxaloud.grammar.lazy_patterns import lazy_pattern

_NUMBER = r"one|two|three|four|five|six|[1-6]"
_COUNT = lazy_pattern(rf"(?P<n>a|an|the|{_NUMBER}) ")
_WIRES = lazy_pattern(rf"(?P<n>{_NUMBER})[ -](?:conductors?|wires?)(?: of)?(?!\w)")
_PLAIN_COUNT = lazy_pattern(rf"(?:{_NUMBER}) ")
_GAP = lazy_pattern(r"[ -]*")
_EACH = lazy_pattern(r"(?:each|apiece|in each|per cable)(?!\w)")
_INSULATED = lazy_pattern(r"(?:thhn|thwn|xhhw|thhw|thw|tw)(?:-2)?(?!\w)")
_OF = lazy_pattern(r"(?:of|with|holding|carrying)(?!\w)")


def cables(text: str, at: int, lone: bool) -> Piece | None:
    """Cables, how many, and the conductors in them as far as they were said."""
    count = None if cable_wires.counts_wires(text, at) else _COUNT.match(text, at)
    cable = _Cable(text, count.end() if count else at)
    while cable.more():
        pass
    if not cable.noun:
        return None
    many = _many(count[1] if count else None, text[at : cable.end])
    wires = () if cable.inside is None else cable.inside.sizes
    size = cable.size or max(wires, key=_rank, default="")
    item = replace(
        many,
        wires=wires,
        ground=cable.ground,
        insulation=cable_wires.insulation(text[at : cable.end]) if wires else None,
    )
    return Piece("items", at, cable.end, size and f"conductor {size}", items=(item,))


def _rank(size: str) -> int:
    """A place in the order of sizes, the smallest first."""
    if size.endswith("/0"):
        return int(size[:-2])
    return int(size) if int(size) >= 250 else -int(size)


class _Cable:
    """A cable read piece by piece."""

    def __init__(self, text: str, at: int) -> None:
        self.text = text
        self.place = self.end = at
        self.noun = False
        self.size = ""
        self.inside: cable_wires.Wires | None = None
        self.ground = ""

    def more(self) -> bool:
        """Read one piece more; False where the cable ends."""
        before = self.place
        if (self.noun or self.inside) and (of := cable_wires.ground(self.text, before)) is not None:
            self.ground = of[0]
            return self._step(of[1], self.noun)
        if self.noun and not self.inside and (own := cable_wires.apart(self.text, before)):
            self.inside, self.ground = own, own.ground or self.ground
            return self._step(own.end, True)
        gap = _GAP.match(self.text, before)
        self.place = gap.end() if gap else before
        return self._wires() or self._word()

    def _wires(self) -> bool:
        if self.inside is not None:
            return False
        self.inside = cable_wires.wires(self.text, self.place)
        if self.inside is None:
            return False
        self.ground = self.inside.ground
        return self._step(self.inside.end, self.noun)

    def _word(self) -> bool:
        text, place = self.text, self.place
        if self.noun and self.inside and (of := _INSULATED.match(text, place)) is not None:
            return self._step(of.end(), True)
        counted = _WIRES.match(text, place)
        each = _EACH.match(text, place) if self.noun and (self.size or self.inside) else None
        if counted is not None and self.size and self.inside is None:
            many = int(lengths.value(counted["n"]) or 0)  # "a 2/0 three-wire cable"
            self.inside = cable_wires.Wires((self.size,) * many, counted.end())
        if (found := counted or each) is not None:
            return self._step(found.end(), True)
        if not self.noun and (named := words("cable").match(text, place)) is not None:
            self.noun = True
            return self._step(named.end(), True)
        link = words("cable_kind").match(text, place) if not self.noun else _OF.match(text, place)
        if link is not None:
            return self._step(link.end(), False)
        if not self.size and (said := _size(text, place)) is not None:
            self.size = said[0]
            return self._step(said[1], self.noun)
        return False

    def _step(self, to: int, closes: bool) -> bool:
        self.place = to
        if closes:
            self.end = to
        return True


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
