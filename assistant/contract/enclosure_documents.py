"""A pull box and a conduit body as they leave with a reply. Lengths are inches in decimal text."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from typing import Annotated, Literal

from boxaloud.assistant.contract.document import Document, Number, Texts
from boxaloud.assistant.dialogue.enclosures import (
    conduit_body,
    pull_cables,
    pull_standing,
    pull_telling,
)
from boxaloud.assistant.dialogue.enclosures.body_state import BodySaid
from boxaloud.assistant.dialogue.enclosures.pull_state import Entering
from boxaloud.assistant.dialogue.nlg.sentences import plain
from boxaloud.assistant.dialogue.state import State
from boxaloud.rules import Requirement
from boxaloud.rules.conduit import BodyLine, BodyUnit
from boxaloud.rules.pull import Axis
from boxaloud.rules.pull_limits import Compared, PullRemark
from boxaloud.rules.worksheet import Verdict
from pydantic import Field, Strict


class DistanceEntry(Document):
    """One least distance by 314.28(A), and how it comes about."""

    what: str
    inches: Number
    shown: Annotated[str, Field(description="The same with its fraction, as it is said.")]
    working: str
    sets: Annotated[Axis | None, Field(description="The dimension of the box that it sets.")]
    section: str
    disputed: Annotated[bool, Field(description="Electricians disagree whether it applies.")]

    @classmethod
    def of(cls, line: Requirement) -> DistanceEntry:
        """A line of the sheet as it leaves."""
        return cls(
            what=line.what,
            inches=_number(line.inches),
            shown=pull_telling.shown(line.inches),
            working=line.working,
            sets=line.axis,
            section=line.section,
            disputed=line.disputed,
        )


class RemarkEntry(Document):
    """A requirement that sets no dimension; `holds` is null where it cannot be told."""

    says: str
    section: str
    holds: bool | None

    @classmethod
    def of(cls, remark: PullRemark) -> RemarkEntry:
        """A remark as it leaves."""
        return cls(says=remark.says, section=remark.section, holds=remark.holds)


class CableEntry(Document):
    """A cable of a pull box, and the raceway that it counts as by 314.28(A)."""

    count: int
    wires: Annotated[Texts, Field(description="Its conductors by size.")]
    ground: Annotated[str, Field(description="Its size; ? where none was said, else empty.")]
    insulation: str | None
    raceway_in: Annotated[Number | None, Field(description="Null while that is open.")]
    by_kind: Annotated[Texts, Field(description="The least size of each kind of raceway.")]
    working: str
    section: str
    from_memory: Annotated[Texts, Field(description="Areas that no source read states.")]

    @classmethod
    def of(cls, one: Entering, state: State) -> CableEntry:
        """A cable as it leaves."""
        said = state.pulls
        found = None if said is None else pull_cables.raceway_of(one, said, state.assumed)
        known = None if found is None else _number(found.size)
        return cls(
            count=one.count,
            wires=one.wires,
            ground=one.ground,
            insulation=one.insulation or (said.insulation if said else "") or None,
            raceway_in=plain(one.size) if one.size is not None else known,
            by_kind=() if found is None else tuple(f"{k} {_number(s)}" for k, s in found.by_kind),
            working="" if found is None else found.working,
            section="" if found is None else found.section,
            from_memory=() if found is None else tuple(map(", ".join, found.from_memory)),
        )


class DimensionEntry(Document):
    """An inside dimension of the box at hand against the least."""

    dimension: Axis | Literal["distance"]
    have_in: Number
    least_in: Number
    holds: bool
    section: str

    @classmethod
    def of(cls, one: Compared) -> DimensionEntry:
        """A dimension as it leaves."""
        return cls(
            dimension=one.axis,
            have_in=_number(one.have),
            least_in=_number(one.least),
            holds=one.holds,
            section=one.section,
        )


class PullBoxDocument(Document):
    """A pull box by 314.28; no dimension is told while anything of it is open."""

    pulls: Annotated[Texts, Field(description="What was understood, a pull each.")]
    width_in: Number | None
    height_in: Number | None
    depth_in: Number | None
    lines: Annotated[tuple[DistanceEntry, ...], Strict(False)]
    remarks: Annotated[tuple[RemarkEntry, ...], Strict(False)]
    box: Annotated[tuple[DimensionEntry, ...], Strict(False)]
    verdict: Annotated[Verdict, Field(description="Of the dimensions of the box at hand.")]
    cables: Annotated[tuple[CableEntry, ...], Strict(False)]
    assumed: Annotated[Texts, Field(description="Left at the worst case.")]
    refused: Annotated[str, Field(description="Why no such box can be; empty where it can.")]

    @classmethod
    def of(cls, state: State) -> PullBoxDocument | None:
        """What a state tells of a pull box; None where there is none."""
        if state.pulls is None:
            return None
        found = pull_standing.standing(state)
        sheet = found.sheet
        lines = [] if sheet is None else pull_standing.real_lines(sheet)
        return cls(
            pulls=tuple(pull_telling.pulled(one) for one in state.pulls.pulls),
            width_in=_side(sheet.width if sheet else None),
            height_in=_side(sheet.height if sheet else None),
            depth_in=_side(sheet.depth if sheet else None),
            lines=tuple(map(DistanceEntry.of, lines)),
            remarks=tuple(map(RemarkEntry.of, found.remarks)),
            box=tuple(map(DimensionEntry.of, found.compared)),
            verdict=found.verdict,
            cables=tuple(CableEntry.of(one, state) for one in state.pulls.entering if one.cable),
            assumed=tuple(sorted(slot for slot in state.assumed if slot.startswith("pull_"))),
            refused=found.refusal,
        )


class BodyLineEntry(Document):
    """One requirement of 314.16(C): what there is, and the limit that it meets or breaks."""

    what: str
    have: Number
    limit: Number
    unit: BodyUnit
    holds: bool
    section: str
    working: Annotated[str, Field(description="How the limit comes of the figures of the tables.")]

    @classmethod
    def of(cls, line: BodyLine) -> BodyLineEntry:
        """A line of the sheet as it leaves."""
        return cls(
            what=line.what,
            have=_number(line.have),
            limit=_number(line.limit),
            unit=line.unit,
            holds=line.holds,
            section=line.section,
            working=line.working,
        )


class ConduitBodyDocument(Document):
    """A conduit body: what was said of it, and what may pass."""

    shape: str | None
    raceway: str | None
    size_in: Number | None
    insulation: str | None
    spliced: bool | None
    both_sides: Annotated[bool | None, Field(description="Spliced wires come in from both.")]
    verdict: Verdict | None
    large: Annotated[Texts, Field(description="Conductors of 4 AWG and larger, each by size.")]
    marked_for: Annotated[Texts, Field(description="What its maker marked it for.")]
    dimensions: Annotated[
        tuple[DistanceEntry, ...],
        Strict(False),
        Field(description="Its least dimensions by 314.28(A); the width is its length."),
    ]
    box: Annotated[tuple[DimensionEntry, ...], Strict(False)]
    refused: Annotated[str, Field(description="Why no wire may pass; empty where one may.")]
    lines: Annotated[tuple[BodyLineEntry, ...], Strict(False)]

    @classmethod
    def of(cls, state: State) -> ConduitBodyDocument | None:
        """What a state tells of a conduit body; None where there is none."""
        if not conduit_body.named(state):
            return None
        found = conduit_body.standing(state)
        lines = () if found is None or found.sheet is None else found.sheet.lines
        pull = None if found is None else found.pull
        sides = () if pull is None or pull.sheet is None else pull_standing.real_lines(pull.sheet)
        said: BodySaid = state.body
        return cls(
            shape=said.shape or None,
            raceway=said.raceway or None,
            size_in=None if said.size is None else plain(said.size),
            insulation=said.insulation or None,
            spliced=said.spliced,
            both_sides=said.both_sides,
            verdict=None if found is None else found.verdict,
            large=said.large,
            marked_for=said.permits,
            dimensions=tuple(map(DistanceEntry.of, sides)),
            box=() if pull is None else tuple(map(DimensionEntry.of, pull.compared)),
            refused="" if found is None else found.refusal,
            lines=tuple(map(BodyLineEntry.of, lines)),
        )


def _number(value: Fraction) -> str:
    return plain(Decimal(value.numerator) / Decimal(value.denominator))


def _side(value: Fraction | None) -> str | None:
    return None if value is None else _number(value)
