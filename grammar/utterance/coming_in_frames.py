"""What is said of what comes into the box at hand: the expressions of `data/coming_in.toml`."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache

from boxaloud.grammar import grammar_data
from boxaloud.grammar.patterns.pattern_requirements import Needs, telling_needs
from boxaloud.grammar.patterns.sifted_forms import SiftedForms
from boxaloud.grammar.phrases import compiled_cache


def frames_in(piece: str) -> Iterator[tuple[str, re.Pattern[str]]]:
    """The frames that a piece may hold, each by its name, as it stands at the head of a piece;
    where it begins as a clause does, within one too, since an ear hears no breaks."""
    names, forms = _frames()
    for place, form in forms.in_line(piece):
        yield names[place], form


def frame_needs() -> list[Needs]:
    """What each frame needs, read off it ahead."""
    return [telling_needs(say) for _, say in frame_expressions()]


def frame_expressions() -> list[tuple[str, str]]:
    """Every frame with its name, in the order in which they are tried."""
    data = grammar_data.table("coming_in")
    head = "(?:^{}|(?<![\\w'-])(?={}))".format(data["begins"], data["begins_within"])
    return [(frame["of"], _written(head + say)) for frame in data["frame"] for say in frame["say"]]


@cache
def not_of_it() -> re.Pattern[str]:
    """What shows that a piece is not of the box at hand."""
    return re.compile("|".join(grammar_data.table("coming_in")["not_of_it"]).replace("’", "'"))


@cache
def _frames() -> tuple[list[str], SiftedForms]:
    ahead = compiled_cache.kept()
    needed = frame_needs() if ahead is None else ahead.data("needs coming in")
    names, said = zip(*frame_expressions(), strict=True)
    return list(names), SiftedForms(said, needed)


def _written(say: str) -> str:
    """An expression with its macros written out, each of which may hold those before it."""
    for name, meant in reversed(grammar_data.table("coming_in")["macros"].items()):
        say = say.replace("{" + name + "}", meant)
    return say.replace("’", "'")
