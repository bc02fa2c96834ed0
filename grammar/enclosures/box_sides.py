"""What is said of the box itself: "2 feet by 18 inches", "two feet wide", "12 inches apart"."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_FLOOR, Decimal

from boxaloud.grammar.enclosures import lengths
from boxaloud.grammar.enclosures.pull_piece import Piece
from boxaloud.grammar.lazy_patterns import lazy_pattern

_FEET = lazy_pattern(r"[ -]?(?:feet|foot|ft\.?)(?!\w)|'(?!')")
_INCHES = lazy_pattern(
    r"[ -]?inch(?:es)?(?!\w)|\"|''| ?in\.?(?= ?(?:[x×,]|by\b|$|long|wide|high|tall|deep|apart))"
)
_METRIC = lazy_pattern(
    r"(?P<n>\d+(?:\.\d+)?) ?(?P<unit>mm|millimet(?:er|re)s?|cm|centimet(?:er|re)s?)\b"
)
_A_FOOT = lazy_pattern(r"(?:a|one) foot(?P<half> and a half)?(?!\w)")
_AND = lazy_pattern(r"(?: and|,)? ?")
_BY = lazy_pattern(r" ?(?:by|x|×) ?")
_LEAD = lazy_pattern(
    r"(?:(?:the |this |my )?(?:pull |junction )?(?:box|enclosure) (?:is |measures |will be )?"
    r"|it(?:'s| is| measures)? )?(?:(?:only|just) )?"
)
_TAIL = lazy_pattern(r"(?: (?:inch(?:es)?|deep|box|enclosure|pull box|inside))*")
#: "3x2\" in left": three raceways.
_TIMES = lazy_pattern(
    r"\d{1,2} ?[x×] ?(?:\d[- ]?1/[24]|\d|1/2|3/4) ?(?:\"|inch|in\.)(?:es)?"
    r",? (?:in|out|on|at|from|into|to|conduits?|pipes?|raceways?|emts?|rigid|pvc|each)\b"
)
_SIDE = lazy_pattern(r" ?(?P<side>long|wide|high|tall|deep)(?!\w)")
_LEAD_APART = lazy_pattern(
    r"(?:(?:they|those|these|which|(?:the )?(?:raceways|conduits|pipes|entries|holes))"
    r"(?:'re| are| will be)? )?(?:(?:spaced|set|placed|only|just) )*"
)
_APART = lazy_pattern(
    r" (?:apart|between (?:them|each other|(?:the )?(?:raceways|conduits|pipes|entries))"
    r"|from each other)(?!\w)"
)
_CENTRES = lazy_pattern(r" (?:on centers?|on centres?|cent(?:er|re) to cent(?:er|re)|o\.? ?c\b)")
_VOLUME = lazy_pattern(
    r"(?:(?:is |it's |it is |the box is )?(?:marked|stamped)(?: at| with)? )?"
    r"(?P<n>\d{2,5}(?:\.\d+)?) ?(?:cubic inch(?:es)?|cu\.? ?in\.?|in3)(?!\w)"
)
_CLOSED = lazy_pattern(r"\d+(?:\.\d+)?(?=x\d|')")
_LARGEST_RACEWAY = 6  # trade size, inches
_MM = Decimal("25.4")
_AXES = {"wide": "width", "high": "height", "tall": "height", "deep": "depth", "long": "length"}


@dataclass(frozen=True, slots=True)
class _Length:
    """A length as it was said; `unit` empty where none was."""

    value: Decimal
    end: int
    unit: str

    def inches(self, unit: str) -> Decimal:
        """Inches, where a bare number is of `unit`."""
        return self.value * 12 if (self.unit or unit) == "feet" else self.value


def dimensions(text: str, at: int, lone: bool) -> Piece | None:
    """ "24 by 24 by 8", "2 feet by 2 feet by 8 inches", "600 mm by 600 mm"."""
    if _TIMES.match(text, at) is not None:
        return None
    lead = _LEAD.match(text, at)
    place = end = lead.end() if lead else at
    made: list[_Length] = []
    while len(made) < 3 and (found := _length(text, place)) is not None:
        made.append(found)
        end = found.end
        by = _BY.match(text, end)
        if by is None:
            break
        place = by.end()
    if len(made) < 2:
        return None
    inches = _in_inches(made)
    if inches is None:
        return None
    tail = _TAIL.match(text, end)
    three = (*inches, *[None] * (3 - len(inches)))
    return Piece("detail", at, tail.end() if tail else end, "dimensions", dimensions=three)


def _in_inches(made: list[_Length]) -> list[Decimal] | None:
    """All in inches; None where a bare number beside feet could be of either."""
    units = {one.unit for one in made if one.unit}
    bare = [place for place, one in enumerate(made) if not one.unit]
    if "feet" not in units:
        return [one.inches("inches") for one in made]
    last = made[-1].unit == "feet" and units == {"feet"}
    if bare and not last and any(made[place].value < 12 for place in bare):
        return None
    return [one.inches("feet" if last else "inches") for one in made]


def side(text: str, at: int, lone: bool) -> Piece | None:
    """ "Two feet wide", "24 inches long"."""
    lead = _LEAD.match(text, at)
    found = _length(text, lead.end() if lead else at)
    if found is None:
        return None
    if (named := _SIDE.match(text, found.end)) is None:
        return _of_the_box(text, at, lead.end() if lead else at, found)
    inches = found.inches("inches")
    return Piece("detail", at, named.end(), f"side {_AXES[named['side']]}", dimensions=(inches,))


def _of_the_box(text: str, at: int, place: int, found: _Length) -> Piece | None:
    """ "The box is only 18 inches": its length, where no raceway is so large."""
    inches = found.inches("inches")
    named = text[at:place].rstrip().endswith((" is", "'s", "measures", " be", " only", " just"))
    if not named or not found.unit or inches <= _LARGEST_RACEWAY:
        return None
    return Piece("detail", at, found.end, "side length", dimensions=(inches,))


def apart(text: str, at: int, lone: bool) -> Piece | None:
    """ "They are 12 inches apart"; from centre to centre is another distance."""
    lead = _LEAD_APART.match(text, at)
    found = _length(text, lead.end() if lead else at)
    if found is None or not found.unit or (behind := _APART.match(text, found.end)) is None:
        return None
    if (centres := _CENTRES.match(text, behind.end())) is not None:
        return Piece("detail", at, centres.end(), "centres")
    return Piece("detail", at, behind.end(), "apart", dimensions=(found.inches("inches"),))


def volume(text: str, at: int, lone: bool) -> Piece | None:
    """ "Marked 1000 cubic inches": of the box itself."""
    found = _VOLUME.match(text, at)
    if found is None or text[at - 1 : at].isalnum():
        return None
    return Piece("detail", at, found.end(), "volume", dimensions=(Decimal(found["n"]),))


def _length(text: str, at: int) -> _Length | None:
    """A length that begins at a place, with its unit where it has one."""
    if (foot := _A_FOOT.match(text, at)) is not None:
        return _Length(Decimal("1.5" if foot["half"] else 1), foot.end(), "feet")
    if (metric := _METRIC.match(text, at)) is not None:
        each = 1 if metric["unit"].startswith("m") else 10
        sixteenths = Decimal(metric["n"]) * each * 16 / _MM
        inches = sixteenths.to_integral_value(ROUND_FLOOR) / 16  # never larger than it is
        return _Length(inches, metric.end(), "metric")
    options = [(size, end) for size, end, _ in lengths.sizes(text, at)]
    if (closed := _CLOSED.match(text, at)) is not None:
        options.append((Decimal(closed[0]), closed.end()))
    for size, end in options:
        if (feet := _FEET.match(text, end)) is not None:
            return _with_inches(text, size, feet.end())
        if (inch := _INCHES.match(text, end)) is not None:
            return _Length(size, inch.end(), "inches")
    return _Length(*options[0], "") if options else None


def _with_inches(text: str, feet: Decimal, end: int) -> _Length:
    """ "2 feet 6 inches", "2' 6\\""."""
    gap = _AND.match(text, end)
    place = gap.end() if gap else end
    for size, stop, _ in lengths.sizes(text, place):
        if size < 12 and (inch := _INCHES.match(text, stop)) is not None:
            return _Length(feet + size / 12, inch.end(), "feet")
    return _Length(feet, end, "feet")
