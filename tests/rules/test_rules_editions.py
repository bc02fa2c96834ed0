"""Editions: what is held, how a name leads to it, and what is refused by name."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest
from boxaloud.rules import (
    CANADIAN,
    EditionUnsure,
    NoSuchEdition,
    check_edition,
    counted_under,
    differences,
    editions,
    explain,
    provisional,
    read_edition,
    work_out,
)
from boxaloud.rules.contents import Barrier, Box, Cable, Grounds, Marked, TerminalBlock


def test_the_editions_held() -> None:
    assert editions() == ("2014", "2017", "2020", "2023", "2026")


@pytest.mark.parametrize(
    ("said", "edition"),
    [
        ("2023", "2023"),
        ("NEC 2020", "2020"),
        ("the 2017 code", "2017"),
        ("NEC 2014 314.16", "2014"),
        ("IRC 2018", "2017"),
        ("IRC 2018 E3905.12", "2017"),
        ("2015 residential code", "2014"),
        ("IRC 2021", "2020"),
        ("IRC 2024", "2023"),
        ("E3905.12", "2023"),
    ],
)
def test_a_name_leads_to_its_edition(said: str, edition: str) -> None:
    """IRC 2018 page 770 and jaspector.com for 2018; the other parents are from memory."""
    assert check_edition(said) == edition


def test_a_parent_from_memory_says_so() -> None:
    assert "from memory" in read_edition("IRC 2021").says
    assert "No year was said" in read_edition("E3905.12").says
    assert "from memory" not in read_edition("IRC 2018").says


@pytest.mark.parametrize(
    ("said", "names"),
    [
        ("2011", "2011"),
        ("2029", "2029"),
        ("NEC 1999", "1999"),
        ("IRC 2012", "2012"),
        ("CEC", "California"),
        ("2018 Canadian code", "2018"),
        ("Texas", "Texas"),
        ("2019 California", "2019"),
        ("the usual one", "usual"),
        ("2020x", "2020x"),
        ("x2020", "x2020"),
        ("2020.5", "2020.5"),
        ("2020²", "2020"),
        ("2020-2023", "2020-2023"),
        ("2017 or 2020", "2017 or 2020"),
    ],
)
def test_one_not_held_is_refused_by_name(said: str, names: str) -> None:
    with pytest.raises(NoSuchEdition, match=names) as refused:
        check_edition(said)
    assert str(refused.value).count(". ") == 0


def test_2026_is_provisional_and_counted_as_2023() -> None:
    """EC&M on TIA 1820, IEC Insights, IAEI Magazine: no change of 314.16 among those named."""
    reading = read_edition("2026")
    assert "provisional" in reading.says
    assert "not proof" in reading.says
    assert "counted as 2023" in counted_under("2026")
    assert provisional("2023") is None
    assert all(differences(SIX_CABLES, "2026") == () for _ in (1,))


@pytest.mark.parametrize(
    ("said", "edition", "names"),
    [
        ("Chicago", "2017", "Title 14E"),
        ("I'm in Chicago", "2017", "Title 14E"),
        ("New York City", "2020", "2025-12-21"),
        ("NYC", "2020", "2025-12-21"),
        ("Massachusetts code", "2023", "2023-02-17"),
        ("Oregon", "2023", "amendments"),
        ("2022 California", "2020", "from memory"),
        ("2025 California", "2023", "2026-01-01"),
        ("2022 CEC", "2020", "California"),
    ],
)
def test_a_place_leads_to_what_it_adopted(said: str, edition: str, names: str) -> None:
    """amlegal 14E-1, Mike Holt forum 2588131, mass.gov, renewal 1244, proreftrades.com; that the
    2022 code of California follows 2020 is from memory."""
    reading = read_edition(said)
    assert reading.edition == edition
    assert names in reading.says
    assert reading.note is not None
    assert reading.note.sources


@pytest.mark.parametrize(
    ("said", "choices"),
    [
        ("California", ("2020", "2023")),
        ("New York", editions()),
        ("CEC", (CANADIAN, "California")),
        ("Ontario", (CANADIAN,)),
        ("Toronto", (CANADIAN,)),
        ("2023 Ontario", (CANADIAN,)),
    ],
)
def test_where_it_is_not_known_it_is_asked(said: str, choices: tuple[str, ...]) -> None:
    with pytest.raises(EditionUnsure) as unsure:
        read_edition(said)
    assert unsure.value.choices == choices


@pytest.mark.parametrize(
    ("said", "edition"),
    [
        ("2021-irc", "2020"),
        ("irc-2021", "2020"),
        ("2020-NEC", "2020"),
        ("CE", CANADIAN),
        ("CE 2024", CANADIAN),
        ("2021-CE", CANADIAN),
    ],
)
def test_a_code_and_its_year_may_be_joined(said: str, edition: str) -> None:
    """That the 2021 residential code follows 2020 is from memory, as its row says."""
    assert read_edition(said).edition == edition


@pytest.mark.parametrize("said", ["2021x irc", "irc 20211", "Oregon 20235", "canada 20244"])
def test_what_is_nearly_a_year_is_refused_and_no_newest_taken(said: str) -> None:
    with pytest.raises(NoSuchEdition, match="cannot tell"):
        read_edition(said)


def test_a_box_under_an_edition_not_held_is_refused() -> None:
    with pytest.raises(NoSuchEdition, match="2005"):
        work_out(Box(edition="2005"))


SIX_CABLES = Box(
    parts=(Marked(Decimal(42)), Barrier()),
    contents=(Cable(12, 2, 12, 6), Grounds(12, 2, isolated=True), TerminalBlock(12)),
    clamps="none",
)


def test_what_changes_under_2017() -> None:
    found = {d.item: (d.here, d.there, d.section) for d in differences(SIX_CABLES, "2017")}
    assert found == {
        "grounds": (Decimal("4.50"), Decimal("2.25"), "314.16(B)(5)"),
        "isolated_grounds": (Decimal("0.00"), Decimal("2.25"), "314.16(B)(5)"),
        "terminal_blocks": (Decimal("2.25"), Decimal("0.00"), "314.16(B)(6)"),
    }


def test_what_changes_from_2014_to_2017_is_the_barrier() -> None:
    (barrier,) = differences(replace(SIX_CABLES, edition="2014"), "2017")
    assert (barrier.item, barrier.change, barrier.section) == (
        "volume",
        Decimal("-0.50"),
        "314.16(A)",
    )


def test_both_rules_of_a_difference_are_named() -> None:
    (blocks,) = differences(SIX_CABLES, "2020")
    assert blocks.rules == ("blocks-once", "blocks-none")
    assert all(explain(rule) for rule in blocks.rules)


def test_a_block_of_unknown_size_differs_by_at_most_its_largest() -> None:
    box = Box(contents=(Cable(14, 2, 14), Cable(12, 2, 12), TerminalBlock(None)), clamps="none")
    (blocks,) = differences(box, "2020")
    assert (blocks.here, blocks.there, blocks.at_most) == (Decimal("2.25"), 0, True)


def test_nothing_changes_for_a_plain_switch_box() -> None:
    plain = Box(parts=(Marked(Decimal(18)),), contents=(Cable(14, 2, 14, 2),), clamps="none")
    assert all(differences(plain, edition) == () for edition in editions())
