"""The talk about one box: utterances in, replies out, with undo and redo.

Pure: no input or output, no clock. The state is the journal folded; the stack of earlier
states that undo goes back to is only a memory of that folding. Folding never fails: an entry
that cannot be folded is set aside, and told, and the rest stands.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from decimal import Decimal

from boxaloud.assistant.dialogue import devices_before, devices_beside, faults, named_devices
from boxaloud.assistant.dialogue.act_handlers import run
from boxaloud.assistant.dialogue.assessment import Assessment, assess
from boxaloud.assistant.dialogue.belief import unread_words
from boxaloud.assistant.dialogue.history import History
from boxaloud.assistant.dialogue.interpretation import moulded_tabs
from boxaloud.assistant.dialogue.journal import Entry
from boxaloud.assistant.dialogue.policy import box_choice
from boxaloud.assistant.dialogue.question_slots import QuestionSlot
from boxaloud.assistant.dialogue.reply import Reply
from boxaloud.assistant.dialogue.reply_composer import Composer
from boxaloud.assistant.dialogue.state import all_but, beginning
from boxaloud.assistant.dialogue.tracker import adopted_edition, proposals_said_over
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar.acts import Act

_LASTING = all_but("mistaken", "box_sought")
"""What an utterance must change to be undone by itself."""


class Talk:
    """One box being talked through."""

    def __init__(self, edition: str, name: str = "") -> None:
        self.name = name
        self.state = beginning(edition)
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

    @classmethod
    def fold(cls, entries: Iterable[Entry], edition: str, name: str = "") -> Talk:
        """The talk that a journal gives. The same journal gives an equal state each time."""
        talk = cls(edition, name)
        for entry in entries:
            talk._fold_one(entry)
        talk.cautioned = False  # what was said while folding nobody heard
        return talk

    def _fold_one(self, entry: Entry) -> None:
        try:
            if self.hear(entry).fault:
                self.aside.append(entry)
        except Exception:
            if faults.raised:
                raise
            self.aside.append(entry)

    @property
    def assessment(self) -> Assessment:
        """Where the box stands now."""
        return assess(self.state)

    def had_volume(self, volume: Decimal) -> bool:
        """Whether the box was marked with so many cubic inches earlier, and is no more."""
        return any(
            getattr(part, "volume", None) == volume
            for step in self._history.past
            for part in step.state.box
        )

    def counted_since(self, count: int) -> int | None:
        """How many there are now of the one thing of which there were `count` before that was
        changed last, else None."""
        now = {item.key: item.content.count for item in self.state.items}
        for step in reversed(self._history.past):
            were = {item.key: item.content.count for item in step.state.items}
            changed = [key for key in were if were[key] != now.get(key)]
            if were == now:
                continue
            alone = were.keys() == now.keys() and [were[key] for key in changed] == [count]
            return now[changed[0]] if alone else None
        return None

    @property
    def not_understood(self) -> str:
        """The words of the last utterance where some weighed and nothing was entered, else none."""
        if not self.journal or self.last is None or self.last.changed:
            return ""
        return self.journal[-1].heard if self.journal[-1].weighty else ""

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
        taken, cautioned = len(self.journal), self.cautioned
        try:
            return self._take(entry)
        except Exception as fault:
            if faults.raised:
                raise
            self._go_back(taken, cautioned)
            return replace(self._take(faults.set_aside(entry)), fault=faults.named(fault))

    def _go_back(self, taken: int, cautioned: bool) -> None:
        """Stand where the first `taken` entries led, which a fault may have left half-way."""
        before = Talk.fold(self.journal[:taken], self._edition, self.name)
        before.cautioned, before.aside = cautioned, self.aside
        vars(self).update(vars(before))

    def _take(self, entry: Entry) -> Reply:
        question = self.assessment.question
        turn = Turn(
            self.state,
            question.slot if question else None,
            question.subject if question else None,
            history=self._history,
            spoken=entry.confidence is not None,
            gaps=bool(entry.unread),
            unread=entry.unread,
            heard=entry.heard,
            box_name=self.name,
        )
        acts_told = adopted_edition.canada_first(entry.acts)
        named_devices.ended(turn, acts_told, self.assessment.verdict != "incomplete")
        run(turn, moulded_tabs.counted(turn, acts_told))
        box_choice.sought_again(turn)
        devices_before.left_on_their_wires(turn)
        devices_beside.landed_beside(turn, acts_told)
        named_devices.settled(turn)
        proposals_said_over.let_go(turn)
        entry = replace(entry, unread=unread_words.explained(turn, entry.unread))
        unread_words.keep(turn, entry.unread)
        self.journal.append(entry)
        changed = _LASTING(turn.state) != _LASTING(turn.base)
        self._history.idle = not changed and not turn.stepped
        if changed:
            told = len(turn.marks)
            self._history.keep_confirmed(turn.base, entry.heard, turn.confirmed, told)
        self.state, self.released = turn.state, tuple(turn.released)
        reply = self._compose(turn, entry)
        self.last = reply
        return reply

    def standing(self, said: str) -> Reply:
        """A reply that says `said` and then where this box stands; nothing is entered."""
        turn = Turn(self.state, self.asks, answers=[said], understood=[said])
        return Composer(self.state, turn, Entry("", ())).compose(0, self._told, self.last, True)

    def _compose(self, turn: Turn, entry: Entry) -> Reply:
        before = self.last.asks if self.last else None
        composer = Composer(self.state, turn, entry)
        stuck = composer.in_vain and (composer.asks == before or composer.nothing)
        self._tries = self._tries + 1 if stuck else 0
        reply = composer.compose(self._tries, self._told, self.last, self.cautioned)
        self._told = "" if reply.verdict == "incomplete" else reply.verdict
        self.cautioned = self.cautioned or any(act.act == "caution" for act in reply.acts)
        return reply
