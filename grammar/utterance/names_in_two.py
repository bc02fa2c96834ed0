"""The name of a box in two parts, with a comma between them: "stairway, bottom: two 14-2s"."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.headings import ROOMS

_ROOM = "(?:{})s?".format("|".join(sorted(ROOMS - {"box"}, key=len, reverse=True)))
_SIDE = (
    r"(?:top|bottom|upstairs|downstairs|upper|lower|left|right|north|south|east|west|front|back"
    r"|middle|center|inside|outside|first|second|third|far|near)"
)
_WHERE = (
    rf"(?:the )?(?:{_SIDE}(?: (?:hand ?)?(?:side|wall|end|corner|floor|one|landing))?"
    r"(?: of (?:the |my )?[a-z]+)?"
    r"|(?:by|near|behind|under|over|above|beside|next to|across from|at|left of|right of)"
    r" (?:the |my |her |his )?[a-z]+(?: [a-z]+)?)"
)
_BEHIND = lazy_pattern(
    rf"(?i)(?P<where> {_WHERE})\s*"
    r"(?::|[-–—] |(?:,? please)?\.?\s*$|(?<=\s)(?=(?:one|two|three|four|five|six|an?|the) ))"
)


def place_behind(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Next box, bedroom one by the closet: …": the place is of the name, since another box may
    be in that room."""
    return [_with_place(act, heard, left) if isinstance(act, acts.NextBox) else act for act in made]


def _with_place(act: acts.NextBox, heard: str, left: list[Unread]) -> acts.NextBox:
    behind = _BEHIND.match(heard, act.span[1]) if act.name else None
    if behind is None:
        return act
    span = (act.span[0], behind.end("where"))
    left[:] = [run for run in left if not span[0] <= run.span[0] < span[1]]
    return replace(
        act, name=act.name + behind["where"].lower(), words=heard[slice(*span)], span=span
    )
