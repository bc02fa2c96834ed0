"""A pull box drawn to scale in characters: a cell is taken as twice as tall as it is wide.

314.28(A)(1): 8 x 3 = 24; (A)(2): 6 x 3 + 2 = 20 (EC&M, March 2022).
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from app_pilot import app_for, drive, rows, seen
from boxaloud.assistant.tui.presenters.pull_picture import drawn
from boxaloud.rules import Pull, PullBox, Raceway, work_out_pull_box
from boxaloud.rules.pull_front import Front, front
from textual.pilot import Pilot

SAID = "angle pull, a 3 inch and a 2 inch from the left to the top"
INK = "█▒"


def front_of(*raceways: tuple[int, str], kind: str = "angle") -> Front:
    made = [Raceway(f"r{n}", Fraction(size), wall) for n, (size, wall) in enumerate(raceways)]  # type: ignore[arg-type]
    pulls = [
        Pull(kind, one.name, other.name)  # type: ignore[arg-type]
        for one, other in zip(made[::2], made[1::2], strict=True)
    ]
    box = PullBox(tuple(made), tuple(pulls), False)
    return front(work_out_pull_box(box), made)


def frame(picture: list[str]) -> tuple[int, int, int, int]:
    """Left column, top row, columns and rows of the drawn box."""
    top = next(n for n, row in enumerate(picture) if "┌" in row)
    foot = next(n for n, row in enumerate(picture) if "└" in row)
    left, right = picture[top].index("┌"), picture[top].index("┐")
    return left, top, right - left + 1, foot - top + 1


@pytest.mark.parametrize("size", [(60, 16), (78, 20), (120, 40), (200, 80)])
def test_sides_and_raceways_are_to_scale(size: tuple[int, int]) -> None:
    seen_from = front_of((4, "left"), (4, "top"), (2, "left"), (2, "top"))
    assert seen_from.wide == seen_from.high == 26
    picture = drawn(seen_from, *size)
    assert len(picture) <= size[1]
    assert max(map(len, picture)) <= size[0]
    left, top, across, down = frame(picture)
    assert abs(across - 2 * down) <= 1
    scale = Fraction(across, 26)
    stubs = [row[left - 1] in INK for row in picture[top : top + down]]
    assert abs(sum(stubs) - (4 + 2) * scale / 2) <= 2
    above = [cell in INK for cell in picture[top - 1][left : left + across]]
    assert abs(sum(above) - (4 + 2) * scale) <= 2


def test_a_long_box_is_drawn_long() -> None:
    """8 x 6 = 48 across and 8 x 3 = 24 down."""
    seen_from = front_of((6, "left"), (6, "right"), (3, "top"), (3, "bottom"), kind="straight")
    _, _, across, down = frame(drawn(seen_from, 100, 30))
    assert abs(Fraction(across, down) - 4) < Fraction(1, 2)


def test_what_cannot_be_drawn_to_scale_is_not_drawn() -> None:
    many = [(1, wall) for _ in range(12) for wall in ("left", "top")]
    assert drawn(front_of(*many), 40, 8) == []
    assert drawn(front_of((3, "left"), (3, "top")), 12, 4) == []


def test_a_raceway_in_the_back_stands_inside() -> None:
    box = PullBox(
        (Raceway("a", Fraction(3), "back"), Raceway("b", Fraction(3), "left")),
        (Pull("angle", "a", "b", "500"),),
    )
    picture = drawn(front(work_out_pull_box(box), box.raceways), 78, 24)
    left, top, across, down = frame(picture)
    inside = [row[left + 1 : left + across - 1] for row in picture[top + 1 : top + down - 1]]
    assert any("○" in row for row in inside)


@pytest.mark.parametrize("plain", [False, True])
def test_the_screen_shows_it(plain: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    if plain:
        monkeypatch.setenv("NO_COLOR", "1")
    app = app_for(SAID)

    async def look(pilot: Pilot[None]) -> None:
        await pilot.pause()
        shown = rows(app)
        left, _top, across, down = frame(shown)
        assert abs(across - 2 * down) <= 1
        assert left > 2
        told = seen(app)
        assert "314.28(A)" in told
        assert "De-energise" in told
        for wrong in ("NOT YET", "0.00 in³", "volume is not known", "nothing said yet"):
            assert wrong not in told, wrong

    drive(app, look, (100, 36))


def test_a_key_shows_it_on_the_whole_screen() -> None:
    app = app_for(SAID)

    async def look(pilot: Pilot[None]) -> None:
        await pilot.press("ctrl+g")
        await pilot.pause()
        across, down = frame(rows(app))[2:]
        assert down > 12
        assert abs(across - 2 * down) <= 1
        assert "left wall, 3 inch and 2 inch" in seen(app)
        await pilot.press("escape")
        await pilot.pause()
        assert app.screen is app.card

    drive(app, look, (80, 24))


@pytest.mark.parametrize("size", [(40, 15), (60, 20), (80, 24), (160, 48)])
def test_it_is_whole_at_every_size(size: tuple[int, int]) -> None:
    app = app_for(SAID)

    async def look(_: Pilot[None]) -> None:
        assert "20" in seen(app)
        assert "LEAST" in seen(app) or any("█" in row for row in rows(app))
        shown = rows(app)
        if any("┌" in row for row in shown):
            across, down = frame(shown)[2:]
            assert abs(across - 2 * down) <= 1

    drive(app, look, size)


def test_the_worksheet_lists_each_least_distance() -> None:
    app = app_for(SAID)

    async def look(pilot: Pilot[None]) -> None:
        await pilot.press("f4")
        await pilot.pause()
        told = seen(app)
        assert told.count("314.28(A)(2)") >= 4
        assert "6 x 3 + 2" in told

    drive(app, look, (120, 40))


def test_a_conduit_body_has_its_own_worksheet_and_verdict() -> None:
    """0.4 x 0.533 / 0.0133 is 16.03 (Chapter 9 Tables 1, 4, 5)."""
    app = app_for("LB with six number 12 THHN passing through, no splices, three quarter EMT")

    async def look(pilot: Pilot[None]) -> None:
        await pilot.press("f4")
        await pilot.pause()
        told = seen(app)
        assert "16 at most" in told
        assert "314.16(C)(1)" in told
        for wrong in ("13.50", "NOT YET", "volume is not known"):
            assert wrong not in told, wrong

    drive(app, look, (120, 40))
