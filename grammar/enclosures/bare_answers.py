"""Answers about a pull box that say no more than what was asked for, and bare questions of it."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.enclosures import cable_wires
from boxaloud.grammar.enclosures.conductor_sizes import lone_conductor
from boxaloud.grammar.enclosures.pull_piece import Piece
from boxaloud.grammar.lazy_patterns import lazy_pattern

SILENT_DETAILS = frozenset({"name", "asking", "governed"})
"""What tells nothing of a pull box by itself."""
#: "Is that eight times or six times?"
_TIMES = lazy_pattern(
    r"^(?:(?:so|and|ok|okay|wait)[, ]+)*(?:is|are|was|do|does|would|which|what)\b[^.]*"
    r"\b(?:8|eight|6|six)(?: times| ?x)? or (?:is it )?(?:8|eight|6|six)(?: times| ?x)?\W*$"
)
_SILENT = frozenset({"silent", "break", "join"})


def bare_answer(heard: str, text: str, expect: str | None) -> acts.Act | None:
    """The act that a bare answer stands for under the open question; None where it is none."""
    whole = (0, len(heard))
    if expect == "pull_conductor" and (size := lone_conductor(text)) is not None:
        return acts.SetPull(conductor=size, words=heard.strip(), span=whole)
    if expect == "pull_insulation" and (named := cable_wires.insulation(text)) is not None:
        return acts.SetPull(insulation=named, words=heard.strip(), span=whole)
    if expect != "pull_size" or (found := cable_wires.wires(text, 0)) is None:
        return None
    ground, end = cable_wires.ground(text, found.end) or (found.ground, found.end)
    if text[end:].strip(" .!"):
        return None
    return acts.AddRaceways(
        wires=found.sizes,
        ground=ground,
        insulation=cable_wires.insulation(text),
        cable=True,
        words=heard.strip(),
        span=whole,
    )


def size_asked(heard: str, pieces: list[Piece]) -> acts.Act | None:
    """ "How long does the box have to be", or "number four or larger, no splices", which 314.28(A)
    takes for granted, and nothing besides: where it stands is asked, or told once more."""
    if _TIMES.search(heard.lower()) is not None:
        return acts.AskMeaning(term="pull_box", words=heard.strip(), span=(0, len(heard)))
    if not any(piece.value in ("asking", "governed") for piece in pieces):
        return None
    if any(piece.value not in SILENT_DETAILS and piece.sort not in _SILENT for piece in pieces):
        return None
    return acts.Ask(about="total", words=heard.strip(), span=(0, len(heard)))
