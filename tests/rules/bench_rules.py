"""How many boxes are worked out in a second, single-threaded, and how the time grows.

Run by hand: python tests/rules/bench_rules.py
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from decimal import Decimal
from functools import partial
from pathlib import Path
from time import perf_counter

sys.path.insert(0, str(Path(__file__).parents[2]))

from boxaloud.rules import work_out
from boxaloud.rules.contents import Box, Cable, Conductors, Marked, Yoke

MARK = (Marked(Decimal("18.0")),)
SWITCH_BOX = Box(MARK, (Cable(14, 2, 14, 2), Yoke("switch", None)), "none")
OPEN_BOX = Box(MARK, (Cable(14, 2, 14), Cable(12, 2, 12), Yoke("switch", None)), "unknown")


def rate(act: Callable[[], object], seconds: float = 1.0) -> float:
    """Best of five: calls a second."""
    best = 0.0
    for _ in range(5):
        count, start = 0, perf_counter()
        while (spent := perf_counter() - start) < seconds / 5:
            for _ in range(200):
                act()
            count += 200
        best = max(best, count / spent)
    return best


def long_box(items: int) -> Box:
    """A box of `items` things, of a few sizes and paths in turn."""
    things = tuple(
        Conductors((14, 12, 10)[place % 3], 1, ("ends", "through", "loop")[place % 3])
        for place in range(items)
    )
    return Box(MARK, things, "none")


def main() -> None:
    """Print the rates, and microseconds an item for boxes that grow."""
    out = sys.stdout.write
    out(f"two-cable switch box: {rate(lambda: work_out(SWITCH_BOX)):,.0f} boxes a second\n")
    out(f"the same mixed and with two answers open: {rate(lambda: work_out(OPEN_BOX)):,.0f}\n")
    for items in (10, 100, 1000, 10_000):
        box = long_box(items)
        micros = 1e6 / rate(partial(work_out, box)) / items
        out(f"{items:>6} items: {micros:.3f} microseconds an item\n")


if __name__ == "__main__":
    main()
