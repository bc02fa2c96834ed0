"""How a change is begun and how it is withdrawn: the expressions of `data/withdrawals.toml`."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from typing import Any

from boxaloud.grammar import grammar_data
from boxaloud.grammar.patterns.pattern_requirements import Needs, telling_needs
from boxaloud.grammar.patterns.sifted_forms import SiftedForms
from boxaloud.grammar.phrases import compiled_cache

KINDS = ("any", "refused", "broken", "reported", "wish", "would", "absent", "right", "agreeing")
"""Ways to withdraw, in the order in which they are tried."""


@cache
def beginning(name: str) -> re.Pattern[str]:
    """How a change begins."""
    said = _table()["begins"][name]
    return _compiled(said if isinstance(said, str) else "|".join(f"(?:{one})" for one in said))


def withdrawing(text: str) -> Iterator[tuple[str, re.Pattern[str]]]:
    """The ways to withdraw that a text in small letters may hold, each with its kind."""
    kinds, forms = _withdrawing()
    for place, form in forms.in_line(text):
        yield kinds[place], form


def withdrawal_needs() -> list[Needs]:
    """What each way to withdraw needs, read off it ahead."""
    return [telling_needs(form) for _, form in withdrawal_expressions()]


def withdrawal_expressions() -> list[tuple[str, str]]:
    """Every way to withdraw with its kind, in the order in which they are tried."""
    said = _table()["withdraws"]
    return [(kind, _written(form)) for kind in KINDS for form in said[kind]]


@cache
def _withdrawing() -> tuple[list[str], SiftedForms]:
    ahead = compiled_cache.kept()
    needed = withdrawal_needs() if ahead is None else ahead.data("needs withdrawals")
    kinds, said = zip(*withdrawal_expressions(), strict=True)
    return list(kinds), SiftedForms(said, needed)


@cache
def changing() -> re.Pattern[str]:
    """What changes something anew behind a withdrawal."""
    return _compiled(_table()["keeps"]["changes"])


def _compiled(form: str) -> re.Pattern[str]:
    return re.compile(_written(form))


def _written(form: str) -> str:
    """An expression with its macros written out, at the beginning of a word."""
    macros = _table()["macros"]
    while (named := re.search(r"\{([a-z]+)\}", form)) is not None:
        form = f"{form[: named.start()]}{macros[named[1]]}{form[named.end() :]}"
    for written, also in _WRITTEN_APART:
        form = re.sub(written, also, form)
    lead = "" if form.startswith(("(?:^", "(?<")) else r"\b"
    return lead + form


#: "Don't" is written "dont" and "do not" as well, "it's" "its" and "it is".
_WRITTEN_APART = (
    (r"\bwon't", r"(?:won'?t|will not)"),
    (r"([a-z])n't", r"\1(?:n'?t| not)"),
    (r"'s\b", r"(?:'?s| is| has)"),
    (r"'re\b", r"(?:'?re| are)"),
    (r"'m\b", r"(?:'?m| am)"),
    (r"'d\b", r"(?:'?d| would| had)"),
    (r"'ve\b", r"(?:'?ve| have)"),
)


def _table() -> dict[str, Any]:
    return grammar_data.table("withdrawals")
