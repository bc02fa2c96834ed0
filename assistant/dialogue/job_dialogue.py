"""The talk about the boxes of a job: what was read becomes entries of the box at hand, and
events of the job."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace
from decimal import Decimal

from boxaloud.assistant.dialogue.box_asked import Waiting, box_or_thing, held, tells
from boxaloud.assistant.dialogue.box_dialogue import Talk
from boxaloud.assistant.dialogue.box_list import Boxes, JournalAction, Outcome, Resumed
from boxaloud.assistant.dialogue.job_acts import EVENTS
from boxaloud.assistant.dialogue.job_acts import told as told_of_boxes
from boxaloud.assistant.dialogue.journal import Entry
from boxaloud.assistant.dialogue.nlg.sentences import say
from boxaloud.assistant.dialogue.reply import Reply, SystemAct, said_of
from boxaloud.assistant.dialogue.utterance_parts import (
    behind,
    changed,
    is_done,
    kept_of,
    of_another,
    of_this_job,
    outside,
    weighs,
)
from boxaloud.grammar import acts, grammar_data
from boxaloud.grammar.acts import Act, Unread, Utterance
from boxaloud.grammar.lexer import numbers
from boxaloud.grammar.quick_dataclass import dataclass
from boxaloud.grammar.utterance.own_word_refusal import refusal as own_word_refusal

FIRST_BOX = "box 1"


@dataclass(frozen=True, slots=True)
class Record:
    """One thing to be kept: an entry said of a box, or what became of a box."""

    action: JournalAction
    box: str
    entry: Entry | None = None
    other: str = ""
    edition: str = ""
    """The edition that a box newly `opened` begins under; empty where it was there before."""


#: "Back to the last box" is of no step within this one.
_OF_A_BOX = re.compile(r"(?i)\b(?:box|room|job|(?:last|previous|other|first) one)\b")
_AWAY = frozenset(grammar_data.table("whereabouts")["leading_away"]["places"])
"""Places that no box is in: "back to the truck" names none."""


class JobDialogue:
    """The boxes of a job, which of them is at hand, and what waits to be kept."""

    def __init__(
        self,
        edition: str,
        aliases: Mapping[str, str] | None,
        boxes: Mapping[str, Sequence[Entry]] | None,
        current: str,
        resumed: Resumed | None,
    ) -> None:
        self.aliases = {
            say: mean for say, mean in (aliases or {}).items() if not own_word_refusal(say, mean)
        }
        self.boxes = Boxes(edition, boxes or {}, current, resumed)
        self._records: list[Record] = []
        self._deleted_last = False
        self._returned_to = ""
        self._waiting: Waiting | None = None

    @property
    def talk(self) -> Talk:
        """The talk about the box at hand."""
        return self.boxes.current

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
        told = self._settled(of_this_job(told_of_boxes(read.heard, read.acts)))
        if not any(isinstance(act, (*EVENTS, acts.Alias)) for act in told if is_done(act)):
            open_what = box_or_thing(self.talk, told)
            entry = Entry(read.heard, tuple(told), read.unread, confidence)
            entry = held(read, confidence) if open_what else entry
            reply = self._released(self._take(entry), read)
            beyond = () if reply.outside else outside(told)
            return replace(reply, outside=beyond) if beyond else reply
        copied = False
        for act in told:
            if not (isinstance(act, (*EVENTS, acts.Alias)) and is_done(act)):
                part.append(changed(act, read.heard) if copied else act)
                continue
            copied = isinstance(act, acts.CopyBox)
            if part or weighs(read, start, act.span[0]):
                reply = self._part(read, part, (start, act.span[0]), confidence)
                said += kept_of(reply)
                part = []
            start = act.span[1]
            reply, text = self._event(act, read, confidence)
            said.append(SystemAct("event", text))
            if self._is_unknown(act):
                return self._unknown(act, read, said, confidence)
        end = len(read.heard)
        more = bool(part) or weighs(read, start, end)
        if more:
            reply = self._part(read, part, (start, end), confidence)
            said += reply.acts
        if reply is None:
            raise ValueError("an utterance with an event has a reply")
        return self._over(reply, said, read, not more)

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
                and _OF_A_BOX.search(act.words) is None
            ):
                act = acts.Undo(words=act.words, span=act.span)
            made.append(self._count_again(self._volume_again(act)))
        if self._deleted_last and len(made) == 1 and isinstance(made[0], (acts.Undo, acts.Redo)):
            outcome = self.boxes.restore()
            if outcome is not None:
                self._keep(outcome)
                made = [acts.ListBoxes(words=outcome.said, span=made[0].span)]
        self._deleted_last = False
        return made

    def _volume_again(self, act: Act) -> Act:
        """ "Go back to the 18", where no box is called so and this one had that volume before."""
        number = act.name if isinstance(act, acts.OpenBox) else ""
        if not number.replace(".", "").isdigit() or self.boxes.find(number) is not None:
            return act
        if not self.talk.had_volume(volume := Decimal(number)):
            return act
        return acts.SetVolume(volume=volume, words=act.words, span=act.span, function="correction")

    def _count_again(self, act: Act) -> Act:
        """ "Back to 6", behind "make that 7" or one more of them, where no box is called so: that
        many again."""
        number = act.name if isinstance(act, acts.OpenBox) else ""
        value = numbers.value(tuple(number.split())) if number else None
        before = self.talk.journal[-1].acts if self.talk.journal else ()
        if value is None or value != int(value) or self.boxes.find(number) is not None:
            return act
        now = self.talk.counted_since(int(value))
        told = len(before) == 1 and isinstance(before[0], (acts.RestateNumber, acts.Recount))
        if now is None and not told:
            return act
        return acts.RestateNumber(
            value=Decimal(int(value)), instead_of=None if now is None else Decimal(now),
            words=act.words, span=act.span, function="correction",
        )  # fmt: skip

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
        self._returned_to = outcome.returned_to
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
        """The reply with all that was said of the boxes, standing on the box now at hand; where a
        box that was returned to stands is told unless more was told of it at once."""
        made = [one for one in said if one.says]
        returned, self._returned_to = self._returned_to, ""
        if standing and returned:
            made.append(SystemAct("event", self.boxes.stands(returned)))
        if standing:
            made += [one for one in reply.acts if one.act == "question"]
        new = replace(
            reply,
            heard=read.heard,
            understood=tuple(act.words for act in read.acts if act.words),
            left_over=tuple(run.words for run in read.weighty) + of_another(read.acts),
            acts=tuple(made),
            said=said_of(made),
            slow=False,
            changed=True,
            event=True,
            outside=outside(read.acts),
        )
        self.talk.last = new
        return new

    def _is_unknown(self, act: Act) -> bool:
        """Whether an act is of a box that is not in this job, where there are several."""
        name = act.name if isinstance(act, acts.OpenBox) else ""
        name = act.like if isinstance(act, acts.CopyBox) else name
        return bool(name) and len(self.boxes.names) > 1 and self.boxes.find(name) is None

    def _unknown(
        self, act: Act, read: Utterance, said: list[SystemAct], confidence: float | None
    ) -> Reply:
        """The reply where no box has the name that was said: what is said of it is held."""
        rest = behind(read, act.span[1])
        elsewhere = not tells(rest) and not _AWAY.isdisjoint(getattr(act, "name", "").split())
        if isinstance(act, acts.OpenBox) and not elsewhere:
            return self._wait(Waiting(act.name), rest, said, read, confidence)
        if not tells(rest):
            return self._over(self.talk.standing(""), said, read, True)
        reply = self._take(held(rest, confidence))
        return self._over(reply, [*said, *reply.acts], read, False)

    def _wait(
        self,
        waiting: Waiting,
        rest: Utterance,
        said: Sequence[SystemAct],
        read: Utterance,
        confidence: float | None,
    ) -> Reply:
        """The reply that asks which box is meant; `rest` waits for it."""
        made, reply = list(said), None
        if tells(rest):
            waiting = waiting.and_also(rest, confidence)
            reply = self._take(held(rest, confidence))
            made.append(SystemAct("event", say("job.waits", words=rest.heard)))
        self._waiting = waiting
        made.append(SystemAct("question", waiting.question(self.boxes.names)))
        return self._over(reply or self.talk.standing(""), made, read, False)
