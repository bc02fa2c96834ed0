"""What a text must hold for a rewrite rule to match it, besides what the row itself names.

A row names one list of pieces in `needs`, which many a text holds one of: "one", "in". Its
expression asks for more, so that three rules of four need not be tried once it is read off too.
"""

from __future__ import annotations

from typing import Any

from boxaloud.grammar import grammar_data
from boxaloud.grammar.patterns.pattern_requirements import Needs, telling_needs
from boxaloud.grammar.phrases import compiled_cache
from boxaloud.grammar.rewriting.fragments import written_out

#: The files of rows, in the order in which their rows are tried.
FILES = (
    "rewrites_called",
    "rewrites_remarks",
    "rewrites_layout",
    "rewrites_takeoff",
    "rewrites_orders",
    "rewrites_trade",
    "rewrites_asides",
    "rewrites_names",
    "rewrites_dictated",
    "rewrites_frames",
)


def rewrite_rows() -> list[tuple[str, dict[str, Any]]]:
    """All rows in their order, each with the name of its file."""
    return [(name, row) for name in FILES for row in grammar_data.table(name)["rewrite"]]


def rewriting_needs() -> list[Needs]:
    """What the expression of each row needs, read off ahead: in small letters, of each list one
    text."""
    return [telling_needs(written_out(row["said"])) for _, row in rewrite_rows()]


def kept_needs() -> list[Needs]:
    """The same as it was compiled, where it was."""
    ahead = compiled_cache.kept()
    return rewriting_needs() if ahead is None else ahead.data("needs rewriting")
