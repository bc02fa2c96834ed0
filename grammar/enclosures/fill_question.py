"""How many conductors a raceway holds: "how many 12 THHN in half inch EMT", Chapter 9 Table 1."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from typing import TypeAlias, get_args

from boxaloud.grammar import acts, grammar_data
from boxaloud.grammar.enclosures import lengths
from boxaloud.grammar.enclosures.reading import ways
from boxaloud.grammar.lazy_patterns import lazy_pattern

_NUMBER = (
    r"\d{1,2}|a|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirteen|fourteen"
    r"|fifteen|sixteen|seventeen|eighteen|nineteen|twenty"
)
_LARGE = r"[1-4]/0|250|300|350|400|500|600|700|750|800|900|1000"
_GAUGE = r"\d{1,2}|eighteen|sixteen|fourteen|twelve|ten|eight|six|four|three|two|one"
_WIRE = lazy_pattern(
    rf"(?<![\w/-])(?:(?P<count>{_NUMBER}) )?(?:(?P<large>{_LARGE})"
    rf"|(?:#|number |no\. ?)(?P<numbered>{_GAUGE})s?"
    rf"|(?P<gauge>{_GAUGE})[- ]?(?:awg|gauge)?(?:'?s)?)"
    r"(?: ?(?:awg|gauge|kcmil|mcm))?(?: (?:copper|stranded|solid|cu))?"
    r"(?P<tail>(?: (?:t ?h ?h ?n|t ?h ?w ?n|x ?h ?h ?w|t ?h ?h? ?w|t ?w|wires?|conductors?)\S*)+)?"
    r"(?![\w/-])"
)
_IN = lazy_pattern(r"\b(?:in|into|through|inside|on)(?: (?:an?|the|one|my|this)(?! inch))? ")
_ASKS = lazy_pattern(
    r"(?<!\w)# of (?=#?\d)"
    r"|\b(?:how many|how much wire|what(?:'s| is) the (?:max(?:imum)?|most|fill)|fill of"
    r"|max(?:imum)?(?: number)?|will\b|do\b|does\b"
    r"|(?:can|may|could) (?:i|we|you) (?:put|get|fit|run|pull|have|stuff|still (?:get|fit)))"
)
_RATHER = lazy_pattern(
    r"\b(?:(?<!nothing )(?<!no )(?<!not )(?<!without )splic|tap|what if|suppos|would|still|more"
    r"|marked|listed|rated)"
)
_ASKS_OF_FILL = lazy_pattern(
    r"\b(?:how (?:many|much|full)|what(?:'s| is| are)? (?:the |a )?(?:max(?:imum)?|most|limit|fill"
    r"|count|number|good)|what'?s|max(?:imum)?|the (?:most|limit)|limit|too (?:many|full)"
    r"|(?:are|is|will|would|do|does|can|could|may) .*\b(?:ok|okay|fit|fits|go|allowed|legal|fine"
    r"|hold|take|carry|be))\b|\bok(?:ay)? ?\?*$"
)
#: A box, or what stands in one or is pulled through one: no raceway by itself is asked about.
_OF_A_BOX = lazy_pattern(
    r"\b(?:box(?:es)?|pull|bod(?:y|ies)|l ?[blr]|cubic|cubes?|square|octagon|gang|clamps?|cables?"
    r"|switch(?:es)?|receptacles?|outlets?|dimmers?|devices?|straight|angle|corner|walls?|and"
    r" (?:a |an |one |two |three |four |\d+ )?(?:ground|grounds|green)|long|wide|how deep)\b"
)
#: "Twelves, THHN", "tens in THHN": the insulation stands behind the size.
_BESIDE_INSULATION = lazy_pattern(
    r"(?:, ?| in | of | with | is | are )+"
    r"(?=(?:t ?h ?h ?n|t ?h ?w ?n|x ?h ?h ?w|t ?h ?h? ?w|t ?w)\b)"
)
_ANY = lazy_pattern(r"(?:conduit(?! bod)|raceway|pipe)\b")
_WORD = lazy_pattern(r"(?<![\w./-])[\w½¼¾]")
_RACEWAYS: dict[str, acts.RacewayName] = {name: name for name in get_args(acts.RacewayName)}
_INSULATIONS: dict[str, acts.InsulationName] = {
    name: name for name in get_args(acts.InsulationName)
}
_Wire: TypeAlias = tuple[int | None, int | str, acts.InsulationName | None]
"""How many, of which size, with which insulation."""


def fill_question(heard: str, text: str) -> acts.AskFill | None:
    """The question that a text asks of a raceway; None where it asks none."""
    asks = _ASKS.search(text)
    if asks is None:
        return _in_any_order(heard, text)
    for place in _IN.finditer(text):
        raceway = _raceway(text, place.end())
        if raceway is None:
            continue
        size, kind, _ = raceway
        wire = _wire(text, asks.start(), place.start())
        if wire is None:
            continue
        if _several(text, place.end()):
            return None  # "in half inch EMT or 3/4": of which?
        return replace(_asked(heard, wire), raceway=kind, size=size)
    return _in_any_order(heard, text)


def _in_any_order(heard: str, text: str) -> acts.AskFill | None:
    """ "Half inch EMT: how many 12 THHN", "number eight THHN, one inch EMT, max?": all that is said
    is one raceway by its kind, wires of one size, and the question."""
    supposed = _RATHER.search(text.replace("would", ""))
    if supposed or _ASKS_OF_FILL.search(text) is None or _OF_A_BOX.search(text):
        return None
    found = [place for start in _starts(text) if (place := _placed(text, start)) is not None]
    if not found or _several(text, 0):
        return None
    start, size, kind, end = found[0]
    rest = text[:start] + " " * (end - start) + text[end:]
    plain = _BESIDE_INSULATION.sub(" ", rest)
    wire = _wire(plain, 0, len(plain))
    if wire is None:
        return None
    count, awg, insulation = wire
    named = insulation or _insulation(plain)
    return replace(_asked(heard, (count, awg, named)), raceway=kind, size=size)


def _starts(text: str) -> Iterator[int]:
    """Where words begin that a trade size may be."""
    return (found.start() for found in _WORD.finditer(text))


def _placed(text: str, start: int) -> tuple[int, Decimal, acts.RacewayName | None, int] | None:
    """A raceway that begins here, and where it ends."""
    found = _raceway(text, start)
    return None if found is None else (start, *found)


def _several(text: str, start: int) -> bool:
    """Whether raceways of two sizes or kinds are named from a place on."""
    ends: dict[int, Decimal] = {}
    for at in _starts(text[start:]):
        if (found := _raceway(text, start + at)) is not None:
            ends.setdefault(found[2], found[0])
    return len(ends) > 1


def wire_asked(heard: str, text: str) -> acts.AskFill | None:
    """ "How many 12 THHN may I pull" where a raceway stands already: of which size, of which kind;
    None where it asks nothing of the sort."""
    asks = _ASKS.search(text)
    wire = _wire(text, asks.start(), len(text)) if asks is not None else None
    if wire is None or _RATHER.search(text):
        return None
    return _asked(heard, wire)


def _asked(heard: str, wire: _Wire) -> acts.AskFill:
    count, awg, insulation = wire
    return acts.AskFill(
        count=count,
        awg=awg if isinstance(awg, int) else None,
        large=awg if isinstance(awg, str) else None,
        insulation=insulation,
        words=heard.strip(),
        span=(0, len(heard)),
    )


def _raceway(text: str, at: int) -> tuple[Decimal, acts.RacewayName | None, int] | None:
    """A raceway by its trade size; its kind where one was said; and where it ends."""
    for size, end, _ in lengths.sizes(text, at):
        unit = re.compile(r"[ -]?(?:inch(?:es)?|in\.?|\")?[ -]*").match(text, end)
        place = unit.end() if unit else end
        for kind in grammar_data.table("enclosures")["body"]["raceway"]:
            if (named := ways("body", "raceway", kind).match(text, place)) is not None:
                return size, _RACEWAYS[kind], named.end()
        if (plain := _ANY.match(text, place)) is not None:
            return size, None, plain.end()
    return None


def _wire(text: str, start: int, end: int) -> _Wire | None:
    """The wire that is asked about, before or behind "in": how many, which size, which kind."""
    made: list[_Wire] = []
    for found in _WIRE.finditer(text, start, end):
        if found["large"]:
            made.append((_many(found["count"]), found["large"], _insulation(found[0])))
            continue
        sized = found["numbered"] or found["gauge"]
        if text[found.start() - 1 : found.start()].isalnum() or not sized:
            continue
        worth = lengths.value(sized)
        if worth is None or (found["count"] is None and not _is_size(found, int(worth))):
            continue
        size = str(int(worth)) if worth < 6 else int(worth)
        made.append((_many(found["count"]), size, _insulation(found[0])))
    return made[0] if len(made) == 1 else None  # of several sizes no table tells how many


def _many(said: str | None) -> int | None:
    worth = None if said in (None, "a") else lengths.value(said or "")
    return None if worth is None else int(worth)


def _is_size(found: re.Match[str], worth: int) -> bool:
    return worth in (18, 16, 14, 12, 10, 8, 6, 4, 3, 2, 1) and bool(
        found["numbered"] or found["tail"] or found[0].endswith(("s", "awg", "gauge"))
    )


def _insulation(said: str) -> acts.InsulationName | None:
    for name in grammar_data.table("enclosures")["body"]["insulation"]:
        if ways("body", "insulation", name).search(said):
            return _INSULATIONS[name]
    return None
