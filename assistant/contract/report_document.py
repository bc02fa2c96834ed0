"""The report of a job as it leaves. `boxaloud schema report`.

A report of thousands of boxes is written head first and then box by box, so that it is never
held twice; `ReportDocument` is the whole of it.
"""

from __future__ import annotations

from typing import Annotated

from boxaloud.assistant.contract.document import (
    AtLeast0,
    AtLeast1,
    Document,
    Number,
    SignedVolume,
    Texts,
)
from boxaloud.assistant.contract.enclosure_documents import BodyLineEntry, DimensionEntry
from boxaloud.assistant.contract.worksheet_document import WorksheetDocument
from boxaloud.rules.advice import AdviceKind
from pydantic import ConfigDict, Field, Strict


class VerdictCounts(Document):
    """How many boxes have each verdict. A pull box counts where it is large enough; one too small
    for its pulls, and one of which the box at hand is not known, is in none of them."""

    fits: AtLeast0
    over: AtLeast0
    incomplete: AtLeast0


class MaterialEntry(Document):
    """Something to buy for the recommended changes."""

    material: str
    quantity: AtLeast1
    boxes: Annotated[Texts, Field(description="For which boxes.")]


class AdviceEntry(Document):
    """One way to gain room."""

    change: AdviceKind
    what: str
    margin_in3: Annotated[SignedVolume, Field(description="What it would leave.")]
    enough: bool
    section: str
    material: str | None
    quantity: AtLeast1 | None


class PullLineEntry(Document):
    """One least distance of a pull box, inches, and how it comes about."""

    what: str
    inches: Number
    working: str
    section: str
    disputed: Annotated[bool, Field(description="Electricians disagree whether it applies.")]


class PullBoxEntry(Document):
    """The least dimensions of a pull box by 314.28(A), inches; null where no pull sets one."""

    told: Annotated[str, Field(description="What was understood, and what it comes to, in words.")]
    width_in: Number | None
    height_in: Number | None
    depth_in: Number | None
    too_small: Annotated[bool, Field(description="An inside dimension that was told is less.")]
    large_enough: Annotated[bool, Field(description="All of the box at hand is large enough.")]
    box: Annotated[tuple[DimensionEntry, ...], Strict(False)]
    lines: Annotated[tuple[PullLineEntry, ...], Strict(False)]


class BodyEntry(Document):
    """A conduit body: what was said of it, and what may pass by 314.16(C)."""

    told: Annotated[str, Field(description="Where it stands, in words.")]
    shape: str | None
    raceway: str | None
    size_in: Number | None
    insulation: str | None
    governs: Annotated[bool, Field(description="The raceway decides, and no volume.")]
    lines: Annotated[tuple[BodyLineEntry, ...], Strict(False)]
    remedy: Annotated[str, Field(description="What would hold what is in it; empty if it fits.")]


class PictureEntry(Document):
    """A photograph or a sketch of a box; the picture itself is in the page and the PDF."""

    says: Annotated[str, Field(description="What it shows; empty where that was not told.")]
    kind: Annotated[str, Field(description="jpeg or png.")]
    wide: Annotated[AtLeast1, Field(description="Pixels.")]
    high: Annotated[AtLeast1, Field(description="Pixels.")]


class _Told(Document):
    """What comes before the worksheet: a model has the fields of its last base first."""

    name: str
    contents: Annotated[Texts, Field(description="What is in it.")]
    said: Annotated[Texts, Field(description="As said on site.")]
    not_used: Annotated[Texts, Field(description="Said and not used.")]


class BoxEntry(WorksheetDocument, _Told):
    """One box: what was said of it, its worksheet, and what follows from it."""

    model_config = ConfigDict(title="A box of a report")

    assumed: Annotated[Texts, Field(description="Left at the worst case.")]
    open: Annotated[Texts, Field(description="Still open.")]
    cautions: Annotated[Texts, Field(description="Cautions of this box.")]
    advice: Annotated[tuple[AdviceEntry, ...], Strict(False)]
    pictures: Annotated[tuple[PictureEntry, ...], Strict(False)]
    pull_box: Annotated[
        PullBoxEntry | None,
        Field(description="Null where it is none, or where something of it is open."),
    ]
    conduit_body: Annotated[BodyEntry | None, Field(description="Null where it is none.")]


class ProjectEntry(Document):
    """The project of a job, as told; empty where it was not."""

    site: str
    address: str
    permit: str
    contractor: str
    prepared_by: str
    licence: str
    date: Annotated[str, Field(description="ISO 8601.")]


class ReportHead(Document):
    """A job, and what is common to its boxes."""

    job: str
    begun: Annotated[str, Field(description="UTC, ISO 8601; empty where it is not known.")]
    written: Annotated[str, Field(description="UTC, ISO 8601; empty where it is not known.")]
    project: ProjectEntry
    editions: Annotated[Texts, Field(description="Every edition counted under.")]
    counts: VerdictCounts
    cautions: Annotated[Texts, Field(description="What goes with every verdict.")]
    materials: Annotated[tuple[MaterialEntry, ...], Strict(False)]


class ReportDocument(ReportHead):
    """A job's report."""

    model_config = ConfigDict(title="The report of a job")

    boxes: Annotated[tuple[BoxEntry, ...], Strict(False)]
