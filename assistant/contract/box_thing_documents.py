"""What a described box is made of and what is in it, thing by thing, each told by its `is`.

These say which form data must have. Whether such a thing can be (a size that is made, a row that
the Table has) is for `rules` to say.
"""

from __future__ import annotations

from dataclasses import fields
from decimal import Decimal
from typing import Annotated, Any, ClassVar, Literal, TypeAlias

from boxaloud.assistant.contract.document import Awg, Count, Document, Number
from boxaloud.rules import contents as kinds
from boxaloud.rules.contents import Content, Part, Path
from pydantic import Field

_Room: TypeAlias = Annotated[Number, Field(description="Cubic inches, a decimal in text.")]
_Way: TypeAlias = Annotated[Path, Field(description="How a conductor meets the box, 314.16(B)(1).")]


_Inches: TypeAlias = Annotated[Number, Field(description="Inches inside, a decimal in text.")]
_DECIMALS = frozenset({"volume", "cm3", "width", "height", "depth"})
"""Fields that are decimals in text."""


class Thing(Document):
    """One thing. `made` is the class of the rules that it stands for, field by field."""

    made: ClassVar[type[Any]]

    @property
    def value(self) -> Any:
        """The thing as `rules` counts it."""
        given = {field.name: getattr(self, field.name) for field in fields(self.made)}
        for name in _DECIMALS & given.keys():
            if given[name] is not None:
                given[name] = Decimal(given[name])
        return self.made(**given)


class MarkedPart(Thing):
    """A volume marked by the maker on the box, a ring or a cover."""

    made = kinds.Marked
    is_: Literal["marked"] = Field(alias="is")
    volume: _Room
    label: str = "box"
    cm3: Annotated[
        Number | None,
        Field(
            description="Cubic centimetres or millilitres of a metric mark; volume is then this "
            "rounded down."
        ),
    ] = None


class TableBoxPart(Thing):
    """Sections of a standard metal box, a row of Table 314.16(A) such as square-4-1.5."""

    made = kinds.TableBox
    is_: Literal["table_box"] = Field(alias="is")
    row: str
    gangs: Count = 1
    label: Literal["box", "extension ring"] = "box"


class UnmarkedPart(Thing):
    """A part that adds no volume because nothing is marked on it."""

    made = kinds.Unmarked
    is_: Literal["unmarked"] = Field(alias="is")
    label: str


class BarrierPart(Thing):
    """A barrier dividing the box: its marked volume, else by material."""

    made = kinds.Barrier
    is_: Literal["barrier"] = Field(alias="is")
    material: Literal["metal", "nonmetallic"] = "metal"
    volume: _Room | None = None


class MeasuredPart(Thing):
    """A metal box of more than 100 cubic inches by its inside dimensions, 314.16(A)(2)."""

    made = kinds.Measured
    is_: Literal["measured"] = Field(alias="is")
    width: _Inches
    height: _Inches
    depth: _Inches
    label: str = "box"


class ClampAssemblyPart(Thing):
    """A listed clamp assembly with a cable termination: the volume of it inside the box."""

    made = kinds.ClampAssembly
    is_: Literal["clamp_assembly"] = Field(alias="is")
    volume: _Room
    count: Count = 1


class CableContent(Thing):
    """Cables of one kind, each with so many insulated conductors, and a ground of that AWG or
    none."""

    made = kinds.Cable
    is_: Literal["cable"] = Field(alias="is")
    awg: Awg
    conductors: Count
    ground: Awg | None
    count: Count = 1
    path: _Way = "ends"


class ConductorsContent(Thing):
    """Insulated conductors named one by one."""

    made = kinds.Conductors
    is_: Literal["conductors"] = Field(alias="is")
    awg: Awg
    count: Count
    path: _Way = "ends"


class FixtureWiresContent(Thing):
    """The tails of a luminaire; canopy: they come from a domed luminaire or similar canopy."""

    made = kinds.FixtureWires
    is_: Literal["fixture_wires"] = Field(alias="is")
    awg: Awg
    count: Count
    canopy: bool = True


class GroundsContent(Thing):
    """Equipment grounding conductors named by themselves."""

    made = kinds.Grounds
    is_: Literal["grounds"] = Field(alias="is")
    awg: Awg
    count: Count
    isolated: bool = False
    canopy: bool = False


class BondingJumperContent(Thing):
    """An equipment bonding jumper; enters: it comes in from outside, null while unknown."""

    made = kinds.BondingJumper
    is_: Literal["bonding_jumper"] = Field(alias="is")
    awg: Awg
    count: Count = 1
    enters: bool | None = None


class YokeContent(Thing):
    """Yokes or straps, each with one or more devices on it; awg null while unknown."""

    made = kinds.Yoke
    is_: Literal["yoke"] = Field(alias="is")
    name: str
    awg: Awg | None
    gangs: Count = 1
    count: Count = 1
    depth: Annotated[Number | None, Field(description="Centimetres behind the strap.")] = None


class SupportFittingContent(Thing):
    """A luminaire stud, a hickey or another support fitting."""

    made = kinds.SupportFitting
    is_: Literal["support_fitting"] = Field(alias="is")
    kind: str
    count: Count = 1


class TerminalBlockContent(Thing):
    """Terminal block assemblies; awg null while unknown."""

    made = kinds.TerminalBlock
    is_: Literal["terminal_block"] = Field(alias="is")
    awg: Awg | None
    count: Count = 1


class UncountedContent(Thing):
    """Something mentioned that takes no allowance."""

    made = kinds.Uncounted
    is_: Literal["uncounted"] = Field(alias="is")
    kind: str
    count: Count = 1
    awg: Annotated[
        Awg | None, Field(description="The largest conductor under a wire connector.")
    ] = None


PartDocument: TypeAlias = Annotated[
    MarkedPart | TableBoxPart | UnmarkedPart | MeasuredPart | ClampAssemblyPart | BarrierPart,
    Field(discriminator="is_"),
]
ContentDocument: TypeAlias = Annotated[
    CableContent
    | ConductorsContent
    | FixtureWiresContent
    | GroundsContent
    | BondingJumperContent
    | YokeContent
    | SupportFittingContent
    | TerminalBlockContent
    | UncountedContent,
    Field(discriminator="is_"),
]


THINGS: dict[str, type[Thing]] = {
    "marked": MarkedPart,
    "table_box": TableBoxPart,
    "unmarked": UnmarkedPart,
    "measured": MeasuredPart,
    "clamp_assembly": ClampAssemblyPart,
    "barrier": BarrierPart,
    "cable": CableContent,
    "conductors": ConductorsContent,
    "fixture_wires": FixtureWiresContent,
    "grounds": GroundsContent,
    "bonding_jumper": BondingJumperContent,
    "yoke": YokeContent,
    "support_fitting": SupportFittingContent,
    "terminal_block": TerminalBlockContent,
    "uncounted": UncountedContent,
}
"""Every thing by its `is`."""

_KIND_OF = {model.made: kind for kind, model in THINGS.items()}


def plain_thing(thing: Part | Content) -> dict[str, Any]:
    """A part or content of the rules as plain data; a volume is a decimal string."""
    data: dict[str, Any] = {"is": _KIND_OF[type(thing)]}
    for field in fields(thing):
        value = getattr(thing, field.name)
        data[field.name] = format(value, "f") if isinstance(value, Decimal) else value
    return data
