"""A report as data: what every form of it shows."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from boxaloud.assistant.dialogue.divided_box import Standing
from boxaloud.assistant.dialogue.enclosures.body_state import BodySaid
from boxaloud.rules import BodyLine, PullSheet, Raceway, Requirement, RuleNote, Source
from boxaloud.rules.advice import AdviceKind
from boxaloud.rules.pull_limits import Compared
from boxaloud.rules.units import VolumeUnit
from boxaloud.rules.worksheet import Unit, Verdict, Worksheet


@dataclass(frozen=True, slots=True)
class Change:
    """One way to gain room: what it takes, and the margin that it would leave, in `unit`."""

    kind: AdviceKind
    what: str
    margin: Decimal
    enough: bool
    section: str
    material: str = ""
    """What has to be bought for it; empty where nothing has."""
    quantity: int = 1
    """How many of the material."""
    unit: Unit = "in3"


@dataclass(frozen=True, slots=True)
class PullReport:
    """A pull box: what was understood, its least dimensions, and the raceways to draw. Inches."""

    told: str
    sheet: PullSheet
    lines: tuple[Requirement, ...]
    """Those of the sheet's requirements that say something, each once."""
    raceways: tuple[Raceway, ...]
    too_small: bool = False
    """True where an inside dimension that was told is less than the least."""
    enough: bool = False
    """True where every dimension of the box at hand is known and large enough."""
    compared: tuple[Compared, ...] = ()
    """Each dimension of the box at hand against the least."""
    also: tuple[str, ...] = ()
    """The rules that it rests on besides those of its lines."""


@dataclass(frozen=True, slots=True)
class BodyReport:
    """A conduit body: what is told of it, and its limits by 314.16(C)."""

    told: str
    said: BodySaid
    governs: bool
    """True where the raceway decides, so that nothing in it is counted by volume."""
    lines: tuple[BodyLine, ...] = ()
    remedy: str = ""
    """What would hold what is in it; empty where it fits."""
    also: tuple[str, ...] = ()
    """The rules that it rests on besides those of its lines."""


@dataclass(frozen=True, slots=True)
class Picture:
    """A photograph or a sketch. `kind` is `jpeg` or `png`, sizes are pixels."""

    says: str
    kind: str
    wide: int
    high: int
    data: bytes


@dataclass(frozen=True, slots=True)
class BoxReport:
    """One box. Volumes are in the unit of its sheet. `said` are the speaker's own words."""

    name: str
    contents: tuple[str, ...]
    said: tuple[str, ...]
    unused: tuple[str, ...]
    sheet: Worksheet
    verdict: Verdict
    low: Decimal
    high: Decimal
    assumed: tuple[str, ...]
    open: tuple[str, ...]
    cautions: tuple[str, ...]
    """Those that what was said calls for; the standing ones are the job's."""
    advice: tuple[Change, ...]
    """For a box that is over: what to do, the recommended change first."""
    pull: PullReport | None = None
    """Its least dimensions, where it is a pull box of which nothing is open."""
    body: BodyReport | None = None
    """What goes by the raceway, where it is a conduit body."""
    spaces: tuple[Standing, ...] = ()
    """The spaces of a divided box; `sheet` is the one that governs."""
    pictures: tuple[Picture, ...] = ()

    @property
    def edition(self) -> str:
        """The edition it was counted under."""
        return self.sheet.edition

    @property
    def blank(self) -> bool:
        """True where nothing was said of it."""
        return not (self.sheet.lines or self.sheet.volumes or self.said)

    @property
    def pull_alone(self) -> bool:
        """True for a pull box with nothing in it that counts by volume."""
        return self.pull is not None and not self.sheet.lines

    @property
    def by_volume(self) -> bool:
        """True where its volume counts, and not the size of a raceway alone."""
        return not (self.pull_alone or (self.body is not None and self.body.governs))

    @property
    def too_small(self) -> bool:
        """True where it is too small for its pulls, whatever its volume."""
        return self.pull is not None and self.pull.too_small

    @property
    def small_alone(self) -> bool:
        """True where it is over by its dimensions and not by the volume of what is in it."""
        room = self.sheet.capacity
        return self.too_small and not (room is not None and self.low > room)

    @property
    def look(self) -> str:
        """How its verdict is framed: as one, or `pull-box` while that of a pull box is open."""
        return "pull-box" if self.pull_alone and self.verdict == "incomplete" else self.verdict

    @property
    def recommended(self) -> Change | None:
        """The change to make, where one is enough."""
        return self.advice[0] if self.advice and self.advice[0].enough else None


@dataclass(frozen=True, slots=True)
class Material:
    """Something to buy, how many, and for which boxes."""

    name: str
    quantity: int
    boxes: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Project:
    """The project that a report is of, as told; a field is empty where it was not.

    `date` is ISO 8601: the day that the work was seen.
    """

    site: str = ""
    address: str = ""
    permit: str = ""
    contractor: str = ""
    prepared_by: str = ""
    licence: str = ""
    date: str = ""


NO_PROJECT = Project()
"""Of which nothing was told."""


@dataclass(frozen=True, slots=True)
class JobReport:
    """A job: its boxes, and what is common to them. Dates are UTC."""

    name: str
    units: VolumeUnit
    begun: str
    written: str
    boxes: tuple[BoxReport, ...]
    standing: tuple[str, ...]
    """The cautions that go with every verdict."""
    project: Project = NO_PROJECT

    @property
    def editions(self) -> tuple[str, ...]:
        """Every edition that a box was counted under, oldest first."""
        return tuple(sorted({box.edition for box in self.boxes}))

    def count(self, verdict: Verdict) -> int:
        """How many boxes have this verdict; one too small for its pulls is counted by itself, and
        so is no pull box of which the box at hand is not known."""
        return sum(
            box.verdict == verdict
            and not box.small_alone
            and not (box.pull_alone and verdict == "incomplete")
            for box in self.boxes
        )

    @property
    def too_small(self) -> int:
        """How many boxes are too small for their pulls."""
        return sum(box.too_small for box in self.boxes)

    @property
    def materials(self) -> tuple[Material, ...]:
        """What the recommended changes take, added up."""
        wanted: dict[str, list[tuple[int, str]]] = {}
        for box in self.boxes:
            change = box.recommended
            if change is not None and change.material:
                wanted.setdefault(change.material, []).append((change.quantity, box.name))
        return tuple(
            Material(name, sum(number for number, _ in uses), tuple(box for _, box in uses))
            for name, uses in wanted.items()
        )


@dataclass(frozen=True, slots=True)
class RuleUse:
    """A rule that some line of the report rests on, and the numbers of its sources."""

    section: str
    note: RuleNote
    sources: tuple[int, ...]


@dataclass(frozen=True, slots=True)
class SourceUse:
    """A source in the annex: its number, what it is, and the sections that were read there."""

    number: int
    source: Source
    sections: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class References:
    """What the lines of a report rest on: the rules, and where each was read."""

    rules: tuple[RuleUse, ...]
    sources: tuple[SourceUse, ...]
