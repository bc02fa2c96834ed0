"""Expressions of one purpose, of which only those are tried whose words a line holds."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from boxaloud.grammar.patterns.pattern_index import Sieve
from boxaloud.grammar.patterns.pattern_requirements import Needs


class SiftedForms:
    """Expressions in their order, and what each needs (`pattern_requirements.telling_needs`).

    One is compiled when a line first holds what it needs: most never are, and each takes a
    millisecond or more.
    """

    def __init__(self, expressions: Sequence[str], needed: Sequence[Needs]) -> None:
        self._expressions = tuple(expressions)
        self._compiled: dict[int, re.Pattern[str]] = {}
        self._sieve = Sieve(needed)

    def in_line(self, line: str) -> Iterator[tuple[int, re.Pattern[str]]]:
        """The expressions that may match a line, with their places, in order."""
        for place in self._sieve.passing(line.lower()):
            form = self._compiled.get(place)
            if form is None:
                form = self._compiled[place] = re.compile(self._expressions[place])
            yield place, form
