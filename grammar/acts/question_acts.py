"""Questions and suppositions: they change nothing."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal, TypeAlias

from boxaloud.grammar.acts.act_base import Act
from boxaloud.grammar.acts.enclosure_acts import InsulationName, RacewayName
from boxaloud.grammar.acts.thing_acts import Thing
from boxaloud.grammar.quick_dataclass import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Suppose(Act):
    """ "What if …", "would it fit with …", "should I take out …": tried on a copy."""

    acts: tuple[Act, ...] = ()
    asks_fit: bool = False
    """True for "is an 18 enough for …": of an empty box it describes the box."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomFor(Act):
    """ "How many more 14-2s", "will a dimmer still fit", "the most 12s in a 4 by 1-1/2 octagon"."""

    thing: Thing | None = None
    count: int | None = None
    given: tuple[Act, ...] = ()
    """What the question names of the box, tried on a copy: its size, its clamps, nothing else."""


QuestionKind: TypeAlias = Literal[
    "read_back", "total", "margin", "capacity", "why_ask", "smallest_box", "advice",
    "which_edition", "help", "repeat", "slower", "identity", "largest", "metric", "certainty",
    "missing", "live_work", "box_name", "stricter", "fan_rated", "understood", "need_asked",
    "how_report", "volume", "conductors", "allowances", "largest_wire",
]  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class AskFill(Act):
    """ "How many 12 THHN in half inch EMT": Chapter 9 Table 1. `count`: "will ten fit"."""

    count: int | None = None
    awg: int | None = None
    large: str | None = None
    """A size of 4 AWG and larger as the tables write it: `4`, `2/0`, `500`."""
    insulation: InsulationName | None = None
    raceway: RacewayName | None = None
    size: Decimal | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Ask(Act):
    """A question of a fixed kind about the box, the count or the talk."""

    about: QuestionKind
    family: str | None = None
    """The kind of box that is asked for: "what size device box do I need"."""
    given: tuple[Act, ...] = ()
    """The box whose volume is asked for: "what's the volume of a 4 by 2-1/8 square"."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AskWhy(Act):
    """ "Why do the clamps count": a line's section and reasoning; `of` a topic or `verdict`."""

    of: str | None = None
    figure: Decimal | None = None
    """ "Where's the 4.5 come from": what is asked is which line has that volume."""


@dataclass(frozen=True, slots=True, kw_only=True)
class AskEdition(Act):
    """ "What changes under 2017"."""

    year: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class AskMeaning(Act):
    """ "What is a yoke", "does a wire nut count", "how much is a twelve worth"; with `there`, what
    is asked is how much those take that are in the box: "how much is the dimmer taking up"."""

    term: str = ""
    thing: Thing | None = None
    awg: int | None = None
    there: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class AskUnknown(Act):
    """A question that there is no answer to here. It changes nothing."""
