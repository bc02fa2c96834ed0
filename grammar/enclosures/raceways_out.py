"""Raceways of a pull box that are taken out: "take out the 2 inch", "scratch the threes"."""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.grammar import acts
from boxaloud.grammar.enclosures.enclosure_words import words
from boxaloud.grammar.enclosures.pull_piece import Piece
from boxaloud.grammar.enclosures.raceways_named import named


def taken_out(heard: str, text: str, pieces: Sequence[Piece]) -> acts.TakeOutRaceways | None:
    """ "Take out the 2 inch on the left", and nothing besides."""
    found = words("taking_out").match(text)
    if found is None or words("supposing").search(text):
        return None
    if (out := _pointed_out(heard, text, found.end())) is not None:
        return out
    rest = [p for p in pieces if p.start >= found.end() and p.sort not in ("silent", "break")]
    items = [p for p in rest if p.sort == "items"]
    walls = [p for p in rest if p.sort == "wall"]
    if len(items) != 1 or len(items[0].items) != 1 or len(walls) > 1:
        return None
    if len(rest) != len(items) + len(walls):
        return None
    (one,) = items[0].items
    return acts.TakeOutRaceways(
        count=one.count,
        size=one.size,
        wall=walls[0].wall if walls else None,
        words=heard.strip(),
        span=(0, len(heard)),
        function="request",
    )


def _pointed_out(heard: str, text: str, at: int) -> acts.TakeOutRaceways | None:
    """ "Scratch the threes": raceways that stand already, by their size."""
    found = named(text, at + text[at:].startswith(" "))
    if found is None or text[found[1] :].strip(" .!"):
        return None
    act = found[0]
    if act.of_size is None:
        return None
    return acts.TakeOutRaceways(
        size=act.of_size,
        wall=act.at,
        words=heard.strip(),
        span=(0, len(heard)),
        function="request",
    )
