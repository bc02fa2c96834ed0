"""How the rows of the terminal are shared out among the parts of the card, pure."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field

PARTS = (
    "head", "glance", "caption", "fill", "caution", "prompt", "answers", "heard", "said", "tabs",
    "panels", "line", "foot",
)  # fmt: skip
LARGE = 5
"""Rows of the smallest large letters."""
LIST = 3
"""Rows under which a list is not worth its place."""
DRAWN = 18
"""Rows of a drawing of a pull box on the card; on a sheet of its own it has the whole screen."""
LEAST_DRAWN = 7
"""Rows under which no drawing is worth its place."""
SPARE = 2
"""Rows left empty in a list before letters grow on its account."""


@dataclass(frozen=True, slots=True)
class Needs:
    """The rows that each part takes when it is shown whole."""

    caption: int
    caution: int
    prompt: int
    answers: int
    said: int
    legend: int
    list: int
    tabs: int = 1
    drawing: bool = False
    """True for a pull box: its drawing comes before large letters, and takes what it can."""
    list_open: bool = False
    """True while a list has the keys: then it is shown, however little room there is."""


@dataclass(slots=True)
class Sharing:
    """Rows handed out so far."""

    left: int
    rows: dict[str, int] = field(default_factory=lambda: dict.fromkeys(PARTS, 0))

    def give(self, part: str, upto: int, least: int = 1) -> None:
        """Raise a part to `upto` rows, as far as they go; nothing if not to `least`."""
        more = min(upto - self.rows[part], self.left)
        if more > 0 and self.rows[part] + more >= least:
            self.rows[part] += more
            self.left -= more


def shared(height: int, needs: Needs, letters: Callable[[int], int]) -> dict[str, int]:
    """The rows of each part. `letters` tells how many rows the verdict takes of those offered.

    First comes what the card is for, a row each; then the same whole; then large letters; then
    what explains them. Rows that nothing asks for make the letters larger.
    """
    sharing = Sharing(max(height, 0))
    for part, upto, least in _turns(needs):
        sharing.give(part, upto, least)
    if sharing.left >= LIST + needs.tabs:
        sharing.give("tabs", needs.tabs)
    rows = sharing.rows
    spare = rows["panels"] + sharing.left - max(needs.list + SPARE, LIST)
    rows["panels"] = 0
    if rows["glance"] >= LARGE and spare > 0:
        larger = letters(rows["glance"] + spare)
        spare -= larger - rows["glance"]
        rows["glance"] = larger
    if rows["fill"] and spare > 0:
        rows["fill"] += 1
    rows["panels"] = max(height - sum(rows.values()), 0)
    return rows


def _turns(needs: Needs) -> Iterator[tuple[str, int, int]]:
    """Who is served, in turn: the part, up to how many rows, and the least that is of use."""
    for part in ("line", "glance", "prompt", "said"):
        yield part, 1, 1
    yield "answers", min(needs.answers, 1), 1
    yield "caption", 1, 1
    yield "prompt", needs.prompt, 1
    yield "answers", needs.answers, 1
    yield "caution", needs.caution, 1
    yield "caption", needs.caption, 1
    yield "foot", 1, 1
    if needs.list_open:
        yield "tabs", needs.tabs, 1
        yield "panels", LIST, 2
    yield "said", min(needs.said, 2), 1
    if needs.drawing:
        yield "fill", DRAWN, LEAST_DRAWN
    yield "glance", LARGE, LARGE
    yield "said", needs.said, 1
    yield "head", 1, 1
    if not needs.drawing:
        yield "fill", 2 + needs.legend, 1
    yield "heard", 1, 1
