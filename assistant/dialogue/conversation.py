"""The conversation of a job: one box after another, each with its own talk.

`Conversation.hear(words) -> Reply` does no input or output and reads no clock. What is to be
kept is handed out by `take_records`; a front end keeps it before it shows the reply.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from boxaloud.assistant.dialogue import faults
from boxaloud.assistant.dialogue.belief import off_topic, sound_effects, unread_words
from boxaloud.assistant.dialogue.box_asked import Answer, Waiting, released, tells
from boxaloud.assistant.dialogue.box_list import Resumed
from boxaloud.assistant.dialogue.box_mentions import (
    asked_of,
    asked_of_none,
    mentioned,
)
from boxaloud.assistant.dialogue.box_names import addressed
from boxaloud.assistant.dialogue.boxes_beside import compared
from boxaloud.assistant.dialogue.boxes_beside import told as told_beside
from boxaloud.assistant.dialogue.boxes_by_contents import called_by_contents
from boxaloud.assistant.dialogue.confidence import confidence_of, heard_with
from boxaloud.assistant.dialogue.input_check import printable, too_much, unreadable
from boxaloud.assistant.dialogue.interpretation.by_the_box import by_the_box
from boxaloud.assistant.dialogue.interpretation.restarts import continued, of_the_unread
from boxaloud.assistant.dialogue.interpretation.withdrawn import withdrawn_at_once
from boxaloud.assistant.dialogue.job_acts import EVENTS
from boxaloud.assistant.dialogue.job_dialogue import FIRST_BOX, JobDialogue, Record
from boxaloud.assistant.dialogue.journal import Entry
from boxaloud.assistant.dialogue.nlg.sentences import say
from boxaloud.assistant.dialogue.question_slots import QuestionSlot
from boxaloud.assistant.dialogue.reply import Reply, SystemAct
from boxaloud.assistant.dialogue.utterance_parts import led_by, perhaps_in_all
from boxaloud.grammar import acts, recognise
from boxaloud.grammar.acts import Act, Utterance
from boxaloud.grammar.lexer.heard_words import UNHEARD, Word
from boxaloud.grammar.utterance.mentioned_boxes import Mention, counts_in
from boxaloud.rules import DEFAULT_EDITION


class Conversation(JobDialogue):
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
        super().__init__(edition, aliases, boxes, current, resumed)

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
        self._waiting = None
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
        names, at = self.boxes.names, self.talk.name or FIRST_BOX
        if self._waiting and (answer := self._waiting.answered(text, names, at)):
            return self._found(self._waiting, answer, text, confidence_of(words))
        if beside := compared(text, names, at):
            return self._beside(beside, text)
        if (told := self._asked_of_another(text)) is not None:
            return told
        read = self._addressed(words, text) or self._read(words, text)
        if self.talk.state.unread and isinstance(words, str):
            read = continued(self.talk.state.unread, read, self.asks, self.aliases)
        if self.talk.state.unread and (last := self.talk.not_understood):
            read = of_the_unread(read, last)
        sheet = self.talk.assessment.sheet
        read = by_the_box(read, self.talk.journal, self.talk.state, sheet)
        if self.talk.state.pulls is None and self.talk.assessment.by_volume:
            asked = self.asks not in (None, "contents", "box")
            read = off_topic.sifted(read, bool(self.talk.state.items), asked)
        if not isinstance(words, str) and confidence_of(words) is not None:
            before = self.talk.journal[-1] if self.talk.journal else None
            read = heard_with(read, words, self.asks, before)
            read = sound_effects.up_to_doubt(read, EVENTS)
            read = replace(read, acts=unread_words.beside(read.heard, read.acts, read.unread))
        if lost:
            read = replace(read, unread=(*read.unread, unread_words.unheard(read.heard)))
        if problem := too_much(len(read.acts)):
            return self._take(Entry(read.heard, (), refusal=problem))
        return self._of_some_box(read, confidence_of(words))

    def _read(self, words: str | Sequence[Word], text: str) -> Utterance:
        """What is said of the box at hand, without what is withdrawn in the same breath."""
        expects, capacity = self.talk.expects, self.talk.assessment.sheet.capacity
        return withdrawn_at_once(
            words,
            text,
            self.talk.state,
            capacity,
            lambda part: recognise(part, None if part is not words else expects, self.aliases),
        ) or recognise(words, expects, self.aliases)

    def _addressed(self, words: str | Sequence[Word], heard: str) -> Utterance | None:
        """What was said of a box that is named before it: "top of the stairs. I ripped …"."""
        mention = mentioned(heard, self.boxes.names, self.talk.name or FIRST_BOX)
        if mention is not None:
            return self._of_another(mention, words, heard)
        found = addressed(heard, self.boxes.names)
        if found is not None and found[0] == self.talk.name and found[1] == len(heard):
            return None
        found = found or called_by_contents(heard, self.boxes.names, self.boxes.talk)
        if found is None:
            return None
        name, end = found
        rest = heard[end:] if isinstance(words, str) else words[len(heard[:end].split()) :]
        read = recognise(rest, self.boxes.talk(name).expects, self.aliases)
        start = end + max(0, heard[end:].find(read.heard))
        return led_by(acts.OpenBox(name=name, words=name, span=(0, end)), read, heard, start)

    def _of_another(
        self, mention: Mention, words: str | Sequence[Word], heard: str
    ) -> Utterance | None:
        """ "Add a 14-2 to the den box": what is said without the name, of that box."""
        rest: str | Sequence[Word] = heard[: mention.start] + mention.instead + heard[mention.end :]
        if not isinstance(words, str):
            first = len(heard[: mention.start].split())
            rest = [
                *words[:first],
                *words[first + len(heard[mention.start : mention.end].split()) :],
            ]
        read = recognise(rest, self.boxes.talk(mention.name).expects, self.aliases)
        if not tells(read):
            return None
        if counts_in(mention, heard):
            read = replace(read, acts=tuple(map(perhaps_in_all, read.acts)))
        if mention.name == self.talk.name:
            return replace(read, heard=heard)
        return led_by(acts.OpenBox(name=mention.name, words=mention.name), read, read.heard, 0)

    def _asked_of_another(self, heard: str) -> Reply | None:
        """ "Is the den over?": where that box stands, while this one stays at hand; None where it
        is asked of other things."""
        names = self.boxes.names
        mention = asked_of(heard, names, self.talk.name or FIRST_BOX)
        of_none = asked_of_none(heard, names) if mention is None else None
        about = mention or of_none
        if about is None:
            return None
        rest = f"{heard[: about.start]}{about.instead}it{heard[about.end :]}"
        expects = self.boxes.talk(mention.name).expects if mention else None
        read = recognise(rest, expects, self.aliases)
        if not read.acts or not all(isinstance(act, acts.Ask) for act in read.acts):
            return None
        if mention:
            stands = self.boxes.stands(mention.name)
            text = say("job.stands", name=mention.name, status=stands)
        else:
            text = say("job.no_box", name=about.name)
        self._records.append(Record("entry", self.talk.name or FIRST_BOX, Entry(heard, ())))
        told = SystemAct("answer", text)
        return self._over(self.talk.standing(""), [told], replace(read, heard=heard), True)

    def _beside(self, names: Sequence[str], heard: str) -> Reply:
        """Boxes compared: what is left of each, while this one stays at hand."""
        self._records.append(Record("entry", self.talk.name or FIRST_BOX, Entry(heard, ())))
        found = {name: self.boxes.talk(name).assessment for name in names}
        told = SystemAct("answer", told_beside(found))
        return self._over(self.talk.standing(""), [told], Utterance(heard, ()), True)

    def _of_some_box(self, read: Utterance, confidence: float | None) -> Reply:
        """What was said, of the box at hand; while it is asked which box is meant, it waits."""
        if self._waiting is None:
            return self._utterance(read, confidence)
        if not any(isinstance(act, EVENTS) for act in read.acts) and tells(read):
            still = SystemAct("event", say("job.still_waits"))
            return self._wait(self._waiting, read, [still], read, confidence)
        before, asking = self.talk.state, self._waiting
        reply = self._utterance(read, confidence)
        if self.talk.state != before and self._waiting is asking:
            self._waiting = None
        return reply

    def _found(
        self, waiting: Waiting, answer: Answer, heard: str, confidence: float | None
    ) -> Reply:
        """The reply once it is known which box is meant: it takes what waited."""
        self._waiting = None
        if waiting.parts:
            self._take(released(heard, waiting))
        reply = self.talk.standing("")
        said: list[SystemAct] = []
        read = Utterance(heard, (answer.act(heard),))
        if answer.kind == "dropped":
            said.append(SystemAct("event", say("job.dropped", name=waiting.name)))
        elif answer.name != self.talk.name:
            reply, text = self._event(read.acts[0], read, confidence)
            said.append(SystemAct("event", text))
        elif not waiting.parts:  # the box at hand, of which nothing waits
            here = self.talk.name or FIRST_BOX
            status = self.boxes.stands(here)
            said.append(SystemAct("event", say("job.stands", name=here, status=status)))
        for part, sure in waiting.parts if answer.kind != "dropped" else ():
            reply = self._utterance(part, sure)
            said += reply.acts
        return self._over(reply, said, read, not waiting.parts)


__all__ = ["EVENTS", "FIRST_BOX", "Conversation", "Record"]
