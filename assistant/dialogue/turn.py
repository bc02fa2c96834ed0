"""One utterance being worked through: what it changed, what was said about it.

A `Turn` is the only mutable thing in the dialogue, and it lives for one utterance.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from typing import NamedTuple, TypeAlias, TypeVar

from boxaloud.assistant.dialogue.answer_figures import Figure
from boxaloud.assistant.dialogue.ground_sizes import resized, unsaid_size
from boxaloud.assistant.dialogue.history import History
from boxaloud.assistant.dialogue.nlg.sentences import say
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.state_parts import Pending
from boxaloud.grammar.acts import Act, Unread

_Made = TypeVar("_Made", bound=Act)


class Mark(NamedTuple):
    """How things stood before an act."""

    state: State
    echoes: int
    understood: int
    words: str


@dataclass
class Turn:
    """Acts are taken one by one from `ahead`; handlers write what they did."""

    state: State
    asked: str | None
    subject: int | None = None
    """Key of the item that the open question is about, if it is about one."""
    ahead: list[Act] = field(default_factory=list)
    echoes: list[str] = field(default_factory=list)
    understood: list[str] = field(default_factory=list)
    answers: list[str] = field(default_factory=list)
    figures: dict[int, tuple[Figure, ...]] = field(default_factory=dict)
    """The numbers of an answer, by its place among the answers."""
    reports: list[str] = field(default_factory=list)
    """What is said where a report was asked for."""
    refused: list[str] = field(default_factory=list)
    social: list[str] = field(default_factory=list)
    unplaced: list[str] = field(default_factory=list)
    """Words that made an act which nothing could be done with."""
    ahead_of_things: list[str] = field(default_factory=list)
    """Words that pointed at a thing while nothing was in the box."""
    trail: list[State] = field(default_factory=list)
    """The states before each change of this utterance."""
    began: State = field(init=False)
    """The state before this utterance."""
    asked_of: State = field(init=False)
    """The state that `asked` is the question of."""
    base: State = field(init=False)
    """The state that this utterance's changes start from: where undo or redo led, if it was
    said."""
    history: History | None = None
    """What undo and redo go along; None while something is only supposed."""
    marks: list[Mark] = field(default_factory=list)
    """How things stood before each act of this utterance that changed the box."""
    stepped: bool = False
    """True once undo, redo or start over was said."""
    replay: str = ""
    """`repeat` or `slower` where the last reply is to be said again."""
    box_name: str = ""
    """What the box at hand is called."""
    shows_sheet: bool = False
    """True where the worksheet is due: read back, done, asked for."""
    gaps: bool = False
    """True where words of the utterance were not understood."""
    unread: tuple[Unread, ...] = ()
    """Words of the utterance of which nothing was made: no question is answered past them."""
    spoken: bool = False
    """True where an ear gave the words, so that doubts are to be asked back."""
    missed: bool = False
    """True where something was pointed at that is not there."""
    closes: bool = False
    """True where the description was ended, so that the verdict is due once more."""
    heard: str = ""
    """The words of the utterance, empty where none were said."""
    held_before: tuple[Pending, ...] = ()
    """Acts held back since an earlier utterance."""
    first_asked: str | None = None
    """The question that was open when the utterance began."""
    done: list[Act] = field(default_factory=list)
    """The acts worked through so far."""
    confirmed: list[Pending] = field(default_factory=list)
    """Held acts that this utterance confirmed."""
    released: list[Act] = field(default_factory=list)
    """Confirmed acts that are about the boxes of the job."""
    settled: Act | None = None
    """A held act that was just confirmed, and is not to be doubted again."""

    def __post_init__(self) -> None:
        self.began = self.base = self.asked_of = self.state

    @property
    def supposed(self) -> bool:
        """True while nothing is entered for good: "what if …"."""
        return self.history is None

    @property
    def asks(self) -> bool:
        """True where the utterance ends in a question mark: a "no" in it only asks for assent."""
        return self.heard.rstrip().endswith("?")

    def take(self) -> Act | None:
        """The next act, taken away from what is ahead."""
        return self.ahead.pop(0) if self.ahead else None

    @property
    def upcoming(self) -> Act | None:
        """The next act, left where it is."""
        return self.ahead[0] if self.ahead else None

    def next_is(self, *kinds: type[Act]) -> bool:
        """True where the next act ahead is of one of these kinds."""
        return isinstance(self.upcoming, kinds)

    def enter(self, state: State, echo: str, understood: str = "") -> None:
        """Take a new state, and say so."""
        self.trail.append(self.state)
        self.state = resized(state)
        if echo:
            self.echoes.append(echo)
        if self.state is not state:
            self.echoes.append(say("echo.ground_sized", awg=unsaid_size(state)))
        self.understood.append(understood or echo)

    def refuse(self, words: str, why: str) -> None:
        """Something said cannot be entered: it is told why, and no verdict stands over it."""
        self.refused.append(say("refused", words=words, why=why))
        self.unplaced.append(words)

    def answer(self, text: str, understood: str, *figures: Figure) -> None:
        """Answer a question; the box does not change."""
        if figures:
            self.figures[len(self.answers)] = figures
        self.answers.append(text)
        self.understood.append(understood)


Handler: TypeAlias = Callable[[Turn, _Made], None]
