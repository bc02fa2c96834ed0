"""A described box, all of it, as data and back. `boxaloud schema box`."""

from __future__ import annotations

from decimal import Decimal
from typing import Annotated

from boxaloud.assistant.contract.box_thing_documents import (
    ContentDocument,
    PartDocument,
    plain_thing,
)
from boxaloud.assistant.contract.document import Document, Number, Texts
from boxaloud.rules import DEFAULT_EDITION, check_edition
from boxaloud.rules.contents import Box, Clamps
from pydantic import ConfigDict, Field, Strict


class BoxDocument(Document):
    """A described box: what it is made of, and what is in it."""

    model_config = ConfigDict(title="A described box")

    edition: Annotated[str, Field(examples=["2023"])] = DEFAULT_EDITION
    parts: Annotated[
        tuple[PartDocument, ...],
        Strict(False),
        Field(description="What the box is made of; empty while its volume is unknown."),
    ] = ()
    contents: Annotated[tuple[ContentDocument, ...], Strict(False)] = ()
    clamps: Annotated[Clamps, Field(description="Cable clamps, 314.16(B)(2).")] = "unknown"
    grounds_known: Annotated[
        bool, Field(description="False where wires were named and nothing was said of grounds.")
    ] = True
    nonmetallic: Annotated[bool | None, Field(description="Null while unknown.")] = None
    connectors_known: Annotated[
        bool,
        Field(
            description="False where nobody said how many wire connectors there are, which only "
            "Canada counts."
        ),
    ] = True
    hangs: Annotated[
        Number | None,
        Field(description="Pounds of the fan or luminaire that the box carries."),
    ] = None
    tags: Annotated[Texts, Field(description="What only cautions look at.")] = ()

    @classmethod
    def of(cls, box: Box) -> BoxDocument:
        """A box of the rules as it leaves; tags are sorted."""
        return cls.model_validate(
            {
                "edition": box.edition,
                "parts": [plain_thing(part) for part in box.parts],
                "contents": [plain_thing(content) for content in box.contents],
                "clamps": box.clamps,
                "grounds_known": box.grounds_known,
                "nonmetallic": box.nonmetallic,
                "connectors_known": box.connectors_known,
                "hangs": None if box.hangs is None else format(box.hangs, "f"),
                "tags": sorted(box.tags),
            }
        )

    @property
    def value(self) -> Box:
        """The box as `rules` counts it. Raises RulesError for an edition that is not held."""
        return Box(
            parts=tuple(part.value for part in self.parts),
            contents=tuple(content.value for content in self.contents),
            clamps=self.clamps,
            grounds_known=self.grounds_known,
            nonmetallic=self.nonmetallic,
            edition=check_edition(self.edition),
            connectors_known=self.connectors_known,
            hangs=None if self.hangs is None else Decimal(self.hangs),
            tags=frozenset(self.tags),
        )
