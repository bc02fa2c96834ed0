"""A pull box and a conduit body as plain lines: no drawing, everything in words.

314.28(A)(2): 6 x 3 + 2 = 20 (EC&M, March 2022). 0.4 x 0.533 / 0.0133 is 16.03: areas of sfasoft,
"All tubing and conduits", and buildmyowncabin, "NEC 2008 Chapter 9 Table 5".
"""

from __future__ import annotations

import pytest
from boxaloud.assistant.cli import main
from boxaloud.assistant.cli.exit_codes import guarded

PULL = "angle pull, a 3 inch and a 2 inch from the left to the top"
BODY = "LB with six number 12 THHN passing through, no splices, three quarter EMT"


def checked(capsys: pytest.CaptureFixture[str], *said: str) -> tuple[int, list[str]]:
    status = guarded(lambda: main.app(["check", *said]))
    return status, capsys.readouterr().out.splitlines()


def test_a_conduit_body_comes_with_its_verdict_first(capsys: pytest.CaptureFixture[str]) -> None:
    status, lines = checked(capsys, BODY)
    assert status == 0
    assert lines[0].startswith("FITS: 6 THHN conductors in 3/4 inch EMT, 16 at most")
    assert "314.16(C)(1)" in lines[0]
    told = "\n".join(lines)
    assert "0.4 x 0.533 / 0.0133" in told
    for wrong in ("NOT YET", "13.50", "capacity unknown", "Still open"):
        assert wrong not in told


def test_one_that_is_over_says_so_first(capsys: pytest.CaptureFixture[str]) -> None:
    status, lines = checked(capsys, "LL, half inch EMT, ten 12 THHN passing through")
    assert status == 1
    assert lines[0].startswith("OVER: 10 THHN conductors in 1/2 inch EMT, 9 at most")


def test_one_with_something_open_is_not_yet(capsys: pytest.CaptureFixture[str]) -> None:
    status, lines = checked(capsys, "LB with six number 12, no splices")
    assert status == 3
    assert lines[0].startswith("NOT YET")
    assert "13.50" not in "\n".join(lines)


def test_a_pull_box_is_told_wall_by_wall(capsys: pytest.CaptureFixture[str]) -> None:
    _, lines = checked(capsys, PULL)
    told = "\n".join(lines)
    assert lines[0] == "LEAST: 20 inches wide, 20 inches high, NEC 314.28(A), edition 2023"
    assert "From the front: left wall, 3 inch and 2 inch; top wall, 3 inch and 2 inch." in told
    assert told.count("314.28(A)(2)") >= 4
    assert "Distance between raceways" in told
    assert not set("│┌█") & set(told)


def test_a_box_at_hand_that_is_too_small_says_so_first(
    capsys: pytest.CaptureFixture[str],
) -> None:
    status, lines = checked(capsys, PULL, "the box is 18 by 18 by 6 inches")
    assert status == 1
    assert lines[0].startswith("TOO SMALL: ")


def test_a_cable_is_told_by_the_raceway_that_it_counts_as(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """3 x 0.3237, 4/0 THHN, of 0.4 x 3.356: 2 inch, and 8 x 2 = 16; from memory."""
    said = "straight pull with one 3 conductor 4/0 cable"
    status, lines = checked(capsys, said, "the box is 16 by 12 by 6")
    assert status == 0
    assert lines[0].startswith("LARGE ENOUGH: width 16 of 16 inches needed, NEC 314.28(A)(1)")
    sheet = "\n".join(lines).partition("Worksheet")[2]
    assert "3 times 0.3237 of 0.4 times 3.356" in sheet
    assert "From memory: Table 5, 4/0." in sheet


def test_a_pull_box_of_which_something_is_open_tells_no_dimension(
    capsys: pytest.CaptureFixture[str],
) -> None:
    _, lines = checked(capsys, "pull box with two 3 inch conduits")
    assert not any(line.startswith("LEAST") for line in lines)
