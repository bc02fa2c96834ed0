"""What cannot be is refused in one plain sentence, before it is entered and when worked out."""

from __future__ import annotations

from decimal import Decimal

import pytest
from boxaloud.rules import RulesError, ground_for, validate, validate_part, work_out
from boxaloud.rules.contents import (
    Barrier,
    BondingJumper,
    Box,
    Cable,
    Conductors,
    Content,
    FixtureWires,
    Grounds,
    Marked,
    Part,
    SupportFitting,
    TableBox,
    TerminalBlock,
    Uncounted,
    Yoke,
)

WRONG: list[tuple[Content, str]] = [
    (Cable(0, 2, 14), "314.28"),
    (Cable(99, 2, 14), "99 AWG is not a size"),
    (Cable(13, 2, 14), "13 AWG is not a size"),
    (Cable(4, 3, 8), "4 AWG: from 4 AWG up"),
    (Cable(6, 3, 4), "314.28"),
    (Cable(14, 0, 14), "count of 0"),
    (Cable(14, 51, 14), "1 to 50"),
    (Cable(14, 2, 14, -1), "count of -1"),
    (Cable(14, 2, 14, 1001), "1 to 1000"),
    (Cable(14, 2, 14, path="sideways"), "sideways"),  # type: ignore[arg-type]
    (Conductors(2, 3), "2 AWG"),
    (Conductors(14, 0), "count of 0"),
    (FixtureWires(20, 2), "20 AWG"),
    (Grounds(99, 1), "99 AWG"),
    (BondingJumper(14, -2), "count of -2"),
    (Yoke("switch", 99), "99 AWG"),
    (Yoke("switch", None, gangs=11), "1 to 10"),
    (SupportFitting("hickey", 0), "count of 0"),
    (TerminalBlock(1), "1 AWG"),
    (Uncounted("locknut", 2000), "2000"),
]
WRONG_PARTS: list[tuple[Part, str]] = [
    (Marked(Decimal(30000)), "30000 cubic inches cannot be right"),
    (Marked(Decimal(0)), "from 1 to 10000"),
    (Marked(Decimal(-18)), "-18"),
    (Marked(Decimal("NaN")), "NaN"),
    (Marked(Decimal("0.05"), "plaster ring"), "from 0.1 to 200"),
    (TableBox("square-5-1.5"), "no box named"),
    (TableBox("square-4-1.5", 2), "does not gang"),
    (TableBox("device-3x2x2", 0), "count of 0 gangs"),
    (Barrier("wood"), "metal or nonmetallic"),  # type: ignore[arg-type]
    (Barrier("metal", Decimal(500)), "500"),
]


@pytest.mark.parametrize(("content", "says"), WRONG)
def test_a_wrong_content_is_refused(content: Content, says: str) -> None:
    for act in (lambda: validate(content), lambda: work_out(Box(contents=(content,)))):
        with pytest.raises(RulesError, match=says) as refused:
            act()
        assert_one_sentence(str(refused.value))


@pytest.mark.parametrize(("part", "says"), WRONG_PARTS)
def test_a_wrong_part_is_refused(part: Part, says: str) -> None:
    for act in (lambda: validate_part(part), lambda: work_out(Box(parts=(part,)))):
        with pytest.raises(RulesError, match=says) as refused:
            act()
        assert_one_sentence(str(refused.value))


def assert_one_sentence(text: str) -> None:
    assert text[0].isupper() or text[0].isdigit()
    assert text.endswith(".")
    assert ". " not in text
    assert "\n" not in text


@pytest.mark.parametrize("volume", ["1", "3.9", "18", "126", "200"])
def test_volumes_that_people_have_are_taken(volume: str) -> None:
    validate_part(Marked(Decimal(volume)))


@pytest.mark.parametrize(("awg", "ground"), [(14, 14), (12, 12), (10, 10), (8, 10), (6, 10)])
def test_the_ground_of_a_cable(awg: int, ground: int) -> None:
    """From memory of 250.122 and of cable as sold; Mike Holt forum 2571164 for the 6-3."""
    assert ground_for(awg) == ground


def test_a_thing_that_is_no_content_is_refused() -> None:
    with pytest.raises(RulesError, match="nothing that"):
        validate("a switch")  # type: ignore[arg-type]
    with pytest.raises(RulesError, match="no part of a box"):
        validate_part("a lid")  # type: ignore[arg-type]
