"""A trial of the program: one talk, how it is named, and what was wrong with its outcome."""

from __future__ import annotations

from dataclasses import dataclass

DEFINITE = ("fits", "over")


@dataclass(frozen=True)
class Trial:
    """One talk tried: how it is named, what was wrong (empty: nothing), and whether an over or
    open box was said to fit."""

    name: str
    fault: str
    unsafe: bool = False
