"""The box from three metres away: verdict, margin and open question, nothing else."""

from __future__ import annotations

from collections.abc import Iterator

from boxaloud.assistant.tui.presenters.fitted_text import fitted
from boxaloud.assistant.tui.presenters.glyphs import Brush, brushes, large, width_of
from boxaloud.assistant.tui.presenters.large_verdict import tallest
from boxaloud.assistant.tui.presenters.verdict_view import Glance


def ladder(shown: Glance, question: str, width: int, height: int) -> list[str]:
    """The rows: of all letter sizes for verdict and question, the two that are largest together."""
    best, found = 0, [shown.tiny]
    code = [shown.code] if shown.code and height > 1 else []
    for letters, asked in _asked(question, width, height):
        gap = 1 if letters > 1 else 0
        tall, verdict = tallest(shown, width, height - len(asked) - gap - len(code))
        if tall * letters > best:
            blank = [""] * (height - len(verdict) - len(asked) - len(code))
            best, found = tall * letters, [*verdict, *code, *blank, *asked]
    return found[:height]


def _asked(question: str, width: int, height: int) -> Iterator[tuple[int, list[str]]]:
    """The question in letters of each height that fits, and in plain ones: height and rows."""
    if question:
        for brush in brushes(height // 2):
            rows = _drawn_rows(question.upper(), brush, width)
            if rows and len(rows) < height - 1:
                yield brush.height, rows
    plain = fitted(question, width, max(height // 3, 1)).split("\n") if question else []
    yield 1, plain


def _drawn_rows(words: str, brush: Brush, width: int) -> list[str]:
    """Words drawn in rows of letters with a blank row between; none where a word is too wide."""
    lines = [""]
    for word in words.split():
        longer = f"{lines[-1]} {word}".strip()
        if width_of(large(longer, brush)) <= width:
            lines[-1] = longer
        elif width_of(large(word, brush)) <= width:
            lines.append(word)
        else:
            return []
    rows: list[str] = []
    for line in lines:
        rows += [""] * (1 if rows else 0) + large(line, brush)
    return rows
