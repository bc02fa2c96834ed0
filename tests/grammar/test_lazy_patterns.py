"""An expression that is compiled when first tried finds what `re.compile` would.

Past defect this prevents: two expressions that are told apart by which object matched.
"""

from __future__ import annotations

import re

from boxaloud.grammar.lazy_patterns import lazy_pattern


def test_it_finds_what_a_compiled_expression_finds() -> None:
    lazy, plain = lazy_pattern(r"(?P<n>\d+) wires?", re.IGNORECASE), re.compile(r"(?i)\d+ wires?")
    for text in ("3 WIRES", "a wire", "6 wires and 2 wires"):
        for _ in range(2):
            assert bool(lazy.search(text)) == bool(plain.search(text))
            assert lazy.sub("*", text) == plain.sub("*", text)
            assert [m[0] for m in lazy.finditer(text)] == [m[0] for m in plain.finditer(text)]
    assert lazy.pattern == r"(?P<n>\d+) wires?"


def test_nothing_is_compiled_before_it_is_tried() -> None:
    lazy_pattern("(not an expression")
