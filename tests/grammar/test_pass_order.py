"""The guide tells the passes over the acts of an utterance as they stand, in their order."""

from __future__ import annotations

import re
from pathlib import Path

from boxaloud.grammar.utterance import act_passes

GUIDE = (Path(__file__).parents[2] / "DEVELOPERS.md").read_text(encoding="utf-8")
TOLD = re.findall(r"^\d+\. `(FIRST|THEN)`, [^`]*: ((?:`\w+`(?:, |\.))+)$", GUIDE, re.MULTILINE)


def test_the_passes_are_told_in_their_order() -> None:
    told = [(when, name) for when, names in TOLD for name in re.findall(r"`(\w+)`", names)]
    stands = [
        (when, row.tidying.__name__)
        for when, passes in (("FIRST", act_passes.FIRST), ("THEN", act_passes.THEN))
        for row in passes.rows
    ]
    assert told == stands


def test_the_list_is_short_enough_to_be_read() -> None:
    assert 1 < len(TOLD) <= 30


def test_no_heading_stands_without_passes() -> None:
    headings = re.findall(r"^\d+\. `(?:FIRST|THEN)`", GUIDE, re.MULTILINE)
    assert len(headings) == len(TOLD)
