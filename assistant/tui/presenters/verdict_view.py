"""Where the box stands, as the screen shows it: pure text from an assessment."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal

from boxaloud.assistant.dialogue.assessment import Assessment, exact
from boxaloud.assistant.dialogue.nlg.sentences import in_unit, marked, volume
from boxaloud.assistant.tui.presenters import enclosure_view
from boxaloud.assistant.tui.tui_messages import text
from boxaloud.rules import counted_under, edition_named, is_canadian, provisional


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
    unit: str = "in³"
    code: str = ""
    """The code, where it must stand with every verdict: Canada, an edition not read."""
    sign: str = ""
    """The shape and the mark, where they are not those of the verdict."""

    @property
    def mark(self) -> str:
        """Which shape and mark go with it."""
        return self.sign or self.verdict

    @property
    def figure(self) -> str:
        """The margin as it is shown: with a plus where it may still turn out larger."""
        return f"{self.margin}{'+' if self.at_least else ''}"

    def coded(self, words: str) -> str:
        """Words that tell the verdict, with its code where that must stand with it."""
        return text("verdict.coded", words=words, code=self.code) if self.code else words


def glance(found: Assessment) -> Glance:
    """The verdict, the margin and one line under them, in the unit of the worksheet."""
    by_size = not found.by_volume or found.small_alone
    if by_size and (of := enclosure_view.headline(found)) is not None:
        seen = Glance(
            found.verdict, of.word, of.figure, False, of.caption, of.tiny, of.unit,
            _code(found.sheet.edition), of.sign,
        )  # fmt: skip
        return replace(seen, tiny=seen.coded(of.tiny))
    verdict = found.verdict
    margin = _margin(found)
    shown = "" if margin is None else volume(margin)
    word = text(f"verdict.word.{verdict}")
    early = margin is not None and not exact(found)
    tiny = text(
        f"verdict.tiny.{verdict}",
        margin=shown + ("+" if early else ""),
        total=volume(found.sheet.total),
        unit=in_unit(found.sheet.unit),
    )
    seen = Glance(
        verdict, word, shown, early, _caption(found, shown), tiny,
        in_unit(found.sheet.unit), _code(found.sheet.edition),
    )  # fmt: skip
    return replace(seen, tiny=seen.coded(tiny))


def _code(edition: str) -> str:
    """The code of Canada and of an edition that was not read; empty for the others."""
    return edition_named(edition) if is_canadian(edition) or provisional(edition) else ""


def _margin(found: Assessment) -> Decimal | None:
    """The margin, or how far it is over: the least that it can be while answers are open."""
    capacity = found.sheet.capacity
    if capacity is None or found.verdict == "incomplete":
        return None
    return capacity - found.high if found.verdict == "fits" else found.low - capacity


def _caption(found: Assessment, margin: str) -> str:
    sheet = found.sheet
    values = {
        "margin": margin,
        "edition": edition_named(sheet.edition),
        "under": counted_under(sheet.edition, "edition "),
        "unit": in_unit(sheet.unit),
        "total": volume(sheet.total),
    }
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
