"""The font of a PDF report: which letters it has, how wide words are, and where lines break."""

from __future__ import annotations

from collections.abc import Iterator
from importlib.resources import as_file, files
from typing import TYPE_CHECKING
from unicodedata import normalize

if TYPE_CHECKING:
    from fpdf import FPDF

FAMILY = "report"
MISSING = "\N{REPLACEMENT CHARACTER}"
"""What stands for a letter that the font has no shape for."""
_FILES = {"": "DejaVuSansCondensed.ttf", "B": "DejaVuSansCondensed-Bold.ttf"}


class Fonts:
    """Widths and line breaks, in points. Adds the font, plain and bold, to the document."""

    def __init__(self, pdf: FPDF) -> None:
        from fpdf.fonts import TTFFont

        self._pdf = pdf
        self._widths: dict[tuple[str, bool], float] = {}
        self.lacking = False
        """True once a letter was asked for that the font does not have."""
        for style, name in _FILES.items():
            path = files("boxaloud.assistant.reports") / "data" / "fonts" / name
            with as_file(path) as found:
                pdf.add_font(FAMILY, style, found)
        font = pdf.fonts[FAMILY]
        self._known = frozenset(font.cmap if isinstance(font, TTFFont) else ())

    def shown(self, words: str) -> str:
        """Words in the letters that the font has, on one line."""
        text = " ".join(normalize("NFC", words).split())
        if self._known.issuperset(map(ord, text)):
            return text
        kept = "".join(c for c in text if c.isprintable())
        self.lacking |= not self._known.issuperset(map(ord, kept))
        return "".join(c if ord(c) in self._known else MISSING for c in kept)

    def width(self, text: str, size: float, bold: bool = False) -> float:
        """How wide shown text is, on one line."""
        return sum(self._word(word, bold) for word in _parts(text)) * size

    def lines(self, words: str, size: float, room: float, bold: bool = False) -> list[str]:
        """Words broken into lines of at most `room`, at least one line."""
        space, lines, line, filled = self._word(" ", bold) * size, [], "", 0.0
        for word in self._broken(self.shown(words), size, room, bold):
            wide = self._word(word, bold) * size
            if line and filled + space + wide > room:
                lines.append(line)
                line, filled = word, wide
            else:
                filled += (space if line else 0) + wide
                line = f"{line} {word}" if line else word
        return [*lines, line]

    def short(self, words: str, size: float, room: float) -> str:
        """Words on one line of at most `room`; what does not go in is left out, and that shown."""
        lines = self.lines(words, size, room - self.width("…", size))
        return lines[0] if len(lines) == 1 else f"{lines[0]}…"

    def _broken(self, text: str, size: float, room: float, bold: bool) -> Iterator[str]:
        """The words; one that is longer than a line in pieces of at most a line."""
        for word in text.split():
            if self._word(word, bold) * size <= room:
                yield word
                continue
            start, filled = 0, 0.0
            for place, letter in enumerate(word):
                wide = self._word(letter, bold) * size
                if place > start and filled + wide > room:
                    yield word[start:place]
                    start, filled = place, 0.0
                filled += wide
            yield word[start:]

    def _word(self, word: str, bold: bool) -> float:
        """The width of a word at a size of one point."""
        found = self._widths.get((word, bold))
        if found is None:
            self._pdf.set_font(FAMILY, "B" if bold else "", 10)
            found = self._widths[word, bold] = self._pdf.get_string_width(word) / 10
        return found


def _parts(text: str) -> list[str]:
    """Words and the blanks between them."""
    words = text.split(" ")
    return [part for word in words for part in (word, " ")][:-1]
