"""A reply as it leaves `check`, `chat` and `hear` with `--json`: one object a line.
`boxaloud schema reply`."""

from __future__ import annotations

from typing import Annotated, Literal

from boxaloud.assistant.contract.document import Confidence, Document, Number, Texts
from boxaloud.assistant.contract.enclosure_documents import ConduitBodyDocument, PullBoxDocument
from boxaloud.assistant.contract.worksheet_document import WorksheetDocument
from boxaloud.assistant.dialogue.answer_figures import Figure, FigureKind
from boxaloud.assistant.dialogue.question_slots import QuestionSlot
from boxaloud.assistant.dialogue.reply import ActKind, Reply, SystemAct
from pydantic import ConfigDict, Field, Strict


class AnswerFigure(Document):
    """A number that answers a question; least and most differ while it hangs on what is open."""

    of: Annotated[
        FigureKind,
        Field(
            description="How many more fit (room), or a volume: that is needed, that there is"
            " (capacity), that a thing takes."
        ),
    ]
    least: Number
    most: Number
    unit: Literal["count", "in3", "mL"]

    @classmethod
    def from_figure(cls, figure: Figure) -> AnswerFigure:
        """The document of a figure."""
        least, most = format(figure.least, "f"), format(figure.most, "f")
        return cls(of=figure.of, least=least, most=most, unit=figure.unit)


class SpokenAct(Document):
    """One act of the reply: what it does, its sentence for the eye, and the numbers in it that
    answer a question."""

    act: ActKind
    says: str
    figures: Annotated[tuple[AnswerFigure, ...], Strict(False)] = ()

    @classmethod
    def from_act(cls, act: SystemAct) -> SpokenAct:
        """The document of an act."""
        figures = tuple(map(AnswerFigure.from_figure, act.figures))
        return cls(act=act.act, says=act.says, figures=figures)


class _Said(Document):
    """What comes before the worksheet: a model has the fields of its last base first."""

    heard: str
    confidence: Annotated[
        Confidence | None,
        Field(description="How sure the ear was of its least sure word; null where typed."),
    ]
    understood: Annotated[Texts, Field(description="What was entered, in our words.")]
    left_over: Annotated[Texts, Field(description="Words of which nothing was made.")]
    reply: Annotated[str, Field(description="All acts as one text for the eye.")]
    acts: Annotated[tuple[SpokenAct, ...], Strict(False)]
    spoken: Annotated[str, Field(description="The reply for the ear.")]
    asks: Annotated[QuestionSlot | None, Field(description="What the open question is about.")]


class ReplyDocument(WorksheetDocument, _Said):
    """A reply, and the worksheet of the box at hand after it."""

    model_config = ConfigDict(title="A reply")

    pull_box: Annotated[
        PullBoxDocument | None,
        Field(description="Least dimensions by 314.28, in inches as decimal strings."),
    ]
    conduit_body: Annotated[
        ConduitBodyDocument | None, Field(description="What may pass, by 314.16(C) and Chapter 9.")
    ]
    written: Annotated[
        str | None, Field(description="The file that a report was written to; null where none was.")
    ]
    assumed: Annotated[Texts, Field(description="Left at the worst case.")]
    cautions: Annotated[Texts, Field(description="What to mind about this box.")]

    @classmethod
    def of(cls, reply: Reply) -> ReplyDocument:
        """A reply as it leaves."""
        state = reply.enclosure
        sheet = WorksheetDocument.of_sheet(
            reply.sheet, reply.verdict, reply.low, reply.high, reply.spaces
        )
        return cls(
            heard=reply.heard,
            confidence=reply.confidence,
            understood=reply.understood,
            left_over=reply.left_over,
            reply=reply.said,
            acts=tuple(map(SpokenAct.from_act, reply.acts)),
            spoken=reply.spoken,
            asks=reply.asks,
            pull_box=None if state is None else PullBoxDocument.of(state),
            conduit_body=None if state is None else ConduitBodyDocument.of(state),
            written=reply.written or None,
            assumed=reply.assumed,
            cautions=reply.cautions,
            **vars(sheet),
        )
