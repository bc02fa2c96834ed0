"""Answers to a question about a pull box that say no more than what was asked for."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.enclosures import cable_wires
from boxaloud.grammar.enclosures.conductor_sizes import lone_conductor


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
