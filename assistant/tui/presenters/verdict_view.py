"""Where the box stands, as the screen shows it: pure text from an assessment."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from boxaloud.assistant.dialogue.assessment import Assessment, exact
from boxaloud.assistant.dialogue.nlg.sentences import marked, volume
from boxaloud.assistant.tui.tui_messages import text


@dataclass(frozen=True, slots=True)
class Glance:
    """What is read from a ladder. `margin` is what is shown large, empty while unknown."""

    verdict: str
    word: str
    margin: str
    at_least: bool
    """True where the margin may still turn out larger: it is shown with a plus."""
    caption: str
    tiny: str

    @property
    def figure(self) -> str:
        """The margin as it is shown: with a plus where it may still turn out larger."""
        return f"{self.margin}{'+' if self.at_least else ''}"


def glance(found: Assessment) -> Glance:
    """The verdict, the margin and one line under them. Volumes are cubic inches."""
    verdict = found.verdict
    margin = _margin(found)
    shown = "" if margin is None else volume(margin)
    word = text(f"verdict.word.{verdict}")
    early = margin is not None and not exact(found)
    tiny = text(
        f"verdict.tiny.{verdict}",
        margin=shown + ("+" if early else ""),
        total=volume(found.sheet.total),
    )
    return Glance(verdict, word, shown, early, _caption(found, shown), tiny)


def _margin(found: Assessment) -> Decimal | None:
    """The margin, or how far it is over: the least that it can be while answers are open."""
    capacity = found.sheet.capacity
    if capacity is None or found.verdict == "incomplete":
        return None
    return capacity - found.high if found.verdict == "fits" else found.low - capacity


def _caption(found: Assessment, margin: str) -> str:
    sheet = found.sheet
    values = {"margin": margin, "edition": sheet.edition, "total": volume(sheet.total)}
    if found.verdict != "incomplete" and sheet.capacity is not None:
        early = "" if exact(found) else "_early"
        return text(
            f"verdict.caption.{found.verdict}{early}",
            capacity=marked(sheet.capacity),
            low=volume(found.low),
            high=volume(found.high),
            **values,
        )
    if sheet.capacity is None:
        key = "no_box" if sheet.lines else "nothing"
        return text(f"verdict.caption.{key}", **values)
    return text("verdict.caption.so_far", capacity=marked(sheet.capacity), **values)
