"""A row of a batch as it enters, and its result as it leaves. `boxaloud schema row`, `… result`.

The cells of a row are read by a grammar of their own, in `assistant/reports/batch`. Here is said
which columns there are, what kind of value each takes, and which of them can stand together.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, Any, Literal, TypeAlias

from boxaloud.assistant.contract.box_document import BoxDocument
from boxaloud.assistant.contract.cell_types import BLANK, Items, Text, in_any_case
from boxaloud.assistant.contract.document import (
    AtLeast1,
    Document,
    Millilitres,
    Number,
    SignedVolume,
    Texts,
    Volume,
)
from boxaloud.assistant.dialogue.question_slots import QuestionSlot
from boxaloud.rules.contents import Clamps
from boxaloud.rules.worksheet import Verdict
from pydantic import ConfigDict, Field, Strict, model_validator
from pydantic_core import PydanticCustomError

Material: TypeAlias = Literal["metal", "nonmetallic", "plastic"]


def _listing(about: str, example: str) -> Any:
    return Field(default=(), description=about, examples=[example])


def _row_schema(schema: dict[str, Any]) -> None:
    """What no model can say of itself: blanks are no values, and the box is described once."""
    for name, column in schema["properties"].items():
        about = {key: column.pop(key) for key in ("description", "examples") if key in column}
        column.pop("default", None)
        choices = column.get("anyOf", [column])
        schema["properties"][name] = {"anyOf": [*choices, BLANK], **about}
    by_columns = [_present(name) for name in schema["properties"] if name in BY_COLUMNS]
    schema["oneOf"] = [_present("says"), _present("described"), {"anyOf": by_columns}]
    schema["not"] = {"allOf": [_present("volume"), _present("box")]}
    schema["additionalProperties"] = BLANK


def _present(name: str) -> dict[str, Any]:
    return {"required": [name], "properties": {name: {"not": BLANK}}}


class BatchRow(Document):
    """A box, described in one way: by `says`, by `described`, or by the other columns. A column
    that holds null, "" or [] is left blank."""

    model_config = ConfigDict(title="A row of a batch", json_schema_extra=_row_schema)

    name: Text = ""
    edition: Text = Field(default="", description="The default edition where there is none.")
    says: Items = _listing(
        "Plain statements, as if talked through.",
        "two 14-2 cables; one switch; 18 cubic inches; no clamps",
    )
    volume: Text = Field(
        default="",
        description="Marked volume in cubic inches, or like 295 cm3 or 295 mL.",
        examples=["18"],
    )
    box: Text = Field(
        default="",
        description="A standard box of Table 314.16(A), or a large one by its inside.",
        examples=["square 4 x 1-1/2", "12 x 12 x 6 inside"],
    )
    gangs: Text = Field(default="1", description="How many sections of the standard box.")
    parts: Items = _listing(
        "Rings, covers, barriers and clamp assemblies.",
        "plaster ring 3.5; unmarked cover; barrier metal; clamp assembly 0.75",
    )
    cables: Items = _listing("Cables.", "2 x 14-2; 12-3 no ground; 6-3 ground 10; 14-2 through")
    conductors: Items = _listing("Conductors named one by one.", "3 x 12; 2 x 14 through; 12 loop")
    fixture_wires: Items = _listing(
        "Luminaire tails, from a canopy unless said.", "2 x 18; 2 x 18 no canopy"
    )
    grounds: Items = _listing("Grounds named by themselves, or none.", "1 x 12; 1 x 12 isolated")
    jumpers: Items = _listing(
        "Bonding jumpers; open where neither is said.", "1 x 12 enters; 1 x 12 inside"
    )
    devices: Items = _listing(
        "Devices by yoke; without a size, on the only size there is.",
        "receptacle on 12; 2 x switch on 14; range receptacle on 6 2 gangs",
    )
    fittings: Items = _listing("Support fittings.", "luminaire stud")
    terminal_blocks: Items = _listing("Terminal blocks by size, or unknown.", "1 x 12")
    not_counted: Items = _listing("What takes no allowance.", "3 x wire connector")
    sides: Items = _listing(
        "The cubic inches on each side of the barriers, or equal; things say theirs: side 2.",
        "14; 27",
    )
    clamps: Annotated[Clamps, in_any_case(Clamps)] = Field(
        default="unknown", description="Cable clamps, 314.16(B)(2)."
    )
    material: Annotated[Material | None, in_any_case(Material)] = None
    hangs: Text = Field(
        default="",
        description="What the box carries, a fan or a luminaire, and its pounds.",
        examples=["fan 60"],
    )
    described: BoxDocument | None = Field(
        default=None, description="A whole box, as `boxaloud schema box` has it."
    )

    @model_validator(mode="before")
    @classmethod
    def _described_once(cls, data: Any) -> Any:
        """The columns that are not blank, where they describe the box in one way."""
        if not isinstance(data, Mapping):
            return data
        given = {
            key: value
            for key, value in data.items()
            if value is not None and value != "" and value != []
        }
        ways = ("says" in given) + ("described" in given) + (not BY_COLUMNS.isdisjoint(given))
        if ways != 1 and given.keys() <= cls.model_fields.keys():
            raise PydanticCustomError("one_way", "described in more or less than one way")
        if "volume" in given and "box" in given:
            raise PydanticCustomError("not_both", "a volume and a standard box")
        return given


BY_COLUMNS = frozenset(BatchRow.model_fields) - {"name", "edition", "says", "described"}
"""The columns that describe a box by its parts, in the trade's words."""


class RowResult(Document):
    """What a row came to. `verdict` is null for a bad row, and `problem` then says why."""

    model_config = ConfigDict(title="The result of a row of a batch")

    line: Annotated[AtLeast1, Field(description="Where the row begins in its file.")]
    name: str
    edition: str | None
    counted_under: Annotated[str | None, Field(description="The section or rule, and its code.")]
    verdict: Verdict | None
    total_in3: Volume | None
    capacity_in3: Volume | None
    margin_in3: SignedVolume | None
    least_total_in3: Volume | None
    greatest_total_in3: Volume | None
    open: Annotated[
        tuple[QuestionSlot, ...],
        Strict(False),
        Field(description="What is not known, the one that can change the verdict first."),
    ]
    cautions: Annotated[Texts, Field(description="What to mind about this box.")]
    not_used: Annotated[Texts, Field(description="Words of `says` that were not understood.")]
    problem: Annotated[str | None, Field(description="Why the row could not be used.")]
    total_ml: Millilitres | None
    capacity_ml: Millilitres | None
    margin_ml: Millilitres | None
    told: Annotated[
        str, Field(description="Where a pull box or a conduit body stands, in words; else empty.")
    ]
    least_width_in: Annotated[
        Number | None, Field(description="Of a pull box by 314.28(A); null where none is set.")
    ]
    least_height_in: Number | None
    least_depth_in: Number | None

    def to_json(self) -> dict[str, Any]:
        """The result as plain data for JSON: its fields, which are plain already."""
        return dict(vars(self))
