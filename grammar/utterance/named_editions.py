"""A code or a place and the year of its edition, said apart: "in Canada, by the 2024 code"."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread


def one_edition(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """A code named without a year and a year right beside it, as the one edition that they are.

    A year of another code, and one behind a word of correction, is another edition.
    """
    kept: list[Act] = []
    for act in made:
        before = kept[-1] if kept else None
        if (both := _joined(before, act, heard)) is not None:
            kept[-1] = both
        else:
            kept.append(act)
    return kept


def _joined(one: Act | None, other: Act, heard: str) -> acts.SetEdition | None:
    if not isinstance(one, acts.SetEdition) or not isinstance(other, acts.SetEdition):
        return None
    code, year = (one, other) if one.code else (other, one)
    alone = bool(code.code) and not code.year and bool(year.year) and not year.code
    if not alone or other.function == "correction":
        return None
    span = (one.span[0], other.span[1])
    return replace(code, year=year.year, words=heard[slice(*span)], span=span)
