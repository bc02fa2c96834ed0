"""One list of conductors that are named one by one, as it was read."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass
class NamedWires:
    """One list: how many insulated conductors and green ones it names, and their sizes."""

    start: int
    end: int
    wires: int = 0
    grounds: int = 0
    items: int = 0
    names: int = 0
    """Colours and phases among its names, which are of nothing but single conductors."""
    awg: int | None = None
    ground_awg: int | None = None
    agrees: bool = True
    """False where a total that was said with it is another."""
    times: int = 1
    each: bool = False
    checked: bool = False
    """True where a total was said with it."""
    more: bool = False
    """True where they are said to come on top of others."""
    bare: bool = True
    """True where no name in it is counted."""
    marked: bool = False
    """True where a size, a total, a way in or out shows that it is a list of conductors."""
    groups: list[list[int]] = field(default_factory=lambda: [[0, 0]])

    @property
    def span(self) -> tuple[int, int]:
        """Where it stands in the text."""
        return self.start, self.end
