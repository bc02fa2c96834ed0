"""What a text must hold for a rewrite rule to match it, besides what the row itself names.

A row names one list of pieces in `needs`, which many a text holds one of: "one", "in". Its
expression asks for more, so that three rules of four need not be tried once it is read off too.
"""

from __future__ import annotations

import re
from typing import Any

from boxaloud.grammar import grammar_data
from boxaloud.grammar.patterns.pattern_requirements import Needs, needs
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
_MOST = 4
"""Lists of one rule: each makes the sieve wider for all of them, and the longest tell the most."""
_SHORTEST = 2
"""Letters of a text that tells anything: a space or an "s" stands in every text."""
#: What is written so that the requirements can be read off: a reference to a group, flags, which
#: change nothing of it in small letters, and what is looked ahead or back for, which must stand in
#: the text as well. An escaped bracket before "?" begins none of these.
_PLAINER = (
    (re.compile(r"\(\?P=\w+\)"), "(?:)"),
    (re.compile(r"^\(\?[ims]+\)"), ""),
    (re.compile(r"(?<!\\)\(\?-?[ims]+:"), "(?:"),
    (re.compile(r"(?<!\\)\(\?<?="), "(?:"),
    (re.compile(r"\\u2019"), "’"),
    (re.compile(r"\\x27"), "'"),
    (re.compile(r"\\x22"), '"'),
    (re.compile(r"\\t"), "\t"),
)


def rewrite_rows() -> list[tuple[str, dict[str, Any]]]:
    """All rows in their order, each with the name of its file."""
    return [(name, row) for name in FILES for row in grammar_data.table(name)["rewrite"]]


def rewriting_needs() -> list[Needs]:
    """What the expression of each row needs, read off ahead: in small letters, of each list one
    text."""
    return [needs_of(written_out(row["said"])) for _, row in rewrite_rows()]


def kept_needs() -> list[Needs]:
    """The same as it was compiled, where it was."""
    ahead = compiled_cache.kept()
    return rewriting_needs() if ahead is None else ahead.data("needs rewriting")


def needs_of(expression: str) -> Needs:
    """What a text in small letters must hold for an expression to match it.

    >>> needs_of("(?P<n>two|three) cables?(?= in (?:all|total))")
    [[' cable'], [' in '], ['two', 'three'], ['all', 'total']]
    """
    for written, plain in _PLAINER:
        expression = written.sub(plain, expression)
    found = [[text.lower() for text in texts] for texts in needs(expression)]
    telling = [texts for texts in found if min(len(text.strip()) for text in texts) >= _SHORTEST]
    return telling[:_MOST]
