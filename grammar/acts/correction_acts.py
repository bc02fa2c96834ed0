"""Acts that change what was told before: corrections, removals, replacements."""

from __future__ import annotations

from decimal import Decimal

from boxaloud.grammar.acts.act_base import Act, WirePath
from boxaloud.grammar.acts.reference import Reference, ThingKind
from boxaloud.grammar.acts.thing_acts import Thing
from boxaloud.grammar.quick_dataclass import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Restate(Act):
    """ "Actually three 14-2s", "it's a smart dimmer": `thing` in place of what it can mean.

    `instead_of` names what it replaces, where that was said ("14-3s not 14-2s").
    """

    thing: Thing
    instead_of: Reference | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class RestateList(Act):
    """ "It's two 12-2s and a receptacle": all the cables and devices that there are, of those
    kinds that are named, in place of what was said before."""

    things: tuple[Thing, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class RestateNumber(Act):
    """ "Make that three", "no, twenty": a bare number in place of the one it can mean."""

    value: Decimal
    instead_of: Decimal | None = None
    of: Reference | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Recount(Act):
    """ "The 14-2s are three", "only one of the 12-3s": how many of them there are; `stays` is
    what is left of several, where fewer were said than there are; `of` is how many they were,
    where that was said too."""

    target: Reference
    count: int | None = None
    stays: Reference | None = None
    of: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class ShareYoke(Act):
    """ "Both devices are on one yoke": of the devices meant, or of all, what one yoke carries,
    314.16(B)(4). `count` is how many they are, where it is said; `apart`: each has its own."""

    targets: tuple[Reference, ...] = ()
    count: int | None = None
    apart: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Resize(Act):
    """ "Make the twelves fourteens", "they're twelves": the wire size of what is meant."""

    target: Reference
    awg: int
    conductors: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Replace(Act):
    """ "Change one of the 14-2s to a 14-3", "swap the dimmer for a switch"."""

    target: Reference
    thing: Thing


@dataclass(frozen=True, slots=True, kw_only=True)
class Remove(Act):
    """ "Take out one of the 14-2s", "scratch the switch"; no target: the last thing."""

    target: Reference


@dataclass(frozen=True, slots=True, kw_only=True)
class More(Act):
    """ "One more of those", "another": as many more of what is meant. With a target of `all` wires
    ("same out"), as many again of each as came in last."""

    target: Reference
    count: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Land(Act):
    """ "The switch goes on the twelves": the largest conductor landed on a device."""

    target: Reference
    awg: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Widen(Act):
    """ "It takes two gangs": how many gangs a device needs."""

    target: Reference
    gangs: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Deepen(Act):
    """ "The dimmer is four centimetres deep": how far a device reaches behind its strap, cm."""

    target: Reference
    depth: Decimal


@dataclass(frozen=True, slots=True, kw_only=True)
class Unground(Act):
    """ "That 14-2 has no ground": a cable without its ground, or with it."""

    target: Reference
    ground: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Reclassify(Act):
    """ "Two are grounds": some of the conductors said before are something else.

    `kind` is what they are; `awg` is the size of those that are meant, where it is said.
    """

    count: int | None
    kind: ThingKind
    path: WirePath | None = None
    awg: int | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Route(Act):
    """ "Those pass straight through": how the conductors meant meet the box."""

    target: Reference
    path: WirePath


@dataclass(frozen=True, slots=True, kw_only=True)
class SetCanopy(Act):
    """Whether the fixture wires come from a domed canopy, 314.16(B)(1) Exception."""

    canopy: bool = True


@dataclass(frozen=True, slots=True, kw_only=True)
class PutBack(Act):
    """ "Put back the 14-2": what was taken out or replaced comes again."""

    target: Reference


@dataclass(frozen=True, slots=True, kw_only=True)
class Keep(Act):
    """ "Don't remove the receptacle", "leave it": nothing is to change."""


@dataclass(frozen=True, slots=True, kw_only=True)
class UnknownOperator(Act):
    """An operator that is not known, beside a thing that is: asked back with choices."""

    verb: str
    thing: Thing


@dataclass(frozen=True, slots=True, kw_only=True)
class Mistaken(Act):
    """ "That's wrong", "no, scratch": a correction whose value was not said or not understood."""
