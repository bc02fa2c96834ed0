"""The conductors in a cable: "3 conductor 4/0", "of four 500 kcmil", "4/0-4/0-4/0-2/0", "2-3"."""

from __future__ import annotations

import re

from boxaloud.grammar import grammar_data
from boxaloud.grammar.acts.enclosure_acts import InsulationName
from boxaloud.grammar.enclosures import lengths
from boxaloud.grammar.enclosures.conductor_sizes import conductor
from boxaloud.grammar.enclosures.reading import ways
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.quick_dataclass import dataclass

UNSIZED = "?"
"""The size of a ground of which none was said."""

_SIZE = r"(?:[1-4]/0|250|300|350|400|500|600|700|750|800|900|1000|[1234])"
_SMALL = rf"(?:{_SIZE}|6|8|10)"
_SET = lazy_pattern(rf"(?P<first>{_SIZE})(?P<rest>(?:[-–/ ]?[-–] ?{_SMALL}){{2,4}})(?![\w/.-])")
_PAIR = lazy_pattern(rf"(?P<size>{_SIZE})[-–](?P<n>[2-5])(?![\w/.-]|[ -]?(?:inch|\"))")
_COUNTED = lazy_pattern(
    r"(?P<n>one|two|three|four|five|six|[1-6])(?:[ -](?:conductors?|wires?)|[ -/]?c)(?: of)?(?!\w)"
)
_NUMBER = lazy_pattern(r"(?P<n>two|three|four|five|six|[2-6]) ")
_COMMA = lazy_pattern(r" ?[,:] ?")
_IN_EACH = lazy_pattern(
    r"(?: (?:thhn|thwn|xhhw|thhw|thw|tw)(?:-2)?)? (?:in each|each|apiece|inside)\b"
)
_GROUND = lazy_pattern(
    r",? ?(?:with|w/|and|plus|&) ?(?:an? |one |the |its )?(?:bare |copper |insulated |equipment )*"
    r"(?:ground(?:s|ing(?: conductor| wire)?| wires?)?|egc|g)(?!\w)"
)
_SIZED_GROUND = lazy_pattern(
    rf",? ?(?:with|w/|and|plus|&) ?(?:an? |one |the )?(?:#|number |no\. ?)?(?P<size>{_SMALL})"
    r"(?: awg| gauge)? (?:bare |copper |insulated |equipment )*(?:ground\w*|egc)(?: wires?)?(?!\w)"
)


@dataclass(frozen=True, slots=True)
class Wires:
    """Conductors of a cable by their sizes, and where the words of them end."""

    sizes: tuple[str, ...]
    end: int
    ground: str = ""


def wires(text: str, at: int) -> Wires | None:
    """The conductors that are said at a place; None where none are, or their number is not."""
    if (found := _SET.match(text, at)) is not None:
        every = [found["first"], *re.findall(_SMALL, found["rest"])]
        # the last of a set may be a bare neutral or ground
        return Wires(tuple(every[:-1]), found.end(), every[-1])
    if (found := _PAIR.match(text, at)) is not None:
        return Wires((found["size"],) * int(found["n"]), found.end())
    counted = _COUNTED.match(text, at) or _NUMBER.match(text, at)
    if counted is None:
        return None
    many = lengths.value(counted["n"])
    place = counted.end() + (text[counted.end() : counted.end() + 1] == " ")
    stop = re.compile(r" cables?\b").search(text, place)
    said = conductor(text[: stop.start() if stop else len(text)], place, False)
    bare = re.compile(rf"{_SIZE}(?![\w/.-])").match(text, place)
    if said is None and bare is not None and counts_wires(text, at):
        # "3 conductor 2/0", "3 conductor 500": a number by itself behind its count
        return Wires((bare[0],) * int(many or 0), bare.end())
    if said is None or many is None:
        return None
    end = said.end + (text[said.end : said.end + 2].rstrip() == "s")  # "three number 2s"
    return Wires((said.value.removeprefix("conductor "),) * int(many), end)


def apart(text: str, at: int) -> Wires | None:
    """Conductors behind a comma that can only be those of the cable before it."""
    comma = _COMMA.match(text, at)
    found = wires(text, comma.end()) if comma else None
    if comma is None or found is None:
        return None
    own = counts_wires(text, comma.end()) or _IN_EACH.match(text, found.end) is not None
    return found if own else None


def with_sets(heard: str, text: str) -> str:
    """A plain text in which every set of sizes stands as it was said: "2-2-2-4" is no figure, and
    yet no odd one here."""
    for found in _SET.finditer(heard.lower()):
        text = text[: found.start()] + found[0] + text[found.end() :]
    return text


def counts_wires(text: str, at: int) -> bool:
    """Whether a number is of the conductors in a cable: "3 conductor 500 kcmil cable"."""
    return _COUNTED.match(text, at) is not None


def ground(text: str, at: int) -> tuple[str, int] | None:
    """The ground in a cable, `?` where its size was not said, and where its words end."""
    if (found := _SIZED_GROUND.match(text, at)) is not None:
        return found["size"], found.end()
    found = _GROUND.match(text, at)
    return None if found is None else (UNSIZED, found.end())


def insulation(text: str) -> InsulationName | None:
    """The insulation that a text names."""
    for name in grammar_data.table("enclosures")["body"]["insulation"]:
        if ways("body", "insulation", name).search(text):
            return name  # type: ignore[no-any-return]
    return None
