"""What the engine tells the page: acts and figures as data, each a frozen dataclass.

Volumes are decimal strings with the places they are shown with, in `unit` ("in³" or "mL"). The
page shows a sentence as it stands and cuts none. `page_json` turns them into JSON; nothing
heavier is loaded, since this is what a phone starts with.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias

from boxaloud.assistant.dialogue.reply import ActKind
from boxaloud.rules.worksheet import Verdict

RowKind: TypeAlias = Literal["item", "nothing", "box", "part", "clamps"]
"""What a row of the contents is about."""


@dataclass(frozen=True, slots=True)
class SaidAct:
    """One act of a reply: what it does, its sentence for the eye and the one for the ear."""

    act: ActKind
    says: str
    spoken: str


@dataclass(frozen=True, slots=True)
class SaidBack:
    """A reply: what was heard, what was entered of it, and what is said back."""

    heard: str
    confidence: float | None
    understood: tuple[str, ...]
    left_over: tuple[str, ...]
    acts: tuple[SaidAct, ...]
    cautions: tuple[str, ...]
    assumed: tuple[str, ...]
    refused: bool
    changed: bool
    fault: str


@dataclass(frozen=True, slots=True)
class Answer:
    """One answer to the open question; `opens` names a part of the page in place of an answer."""

    label: str
    sign: str
    opens: str = ""


@dataclass(frozen=True, slots=True)
class OpenQuestion:
    """What is asked, and the answers that can be tapped; `slot` is None while nothing is open."""

    slot: str | None
    asks: str
    answers: tuple[Answer, ...]


@dataclass(frozen=True, slots=True)
class VerdictCard:
    """Where the box stands. `margin` is empty while it is not known."""

    verdict: Verdict
    word: str
    margin: str
    at_least: bool
    unit: str
    caption: str
    code: str
    """The code, where it must stand with every verdict."""


@dataclass(frozen=True, slots=True)
class FillPart:
    """What one kind of thing takes."""

    item: str
    name: str
    volume: str


@dataclass(frozen=True, slots=True)
class Fill:
    """The fill as it is drawn to scale: kind by kind, what is open, and the capacity."""

    parts: tuple[FillPart, ...]
    total: str
    low: str
    high: str
    capacity: str | None
    unit: str


@dataclass(frozen=True, slots=True)
class ContentRow:
    """One thing in the box; `key` is what it is recounted by."""

    kind: RowKind
    what: str
    key: int | None = None
    count: int | None = None


@dataclass(frozen=True, slots=True)
class SheetRow:
    """A line of the worksheet, with the reasoning and the source that it opens to."""

    kind: Literal["line", "capacity"]
    what: str
    volume: str
    counted: str
    section: str
    explained: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Sheet:
    """A worksheet; a divided box has one for each space, the one that governs first."""

    space: int | None
    rows: tuple[SheetRow, ...]
    total: str
    capacity: str | None
    unit: str


@dataclass(frozen=True, slots=True)
class Stored:
    """Whether all that was said is kept, and in plain words why it is not."""

    kept: bool
    why: str = ""


@dataclass(frozen=True, slots=True)
class PageView:
    """All that the page shows of the box at hand."""

    job: str
    box: str
    boxes: int
    stand: str
    """Names the state that the answers and rows here belong to."""
    edition: str
    under: str
    provisional: str
    verdict: VerdictCard
    question: OpenQuestion
    reply: SaidBack
    fill: Fill
    contents: tuple[ContentRow, ...]
    sheets: tuple[Sheet, ...]
    enclosure: str
    """What is told of a pull box or a conduit body; empty for other boxes."""
    standing_caution: str
    stored: Stored


@dataclass(frozen=True, slots=True)
class BoxRow:
    """A box of the job."""

    name: str
    verdict: Verdict
    told: str
    here: bool


@dataclass(frozen=True, slots=True)
class BoxList:
    """Some of the boxes of the job, from `first` on, out of `count`."""

    rows: tuple[BoxRow, ...]
    first: int
    count: int


@dataclass(frozen=True, slots=True)
class StandardBox:
    """A box that can be chosen, and whether what is in the box at hand would fit into it."""

    what: str
    capacity: str
    section: str
    verdict: Verdict | None
    told: str
    row: str
    gangs: int


@dataclass(frozen=True, slots=True)
class StandardBoxes:
    """The boxes that a search found."""

    rows: tuple[StandardBox, ...]
    unit: str = "in³"


@dataclass(frozen=True, slots=True)
class ComparedLine:
    """One line of a comparison."""

    what: str
    now: str
    then: str
    differs: bool


@dataclass(frozen=True, slots=True)
class Comparison:
    """A change tried on a copy: nothing is entered. Without `tried` only `says` is filled."""

    tried: bool
    words: str
    says: str
    now: VerdictCard
    then: VerdictCard | None = None
    lines: tuple[ComparedLine, ...] = ()
    difference: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class JobRow:
    """A job that can be opened."""

    name: str
    file: str
    written: str
    here: bool


@dataclass(frozen=True, slots=True)
class JobList:
    """The jobs that there are, the one last written first."""

    rows: tuple[JobRow, ...]


@dataclass(frozen=True, slots=True)
class SharedText:
    """The worksheet as text to be sent."""

    title: str
    text: str


@dataclass(frozen=True, slots=True)
class HelpTopic:
    """A topic of the help, and sentences that can be said."""

    topic: str
    examples: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Help:
    """What can be said, from the grammar itself."""

    topics: tuple[HelpTopic, ...]


@dataclass(frozen=True, slots=True)
class Refused:
    """A request that was not taken, in one sentence."""

    refused: str


Told: TypeAlias = (
    PageView | BoxList | StandardBoxes | Comparison | JobList | SharedText | Help | Refused
)
"""What the engine answers a request with."""
