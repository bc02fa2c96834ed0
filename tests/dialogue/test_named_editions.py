"""A code or place and its year said apart, and what connectors are under Rule 12-3034.

CE Code 2021 and 2024: Rule 12-3034(2), one conductor for each pair of wire connectors, clamps not
counted (oncodes.ca; diychatroom 145600); 14 AWG 24.6 mL (Table 22). Chicago: Title 14E is the 2017
edition (amlegal 14E-1).
"""

from __future__ import annotations

from decimal import Decimal

import pytest
from boxaloud.assistant.dialogue import Conversation, Reply


def told(*said: str) -> Reply:
    conversation = Conversation()
    for words in said:
        reply = conversation.hear(words)
    return reply


@pytest.mark.parametrize(
    ("said", "edition"),
    [
        ("We're in Canada, by the 2024 code.", "CE Code 2024"),
        ("Canadian code 2021", "CE Code 2024"),
        ("2021, I'm in Canada", "CE Code 2024"),
        ("Canadian code, the 2024 edition", "CE Code 2024"),
        ("in Chicago, 2017 code", "2017"),
        ("Canadian code, no, 2020", "2020"),
        ("use 2020", "2020"),
    ],
)
def test_a_code_and_its_year_are_one_edition(said: str, edition: str) -> None:
    found = told(said)
    assert (found.sheet.edition, found.asks) == (edition, "contents")


@pytest.mark.parametrize(
    "said", ["in Canada, 2020 code", "I'm in Ontario, 2024 code", "2017, or 2020"]
)
def test_what_is_not_held_or_not_sure_is_asked(said: str) -> None:
    assert told(said).asks in ("edition", "confirm")


@pytest.mark.parametrize(
    ("said", "total"),
    [
        # what clamps a cable counts nothing
        ("two 14-2s, two cable connectors, one switch", "147.60"),
        ("two 14-2s, two box connectors, one switch", "147.60"),
        ("two 14-2s, one connector, one switch", "147.60"),
    ],
)
def test_connectors_of_wires_in_canada(said: str, total: str) -> None:
    found = told("use the Canadian code", said)
    assert found.left_over == ()
    assert found.sheet.total == Decimal(total)


@pytest.mark.parametrize(
    ("said", "total"),
    [
        # 7 wires, a strap of two, one pair: 10 x 24.6
        ("one switch, 2 connectors, one 14/3 and two 14/2", "246.00"),
        # 4 wires, a strap of two, one pair of three: 7 x 24.6
        ("one switch, three connectors, two 14/2", "172.20"),
        # four are two pairs
        ("four connectors, two 14/2", "147.60"),
    ],
)
def test_connectors_in_canada_count_once_they_are_said_to_be_of_wires(
    said: str, total: str
) -> None:
    """Rule 12-3034(2)(b) counts those of wires, and not those that hold cables: it is asked."""
    open_ = told("use the Canadian code", said)
    assert open_.sheet.total < Decimal(total)
    found = told("use the Canadian code", said, "yes")
    assert found.left_over == ()
    assert found.sheet.total == Decimal(total)


def test_elsewhere_connectors_of_either_kind_count_nothing() -> None:
    """Those of cables clamp outside, 314.16(B)(2), those of wires have no allowance in (B)."""
    found = told("two 14-2s, two connectors, one switch")
    assert found.left_over == ()
    assert found.sheet.total == Decimal("14.00")
    assert "Clamps outside." in found.said
