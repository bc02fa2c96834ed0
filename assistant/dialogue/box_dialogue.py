"""The talk about one box: utterances in, replies out, with undo and redo.

Pure: no input or output, no clock. The state is the journal folded; the stack of earlier
states that undo goes back to is only a memory of that folding. Folding never fails: an entry
that cannot be folded is set aside, and told, and the rest stands.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from boxaloud.assistant.dialogue import faults
from boxaloud.assistant.dialogue.act_handlers import run
from boxaloud.assistant.dialogue.assessment import Assessment, assess
from boxaloud.assistant.dialogue.belief import unread_words
from boxaloud.assistant.dialogue.history import History
from boxaloud.assistant.dialogue.journal import Entry
from boxaloud.assistant.dialogue.question_slots import QuestionSlot
from boxaloud.assistant.dialogue.reply import Reply, Unworded
from boxaloud.assistant.dialogue.reply_composer import Composer
from boxaloud.assistant.dialogue.state import State, all_but
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar.acts import Act, Ask

_LASTING = all_but("mistaken")
"""What an utterance must change to be undone by itself."""


class Talk:
    """One box being talked through."""

    def __init__(self, edition: str, name: str = "") -> None:
        self.name = name
        self.state = State(edition=edition)
        self.journal: list[Entry] = []
        self.last: Reply | None = None
        self.cautioned = False
        """True once the caution was said in this session."""
        self.aside: list[Entry] = []
        """What was set aside while the journal was folded, until it is told."""
        self.released: tuple[Act, ...] = ()
        """What the last utterance confirmed about the boxes of the job."""
        self._edition = edition
        self._history = History()
        self._tries = 0
        self._told = ""
        self._before = Unworded(None)

    @classmethod
    def fold(cls, entries: Iterable[Entry], edition: str, name: str = "") -> Talk:
        """The talk that a journal gives. The same journal gives an equal state each time."""
        talk = cls(edition, name)
        told = list(entries)
        for entry, worded in zip(told, _heard_again(told), strict=True):
            talk._fold_one(entry, worded)
        talk.cautioned = False  # what was said while folding nobody heard
        return talk

    def _fold_one(self, entry: Entry, worded: bool) -> None:
        try:
            if self._guarded(entry, worded):
                self.aside.append(entry)
        except Exception:
            if faults.raised:
                raise
            self.aside.append(entry)

    @property
    def assessment(self) -> Assessment:
        """Where the box stands now."""
        return assess(self.state)

    @property
    def asks(self) -> QuestionSlot | None:
        """The open question's slot, or None."""
        question = self.assessment.question
        return question.slot if question else None

    @property
    def expects(self) -> str | None:
        """What the next words may be about: the open question, or the pull box at hand."""
        asks = self.asks
        pulls = self.state.pulls is not None or "pull box" in self.state.tags
        if pulls and asks in (None, "contents", "unread"):
            return f"pull_{asks or 'more'}"
        return f"body:{asks or ''}" if "conduit body" in self.state.tags else asks

    def hear(self, entry: Entry) -> Reply:
        """Take one utterance and answer it. The entry is in the journal when this returns, or
        its bare words are where a fault of ours kept it from being taken."""
        fault = self._guarded(entry, worded=True)
        reply = self.last or self.standing("")
        return replace(reply, fault=fault) if fault else reply

    def _guarded(self, entry: Entry, worded: bool) -> str:
        """Take an utterance; what a fault of ours was called that it met, empty where none."""
        taken, cautioned = len(self.journal), self.cautioned
        try:
            self._take(entry, worded)
        except Exception as fault:
            if faults.raised:
                raise
            self._go_back(taken, cautioned)
            self._take(faults.set_aside(entry), worded=True)
            return faults.named(fault)
        return ""

    def _go_back(self, taken: int, cautioned: bool) -> None:
        """Stand where the first `taken` entries led, which a fault may have left half-way."""
        before = Talk.fold(self.journal[:taken], self._edition, self.name)
        before.cautioned, before.aside = cautioned, self.aside
        vars(self).update(vars(before))

    def _take(self, entry: Entry, worded: bool) -> None:
        question = self.assessment.question
        turn = Turn(
            self.state,
            question.slot if question else None,
            question.subject if question else None,
            history=self._history,
            spoken=entry.confidence is not None,
            gaps=bool(entry.unread),
            heard=entry.heard,
            box_name=self.name,
        )
        run(turn, entry.acts)
        unread_words.keep(turn, entry.unread)
        self.journal.append(entry)
        if _LASTING(turn.state) != _LASTING(turn.base):
            told = len(turn.marks)
            self._history.keep_confirmed(turn.base, entry.heard, turn.confirmed, told)
        self.state, self.released = turn.state, tuple(turn.released)
        self._answer(turn, entry, worded)

    def standing(self, said: str) -> Reply:
        """A reply that says `said` and then where this box stands; nothing is entered."""
        turn = Turn(self.state, self.asks, answers=[said], understood=[said])
        composer = Composer(self.state, turn, Entry("", ()))
        return composer.compose(0, self._told, self.last or self._before, True)

    def _answer(self, turn: Turn, entry: Entry, worded: bool) -> None:
        """Answer an utterance; without words only what later answers go by is kept of it."""
        composer = Composer(self.state, turn, entry)
        before = self.last or self._before
        stuck = composer.in_vain and (composer.asks == before.asks or composer.nothing)
        self._tries = self._tries + 1 if stuck else 0
        self.last = None
        if worded or self.state.pulls is not None:
            self.last = composer.compose(self._tries, self._told, before, self.cautioned)
            cautions = any(act.act == "caution" for act in self.last.acts)
        else:
            cautions = composer.cautions(self.cautioned)
        self._before = Unworded(composer.asks)
        self._told = "" if composer.verdict == "incomplete" else composer.verdict
        self.cautioned = self.cautioned or cautions


def _heard_again(told: Sequence[Entry]) -> list[bool]:
    """For each entry whether its reply is needed in words: the last, and what is said again."""
    needed: list[bool] = []
    for place in range(len(told) - 1, -1, -1):
        again = place + 1 < len(told) and needed[-1] and _says_again(told[place + 1])
        needed.append(place == len(told) - 1 or again)
    return needed[::-1]


def _says_again(entry: Entry) -> bool:
    """Whether an utterance asks for the reply before it; one that is none at all does not."""
    told = entry.acts if isinstance(entry.acts, tuple) else ()
    return any(isinstance(act, Ask) and act.about in ("repeat", "slower") for act in told)
