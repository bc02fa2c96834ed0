"""The conversation of a job: one box after another, each with its own talk.

`Conversation.hear(words) -> Reply` does no input or output and reads no clock. What is to be
kept is handed out by `take_records`; a front end keeps it before it shows the reply.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from boxaloud.assistant.dialogue import faults
from boxaloud.assistant.dialogue.belief import sound_effects, unread_words
from boxaloud.assistant.dialogue.box_dialogue import Talk
from boxaloud.assistant.dialogue.box_list import Boxes, JournalAction, Outcome, Resumed
from boxaloud.assistant.dialogue.confidence import confidence_of, heard_with
from boxaloud.assistant.dialogue.input_check import printable, too_much, unreadable
from boxaloud.assistant.dialogue.interpretation.restarts import continued
from boxaloud.assistant.dialogue.job_acts import EVENTS
from boxaloud.assistant.dialogue.job_acts import told as told_of_boxes
from boxaloud.assistant.dialogue.journal import Entry
from boxaloud.assistant.dialogue.nlg.sentences import listed_doubts, say
from boxaloud.assistant.dialogue.question_slots import QuestionSlot
from boxaloud.assistant.dialogue.reply import Reply, SystemAct, said_of
from boxaloud.grammar import acts, recognise
from boxaloud.grammar.acts import Act, Reference, Unread, Utterance
from boxaloud.grammar.clauses.act_fields import KIND_OF
from boxaloud.grammar.lexer.heard_words import UNHEARD, Word
from boxaloud.grammar.quick_dataclass import dataclass
from boxaloud.grammar.utterance.own_word_refusal import refusal as own_word_refusal
from boxaloud.rules import DEFAULT_EDITION

FIRST_BOX = "box 1"
OUTSIDE = (acts.Alias, acts.NewJob, acts.SendReport, acts.TellProject)
"""Acts that take whoever keeps the jobs."""


@dataclass(frozen=True, slots=True)
class Record:
    """One thing to be kept: an entry said of a box, or what became of a box."""

    action: JournalAction
    box: str
    entry: Entry | None = None
    other: str = ""
    edition: str = ""
    """The edition that a box newly `opened` begins under; empty where it was there before."""


class Conversation:
    """The whole of what a front end needs.

    `boxes` gives the journals of a job that is resumed, by name; a box is folded when it is
    first opened, and `resumed` says what else is known of them. `aliases` are a person's own
    words, "blue box" -> what it means.
    """

    def __init__(
        self,
        edition: str = DEFAULT_EDITION,
        aliases: Mapping[str, str] | None = None,
        boxes: Mapping[str, Sequence[Entry]] | None = None,
        current: str = FIRST_BOX,
        resumed: Resumed | None = None,
    ) -> None:
        self.aliases = {
            say: mean for say, mean in (aliases or {}).items() if not own_word_refusal(say, mean)
        }
        self.boxes = Boxes(edition, boxes or {}, current, resumed)
        self._records: list[Record] = []
        self._deleted_last = False

    @property
    def talk(self) -> Talk:
        """The talk about the box at hand."""
        return self.boxes.current

    @property
    def asks(self) -> QuestionSlot | None:
        """The open question's slot, which an ear may listen for."""
        return self.talk.asks

    def hear(self, words: str | Sequence[Word]) -> Reply:
        """Take what was typed or heard and answer it."""
        lost = False
        if not isinstance(words, str):
            known = [word for word in words if word.text != UNHEARD]
            words, lost = known, len(known) < len(words)
        text = words if isinstance(words, str) else " ".join(word.text for word in words)
        return self._guarded(lambda: self._heard(words, text, lost), Entry(text, ()))

    def enter(self, told: Sequence[Act], heard: str) -> Reply:
        """Take acts made by a key or a click; `heard` puts them in words, to be kept."""
        read = Utterance(heard, tuple(told))
        return self._guarded(lambda: self._utterance(read, None), Entry(heard, ()))

    def _guarded(self, answer: Callable[[], Reply], bare: Entry) -> Reply:
        """An answer; where a fault of ours ends it, the bare words are kept and that is told."""
        try:
            return answer()
        except Exception as fault:
            if faults.raised:
                raise
            reply = self._take(faults.set_aside(bare))
            return replace(reply, fault=faults.named(fault))

    def _heard(self, words: str | Sequence[Word], text: str, lost: bool) -> Reply:
        if problem := unreadable(text):
            return self._take(Entry(printable(text), (), refusal=problem))
        read = recognise(words, self.talk.expects, self.aliases)
        if self.talk.state.unread and isinstance(words, str):
            read = continued(self.talk.state.unread, read, self.asks, self.aliases)
        if not isinstance(words, str) and confidence_of(words) is not None:
            read = heard_with(read, words, self.asks)
            read = sound_effects.up_to_doubt(read, EVENTS)
            read = replace(read, acts=unread_words.beside(read.heard, read.acts, read.unread))
        if lost:
            read = replace(read, unread=(*read.unread, unread_words.unheard(read.heard)))
        if problem := too_much(len(read.acts)):
            return self._take(Entry(read.heard, (), refusal=problem))
        return self._utterance(read, confidence_of(words))

    def take_records(self) -> tuple[Record, ...]:
        """What is to be kept since the last call."""
        taken = tuple(self._records)
        self._records.clear()
        return taken

    def _utterance(self, read: Utterance, confidence: float | None) -> Reply:
        """An utterance is cut at what it says of the boxes: each part is of the box at hand."""
        said: list[SystemAct] = []
        reply: Reply | None = None
        part: list[Act] = []
        start = 0
        told = self._settled(_of_this_job(told_of_boxes(read.heard, read.acts)))
        if not any(isinstance(act, (*EVENTS, acts.Alias)) for act in told if _is_done(act)):
            entry = Entry(read.heard, tuple(told), read.unread, confidence)
            reply = self._released(self._take(entry), read)
            return replace(reply, outside=reply.outside or _outside(told))
        copied = False
        for act in told:
            if not (isinstance(act, (*EVENTS, acts.Alias)) and _is_done(act)):
                part.append(_changed(act) if copied else act)
                continue
            copied = isinstance(act, acts.CopyBox)
            if part or _weighs(read, start, act.span[0]):
                reply = self._part(read, part, (start, act.span[0]), confidence)
                said += _kept_of(reply)
                part = []
            start = act.span[1]
            reply, text = self._event(act, read, confidence)
            said.append(SystemAct("event", text))
        end = len(read.heard)
        behind = bool(part) or _weighs(read, start, end)
        if behind:
            reply = self._part(read, part, (start, end), confidence)
            said += reply.acts
        if reply is None:
            raise ValueError("an utterance with an event has a reply")
        return self._over(reply, said, read, not behind)

    def _released(self, reply: Reply, read: Utterance) -> Reply:
        """The reply after what was confirmed about the boxes of the job is done."""
        said: list[SystemAct] = []
        for act in self.talk.released:
            reply, text = self._event(act, read, reply.confidence)
            said.append(SystemAct("event", text))
        return self._over(reply, said, read, True) if said else reply

    def _settled(self, told: Sequence[Act]) -> list[Act]:
        """ "Undo" right after a box was deleted brings it back; "go back" where there is no
        earlier box steps back within this one."""
        made: list[Act] = []
        for act in told:
            if (
                isinstance(act, acts.OpenBox)
                and act.which == "previous"
                and len(self.boxes.names) < 2
            ):
                act = acts.Undo(words=act.words, span=act.span)
            made.append(act)
        if self._deleted_last and len(made) == 1 and isinstance(made[0], (acts.Undo, acts.Redo)):
            outcome = self.boxes.restore()
            if outcome is not None:
                self._keep(outcome)
                made = [acts.ListBoxes(words=outcome.said, span=made[0].span)]
        self._deleted_last = False
        return made

    def _part(
        self, read: Utterance, part: Sequence[Act], span: tuple[int, int], confidence: float | None
    ) -> Reply:
        """The part of an utterance that is of the box at hand."""
        words = read.heard[span[0] : span[1]].strip(" ,.;:") or read.heard
        inside = tuple(run for run in read.unread if span[0] <= run.span[0] < span[1])
        runs = tuple(Unread(run.words, run.span, run.weighty) for run in inside)
        return self._take(Entry(words, tuple(part), runs, confidence))

    def _take(self, entry: Entry) -> Reply:
        box = self.talk.name or FIRST_BOX
        reply = self.talk.hear(entry)
        self._records.append(Record("entry", self.talk.name or box, self.talk.journal[-1]))
        return reply

    def _event(self, act: Act, read: Utterance, confidence: float | None) -> tuple[Reply, str]:
        if isinstance(act, acts.Alias):
            return self.talk.standing(""), self._own_word(act)
        if isinstance(act, acts.ListBoxes) and act.words.endswith(" is back."):
            return self.talk.standing(""), act.words
        box = self.talk.name
        self._records.append(Record("entry", box, Entry(act.words, (), (), confidence)))
        outcome = self.boxes.event(act)
        self._keep(outcome)
        self._deleted_last = isinstance(act, acts.DeleteBox) and bool(outcome.action)
        return self.talk.standing(""), outcome.said

    def _own_word(self, act: acts.Alias) -> str:
        """What is said of an own word: that it is taken, or why it is not."""
        why = own_word_refusal(act.say, act.mean)
        if not why:
            self.aliases[act.say.strip().lower()] = act.mean.strip()
        return say(f"alias.{why or 'kept'}", say=act.say, mean=act.mean)

    def _keep(self, outcome: Outcome) -> None:
        if outcome.action:
            self._records.append(
                Record(outcome.action, outcome.box, None, outcome.other, outcome.edition)
            )

    def _over(
        self, reply: Reply, said: Sequence[SystemAct], read: Utterance, standing: bool
    ) -> Reply:
        """The reply with all that was said of the boxes, standing on the box now at hand."""
        made = [one for one in said if one.says]
        if standing:
            made += [one for one in reply.acts if one.act == "question"]
        new = replace(
            reply,
            heard=read.heard,
            understood=tuple(act.words for act in read.acts if act.words),
            left_over=tuple(run.words for run in read.weighty) + _of_another(read.acts),
            acts=tuple(made),
            said=said_of(made),
            slow=False,
            changed=True,
            event=True,
            outside=_outside(read.acts),
        )
        self.talk.last = new
        return new


def _kept_of(reply: Reply) -> list[SystemAct]:
    """What is said of a part before a box event: no question, but words left unread are told."""
    made = [one for one in reply.acts if one.act not in ("question", "caution")]
    if reply.asks == "unread" and reply.left_over:
        left = listed_doubts(reply.left_over)
        made.append(SystemAct("echo", say("left_over", words=left)))
    return made


def _is_done(act: Act) -> bool:
    """False for what waits for a yes: the box at hand holds it until then."""
    return not sound_effects.is_asked_first(act)


def _weighs(read: Utterance, start: int, end: int) -> bool:
    """True where words that weigh were left unread in a part of an utterance."""
    return any(start <= run.span[0] < end for run in read.weighty)


def _changed(act: Act) -> Act:
    """ "Same but with 14s", "same as the den but a dimmer": what differs from the box copied."""
    if isinstance(act, acts.Size) and act.awg is not None:
        everything = Reference("anything", which="all", words=act.words)
        return acts.Resize(target=everything, awg=act.awg, words=act.words, span=act.span)
    if isinstance(act, tuple(KIND_OF)):
        return acts.Restate(thing=act, words=act.words, span=act.span, doubts=act.doubts)  # type: ignore[arg-type]
    return act


def _of_this_job(told: Sequence[Act]) -> Sequence[Act]:
    """The acts up to a new job: what is said after it is of that job's first box."""
    new = next((at for at, act in enumerate(told) if isinstance(act, acts.NewJob)), len(told))
    return told[: new + 1]


def _outside(told: Sequence[Act]) -> tuple[Act, ...]:
    """What of an utterance takes whoever keeps the jobs."""
    return tuple(act for act in told if isinstance(act, OUTSIDE))


def _of_another(told: Sequence[Act]) -> tuple[str, ...]:
    """What was said after a new job, and is not used here."""
    return tuple(act.words for act in told[len(_of_this_job(told)) :] if act.words)


__all__ = ["EVENTS", "FIRST_BOX", "Conversation", "Record"]
