"""What can be in an electrical box, as data.

Nothing here counts anything: these are the described things that `rules.work_out` counts.
Sizes are AWG numbers (18, 16, 14, 12, 10, 8, 6 and, for pull boxes only, 4 and larger),
volumes are `Decimal` cubic inches. Every class is frozen and hashable, so that a described
box can be kept, compared and replayed.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import ROUND_FLOOR, Decimal
from typing import Literal, TypeAlias

Path: TypeAlias = Literal["ends", "through", "loop", "short_loop", "inside"]
"""How a conductor meets the box, 314.16(B)(1).

`ends`: enters and is spliced or terminated; `through`: passes through unbroken;
`loop`: an uncut loop or coil not less than twice the free length of 300.14;
`short_loop`: an uncut loop shorter than that; `inside`: no part leaves the box.
"""

Clamps: TypeAlias = Literal["unknown", "none", "outside", "inside", "moulded"]
"""Cable clamps, 314.16(B)(2). `moulded` are the tabs of a nonmetallic box: disputed."""

DEFAULT_EDITION = "2023"


@dataclass(frozen=True, slots=True)
class Cable:
    """`count` cables of one kind: `conductors` insulated wires of `awg`, and a ground or none."""

    awg: int
    conductors: int
    ground: int | None
    """AWG of the equipment grounding conductor; None for a cable without one."""
    count: int = 1
    path: Path = "ends"


@dataclass(frozen=True, slots=True)
class Conductors:
    """Insulated conductors named one by one (from a raceway, say)."""

    awg: int
    count: int
    path: Path = "ends"


@dataclass(frozen=True, slots=True)
class FixtureWires:
    """The insulated tails of a luminaire. `canopy`: they come from a domed luminaire or
    similar canopy and end in this box, 314.16(B)(1) Exception."""

    awg: int
    count: int
    canopy: bool = True


@dataclass(frozen=True, slots=True)
class Grounds:
    """Equipment grounding conductors named by themselves. `isolated`: the extra set of
    250.146(D). `canopy`: the ground of a domed luminaire, omitted by the Exception."""

    awg: int
    count: int
    isolated: bool = False
    canopy: bool = False


@dataclass(frozen=True, slots=True)
class BondingJumper:
    """An equipment bonding jumper. `enters`: it comes in from outside and counts among the
    grounds, 314.16(B)(5); one from splice to box screw never leaves the box and counts nothing.
    None while nobody said which."""

    awg: int
    count: int = 1
    enters: bool | None = False


@dataclass(frozen=True, slots=True)
class Yoke:
    """`count` yokes or straps, each with one or more devices on it, 314.16(B)(4)."""

    name: str
    awg: int | None
    """Largest conductor landed on it; None while unknown."""
    gangs: int = 1
    """Gangs needed to mount it; 2 for one wider than a single 2 in. device box."""
    count: int = 1
    depth: Decimal | None = None
    """Centimetres behind the strap, None while nobody said; 2.54 to the inch."""


@dataclass(frozen=True, slots=True)
class SupportFitting:
    """A luminaire stud, a hickey or another support fitting, 314.16(B)(3): each type once."""

    kind: str
    count: int = 1


@dataclass(frozen=True, slots=True)
class TerminalBlock:
    """`count` terminal block assemblies, 314.16(B)(6), from 2023. awg None while unknown."""

    awg: int | None
    count: int = 1


@dataclass(frozen=True, slots=True)
class Uncounted:
    """Something mentioned that takes no allowance (splicing connector, locknut, bushing,
    pigtail …). Kept, so that the worksheet can say so.

    `awg` is the largest conductor under a wire connector, which Canada counts in pairs."""

    kind: str
    count: int = 1
    awg: int | None = None


Content: TypeAlias = (
    Cable
    | Conductors
    | FixtureWires
    | Grounds
    | BondingJumper
    | Yoke
    | SupportFitting
    | TerminalBlock
    | Uncounted
)


@dataclass(frozen=True, slots=True)
class Marked:
    """A volume marked by the maker. `label` says what carries it ("box", "plaster ring",
    "domed cover" …)."""

    volume: Decimal
    """Cubic inches."""
    label: str = "box"
    cm3: Decimal | None = None
    """The cubic centimetres, or millilitres, of a mark that is metric; `volume` is then this
    rounded down."""


@dataclass(frozen=True, slots=True)
class Measured:
    """A box known by its inside dimensions in inches. Only a metal one of more than 100 cubic
    inches has its volume by them: 314.16(A)(2) requires all others to be marked."""

    width: Decimal
    height: Decimal
    depth: Decimal
    label: str = "box"

    @property
    def volume(self) -> Decimal:
        """Cubic inches, rounded down to 0.01."""
        exact = self.width * self.height * self.depth
        return exact.quantize(Decimal("0.01"), ROUND_FLOOR)


@dataclass(frozen=True, slots=True)
class TableBox:
    """`gangs` sections of a standard metal box, a row of Table 314.16(A)."""

    row: str
    """The row's identifier in the data, such as `square-4-deep`."""
    gangs: int = 1
    label: str = "box"
    """`box`, or `extension ring` where it stands on another box."""


@dataclass(frozen=True, slots=True)
class Unmarked:
    """A part that adds no volume because nothing is marked on it (a plain ring or cover)."""

    label: str


@dataclass(frozen=True, slots=True)
class Barrier:
    """A barrier dividing the box, 314.16(A): its marked volume, else by material."""

    material: Literal["metal", "nonmetallic"] = "metal"
    volume: Decimal | None = None


@dataclass(frozen=True, slots=True)
class ClampAssembly:
    """A listed clamp assembly with a cable termination, 314.16(B)(2) second paragraph, new in
    2014. `volume` is the part of it inside the box, cubic inches, which the box loses; no clamp
    is counted for it. Conductors that originate in it are described as conductors that enter."""

    volume: Decimal
    count: int = 1


Part: TypeAlias = Marked | TableBox | Measured | Unmarked | Barrier | ClampAssembly


@dataclass(frozen=True, slots=True)
class Box:
    """One described box: what it is made of and what is in it.

    `parts` is empty while the volume is unknown. `grounds_known` is False where individual
    conductors were named and nothing was said of grounds. `nonmetallic` is None while unknown.
    """

    parts: tuple[Part, ...] = ()
    contents: tuple[Content, ...] = ()
    clamps: Clamps = "unknown"
    grounds_known: bool = True
    nonmetallic: bool | None = None
    edition: str = DEFAULT_EDITION
    connectors_known: bool = True
    """False where nobody said how many wire connectors there are, which only Canada counts."""
    hangs: Decimal | None = None
    """Pounds of the fan or luminaire that the box carries, None while nobody said."""
    tags: frozenset[str] = field(default_factory=frozenset)
    """What else was said that only cautions look at: `fan`, `luminaire`, `canopy splice` …"""
