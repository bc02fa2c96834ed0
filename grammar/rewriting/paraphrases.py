"""The rows of data/paraphrases.toml: a whole utterance said in a roundabout way, and its plain
form, which is read in its place."""

from __future__ import annotations

import re
from functools import cache

from boxaloud.grammar import grammar_data
from boxaloud.grammar.patterns.pattern_index import Sieve
from boxaloud.grammar.quick_dataclass import dataclass
from boxaloud.grammar.rewriting.fragments import written_out
from boxaloud.grammar.rewriting.replacement_template import (
    ReplacementTemplate,
    replacement_template,
)


@dataclass(frozen=True, slots=True)
class _Paraphrase:
    said: str
    plain: ReplacementTemplate
    not_asked: tuple[str, ...]
    """Open questions whose answer it may be, so that it stays as it was said."""


def paraphrase(low: str, expect: str | None = None) -> str | None:
    """The plain form of an utterance in small letters; None where no row is for it.

    >>> paraphrase("the last two are 14-2, not 14-3")
    'two of the 14-3s are 14-2s'
    """
    rows, sieve = _rows()
    for place in sieve.passing(low):
        row = rows[place]
        if expect in row.not_asked:
            continue
        if (found := _compiled(row.said).fullmatch(low)) is not None:
            return row.plain.told(found)
    return None


@cache
def _rows() -> tuple[tuple[_Paraphrase, ...], Sieve]:
    given = grammar_data.table("paraphrases")["paraphrase"]
    rows = tuple(
        _Paraphrase(
            written_out("{roundabout_begins}" + row["said"] + "{roundabout_ends}"),
            replacement_template(row["plain"]),
            tuple(row.get("not_asked", ())),
        )
        for row in given
    )
    return rows, Sieve([[row["needs"]] for row in given])


@cache
def _compiled(said: str) -> re.Pattern[str]:
    return re.compile(said, re.IGNORECASE)
