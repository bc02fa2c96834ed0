"""Every ink on every ground, as painted: a contrast of at least 4.5 to 1 (WCAG 2.2, 1.4.3).

Relative luminance and contrast ratio are worked out by the formulas of WCAG 2.2.
"""

from __future__ import annotations

import pytest
from app_pilot import app_for, drive, seen
from boxaloud.assistant.tui.app import BoxaloudApp
from boxaloud.assistant.tui.theme import NAMES
from rich.color import Color, ColorType
from scenes import SCENES, scene_app, segments
from textual.pilot import Pilot

LEAST = 4.5


def luminance(color: Color) -> float:
    triplet = color.get_truecolor()
    parts = [value / 255 for value in triplet]
    linear = [p / 12.92 if p <= 0.04045 else ((p + 0.055) / 1.055) ** 2.4 for p in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(ink: Color, ground: Color) -> float:
    one, other = sorted((luminance(ink), luminance(ground)), reverse=True)
    return (one + 0.05) / (other + 0.05)


def pairs(app: BoxaloudApp) -> dict[tuple[str, str], tuple[float, str]]:
    """Each pair of colours that carries a sign, with its contrast and one of its texts."""
    found: dict[tuple[str, str], tuple[float, str]] = {}
    for row in segments(app):
        for text, style, _ in row:
            if not text.strip() or style is None:
                continue
            assert style.color is not None, text
            assert style.bgcolor is not None, text
            ink, ground = style.color, style.bgcolor
            if style.reverse:
                ink, ground = ground, ink
            key = (ink.get_truecolor().hex, ground.get_truecolor().hex)
            found[key] = (contrast(ink, ground), text.strip())
    return found


def test_the_formula_gives_the_known_extremes() -> None:
    """Black on white is 21 to 1; #767676 on white is the well-known 4.54 to 1 (WCAG, G18)."""
    white = Color.parse("#ffffff")
    assert round(contrast(Color.parse("#000000"), white), 2) == 21.0
    assert round(contrast(Color.parse("#767676"), white), 2) == 4.54


@pytest.mark.parametrize("colours", NAMES)
def test_every_pair_of_colours_can_be_told_apart(colours: str) -> None:
    faint: list[str] = []
    counted = 0
    for scene, keys in SCENES.items():
        app = scene_app(colours)

        async def play(pilot: Pilot[None], app: BoxaloudApp = app, scene: str = scene) -> None:
            nonlocal counted
            await pilot.press(*SCENES[scene])
            await pilot.pause(0.3 if scene == "palette" else 0)
            found = pairs(app)
            counted += len(found)
            faint.extend(
                f"{scene}: {ink} on {ground} {ratio:.2f} “{text}”"
                for (ink, ground), (ratio, text) in found.items()
                if ratio < LEAST
            )

        drive(app, play, (120, 36))
        assert keys == SCENES[scene]
    assert faint == []
    assert counted > len(SCENES)


def test_without_colour_not_one_is_sent(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    app = app_for("two 14-2 cables and one switch", "18 cubic inch box", "no clamps")

    async def play(pilot: Pilot[None]) -> None:
        await pilot.press("f4", "f8")
        await pilot.pause()
        used = {
            color.type
            for row in segments(app)
            for _, style, _ in row
            if style is not None
            for color in (style.color, style.bgcolor)
            if color is not None
        }
        assert used <= {ColorType.DEFAULT}
        assert "FITS" not in seen(app)  # drawn large, not written
        assert "✓" not in seen(app)
        assert "fits · margin 4.00" in seen(app)

    drive(app, play)
