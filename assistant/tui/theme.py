"""The colours: three palettes, and none at all for those who ask for none."""

from __future__ import annotations

from boxaloud.assistant.tui.tui_messages import table
from textual.theme import Theme

NAMES = ("dark", "light", "contrast")
PLAIN = "plain"
PREFIX = "boxaloud-"


def theme_name(name: str) -> str:
    """The name that Textual knows a palette by."""
    return PREFIX + name


def all_themes() -> list[Theme]:
    """A theme for each palette, and `plain`, which leaves every colour to the terminal."""
    return [*(_theme(name, table("themes")[name]) for name in NAMES), _plain()]


def _theme(name: str, palette: dict[str, str | bool]) -> Theme:
    ink, paper = str(palette["ink"]), str(palette["paper"])
    panel, quiet, edge = str(palette["panel"]), str(palette["quiet"]), str(palette["edge"])
    cursor_ink, cursor_paper = str(palette["cursor_ink"]), str(palette["cursor_paper"])
    return Theme(
        name=theme_name(name),
        dark=bool(palette["dark"]),
        primary=ink,
        secondary=quiet,
        accent=ink,
        warning=str(palette["incomplete"]),
        error=str(palette["over"]),
        success=str(palette["fits"]),
        foreground=ink,
        background=paper,
        surface=paper,
        panel=panel,
        boost=panel,
        text_alpha=1.0,
        variables={
            **_parts(ink, quiet, cursor_ink, cursor_paper),
            "quiet": quiet,
            "edge": edge,
            "verdict-fits": str(palette["fits"]),
            "verdict-over": str(palette["over"]),
            "verdict-incomplete": str(palette["incomplete"]),
            "scrollbar": edge,
            "scrollbar-background": paper,
        },
    )


def _plain() -> Theme:
    """No colour: the terminal's own two, with reverse for the cursor."""
    default = "ansi_default"
    return Theme(
        name=theme_name(PLAIN),
        ansi=True,
        primary=default,
        secondary=default,
        accent=default,
        warning=default,
        error=default,
        success=default,
        foreground=default,
        background=default,
        surface=default,
        panel=default,
        boost=default,
        variables={
            **_parts(default, default, default, default),
            "quiet": default,
            "edge": default,
            "verdict-fits": default,
            "verdict-over": default,
            "verdict-incomplete": default,
            "scrollbar": default,
            "scrollbar-background": default,
            "border-blurred": default,
            "ansi-background": "ansi_black",
            "ansi-foreground": "ansi_white",
        },
    )


def _parts(ink: str, quiet: str, cursor_ink: str, cursor_paper: str) -> dict[str, str]:
    """Textual's own variables, given our inks, so that no colour is mixed behind our back."""
    return {
        "text": ink,
        "text-muted": quiet,
        "text-disabled": quiet,
        "foreground-muted": quiet,
        "foreground-disabled": quiet,
        "border": ink,
        "block-cursor-foreground": cursor_ink,
        "block-cursor-background": cursor_paper,
        "block-cursor-blurred-foreground": cursor_ink,
        "block-cursor-blurred-background": cursor_paper,
        "cursor-ink": cursor_ink,
        "cursor-paper": cursor_paper,
        "input-cursor-foreground": cursor_ink,
        "input-cursor-background": cursor_paper,
        "input-selection-foreground": cursor_ink,
        "input-selection-background": cursor_paper,
        "screen-selection-foreground": cursor_ink,
        "screen-selection-background": cursor_paper,
    }
