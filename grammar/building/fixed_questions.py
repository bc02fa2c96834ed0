"""Questions of a fixed kind, by the words they are put in: `data/questions.toml`."""

from __future__ import annotations

import re
from decimal import Decimal
from functools import lru_cache
from typing import Any, cast

from boxaloud.grammar import acts, grammar_data
from boxaloud.grammar.acts import Act
from boxaloud.grammar.building.asked_question import LONGEST
from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.lazy_patterns import lazy_pattern

#: What is asked about and the words for it; the first that matches.
_FIXED: tuple[tuple[str, str], ...] = tuple(
    (row["about"], row["say"]) for row in grammar_data.table("questions")["fixed"]
)

_FIGURE = lazy_pattern(r"<(?:n|box_volume)[^>]*?:(\d+(?:\.\d+)?)[^>]*>")


def fixed_question(clause: Clause, words: str, span: tuple[int, int]) -> Act | None:
    """A question of a fixed kind, by the words it is put in."""
    about = _asked_about(_with_hot(clause)[:LONGEST])
    if about is None:
        return None
    if about.startswith("list"):
        only = about.partition(":")[2]
        return acts.ListBoxes(only=cast(Any, only), words=words, span=span)
    if about == "why:figure":
        figure = _FIGURE.search(clause.line)
        said = Decimal(figure[1]) if figure else None
        return acts.AskWhy(figure=said, words=words, span=span)
    if about.startswith("why"):
        return acts.AskWhy(of=about.partition(":")[2] or None, words=words, span=span)
    return acts.Ask(about=cast(Any, about), words=words, span=span)


def order(clause: Clause, heard: str) -> list[Act] | None:
    """ "Convert to mL", "show me the math": a question of a fixed kind put as an order."""
    words = heard[clause.span[0] : clause.span[1]]
    fixed = fixed_question(clause, words, clause.span)
    return None if fixed is None else [fixed]


def _with_hot(clause: Clause) -> str:
    """The line of a clause in which a bare "hot" is the word: "to work on this hot"."""
    last = clause.elements[-1]
    hot = last.found is not None and last.found.words.lower() == "hot"
    return " ".join([*clause.line.split(" ")[:-1], "hot"]) if hot else clause.line


@lru_cache(maxsize=1024)
def _asked_about(line: str) -> str | None:
    """What a line of tags asks about, by the first expression that it holds."""
    return next((about for about, pattern in _FIXED if re.search(pattern, line)), None)
