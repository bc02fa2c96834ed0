"""What the conversation gives back for an utterance, as data."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal
from typing import Literal, TypeAlias

from boxaloud.assistant.dialogue.answer_figures import Figure
from boxaloud.assistant.dialogue.divided_box import Standing
from boxaloud.assistant.dialogue.nlg.sentences import for_ear, joined
from boxaloud.assistant.dialogue.nlg.spoken_form import once, slowly, spoken
from boxaloud.assistant.dialogue.question_slots import QuestionSlot
from boxaloud.assistant.dialogue.state import State, to_box
from boxaloud.grammar.acts import Act
from boxaloud.grammar.quick_dataclass import dataclass
from boxaloud.rules import STANDING, cautions
from boxaloud.rules.worksheet import Verdict, Worksheet

ActKind: TypeAlias = Literal[
    "refuse", "answer", "verdict", "total", "echo", "acknowledge", "nonunderstanding", "advice",
    "caution", "question", "repeat", "event", "report",
]  # fmt: skip


@dataclass(frozen=True, slots=True)
class SystemAct:
    """One act of the system: what it does, and its sentence for the eye, which carries the one
    for the ear where that is shorter."""

    act: ActKind
    says: str
    eased: str = ""
    """What is said to the ear in a long reply instead, with fewer numbers; empty for the same."""
    figures: tuple[Figure, ...] = ()
    """The numbers that answer a question."""

    @property
    def spoken(self) -> str:
        """Its sentence in words, for the ear."""
        text = for_ear(self.says)
        return once(text) if self.act in ("verdict", "total") else spoken(text)

    def spoken_long(self) -> str:
        """The same in a long reply: the eased text, where that is shorter."""
        texts = (self.spoken, spoken(self.eased)) if self.eased else (self.spoken,)
        return min(texts, key=lambda text: len(text.split()))


LONGEST = 30
"""Words for the ear up to which a reply is not eased."""


def said_of(acts: Sequence[SystemAct]) -> str:
    """What acts say, as one text for the eye, which carries the one for the ear."""
    return joined(act.says for act in acts)


def spoken_of(acts: Sequence[SystemAct]) -> str:
    """What acts say, as one text for the ear; a long one is eased."""
    text = " ".join(filter(None, (act.spoken for act in acts)))
    if len(text.split()) <= LONGEST:
        return text
    return " ".join(filter(None, (act.spoken_long() for act in acts)))


@dataclass(frozen=True, slots=True)
class Reply:
    """One reply. `acts` is what is said, act by act; `said` the same as one text for the eye."""

    heard: str
    confidence: float | None
    understood: tuple[str, ...]
    left_over: tuple[str, ...]
    acts: tuple[SystemAct, ...]
    said: str
    asks: QuestionSlot | None
    sheet: Worksheet
    verdict: Verdict
    low: Decimal
    high: Decimal
    assumed: tuple[str, ...]
    described: State | None
    """The box that cautions are about; None while nothing was described."""
    changed: bool
    """True where the utterance changed the box or answered something."""
    refused: bool = False
    """True where something said was refused."""
    shows_sheet: bool = False
    """True where the worksheet is due: read back, done, asked for."""
    slow: bool = False
    """True where it is to be spoken in short pieces."""

    enclosure: State | None = None
    """The state of a pull box or a conduit body; None where none was described."""

    spaces: tuple[Standing, ...] = ()
    """The spaces of a divided box; `sheet` is the one that governs."""
    event: bool = False
    """True where something was said of the boxes of the job."""
    fault: str = ""
    """The fault of ours that kept the words from being taken; empty where there was none."""
    outside: tuple[Act, ...] = ()
    """What a conversation by itself cannot do: begin a new job, keep a word for all jobs, write
    a report."""
    written: str = ""
    """The file that a report was written to; empty where none was."""

    def saying(self, acts: Sequence[SystemAct]) -> Reply:
        """The same reply in other acts."""
        return replace(self, acts=tuple(acts), said=said_of(acts), slow=False)

    @property
    def spoken(self) -> str:
        """The reply for the ear, worked out when it is asked for: most are only read."""
        return slowly(for_ear(self.said)) if self.slow else spoken_of(self.acts)

    @property
    def question(self) -> str:
        """The question of this reply, empty where it asks nothing."""
        return next((act.says for act in self.acts if act.act == "question"), "")

    @property
    def cautions(self) -> tuple[str, ...]:
        """What to mind about this box, worked out when it is asked for."""
        if self.described is None:
            return ()
        found = cautions(to_box(self.described))
        standing = (caution.says for caution in STANDING)
        return (*standing, *(f"{caution.says} ({caution.section})" for caution in found))
