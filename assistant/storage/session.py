"""A conversation that is kept: words in, the entry on the disk, then the reply out.

Every front end holds a `Session` where it would hold a `Conversation`. What cannot be kept
does not stop the talk: it goes on in memory and says so.
"""

from __future__ import annotations

import contextlib
from collections.abc import Callable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import cast

from boxaloud.assistant.dialogue import Conversation, Entry, Record, Reply, Resumed, faults
from boxaloud.assistant.dialogue.box_dialogue import Talk
from boxaloud.assistant.dialogue.conversation import FIRST_BOX
from boxaloud.assistant.dialogue.question_slots import QuestionSlot
from boxaloud.assistant.dialogue.reply import SystemAct
from boxaloud.assistant.storage import alias_file, repository
from boxaloud.assistant.storage.clock import now
from boxaloud.assistant.storage.journal_writer import Keeper
from boxaloud.assistant.storage.pictures import by_box
from boxaloud.assistant.storage.replay import Job, replay
from boxaloud.assistant.storage.rules_fingerprint import works
from boxaloud.assistant.storage.said_of_jobs import edition_of, words_after
from boxaloud.assistant.storage.session_notes import (
    of_changed_verdicts,
    of_own_words,
    of_set_aside,
)
from boxaloud.assistant.storage.sqlite.about_table import About
from boxaloud.assistant.storage.sqlite.journal_rows import Row, rows_of
from boxaloud.assistant.storage.sqlite.picture_table import Picture
from boxaloud.assistant.storage.sqlite.remembered_verdicts import Standing
from boxaloud.assistant.storage.sqlite.storage_errors import Moved, NotKept
from boxaloud.assistant.storage.storage_messages import how_many, say
from boxaloud.assistant.storage.told_project import described
from boxaloud.assistant.text.problem import Problem
from boxaloud.grammar.acts import Act, Alias, NewJob, TellProject
from boxaloud.grammar.lexer.heard_words import Word
from boxaloud.grammar.lexer.tokens import join
from boxaloud.rules.units import VolumeUnit
from boxaloud.rules.worksheet import Verdict

TRIES = 50


class Session:
    """A job being talked through. Use `open`, `start` or `open_or_start`, and `close` it."""

    def __init__(self, keeper: Keeper) -> None:
        self._keeper = keeper
        self._job = Job()
        self.conversation = self._fold()

    @classmethod
    def open(cls, name: str = "") -> Session:
        """Take up a job, the one last spoken to where `name` is empty.

        Raises Problem, in a sentence, where there is no such job or it cannot be read.
        """
        return cls.open_at(repository.find(name))

    @classmethod
    def open_at(cls, place: repository.Place) -> Session:
        """Take up the job at a place. Raises Problem as `open` does."""
        file, damage = repository.open_file(place)
        keeper = Keeper(file.path, file.about, file)
        if damage:
            keeper.notes.append(damage)
        return cls(keeper)

    @classmethod
    def start(cls, name: str, edition: str = "", units: VolumeUnit = "in3") -> Session:
        """A new job. Where it cannot be kept it goes on in memory, and says so."""
        about = About(repository.new_name(name), edition_of(edition), units, now())
        odd = [str(each) for each in repository.odd_entries() if repository.may_be(each, name)]
        try:
            file = repository.start(about)
        except NotKept as trouble:
            keeper = Keeper(repository.path_for(name), about, None, trouble.clause)
            keeper.notes.append(say("keeping.never", trouble=trouble.clause, job=name))
            return cls(keeper)
        keeper = Keeper(file.path, about, file)
        keeper.notes += [f"{each} {say('shelf.beside', path=file.path)}" for each in odd]
        return cls(keeper)

    @classmethod
    def open_or_start(cls, name: str, edition: str = "") -> Session:
        """The job of exactly this name, started where there is none yet."""
        if not repository.is_taken(name):
            with contextlib.suppress(repository.Taken):
                return cls.start(name, edition)
        return cls.open(name)

    @property
    def name(self) -> str:
        """The job's name."""
        return self._keeper.about.name

    @property
    def about(self) -> About:
        """The job's name, edition, units and when it was begun."""
        return self._keeper.about

    @property
    def kept(self) -> bool:
        """False while what is said is held in memory only."""
        return not self._keeper.trouble

    @property
    def path(self) -> Path:
        """The job's file."""
        return self._keeper.path

    @property
    def rows(self) -> tuple[Row, ...]:
        """Every row of the job, in order, kept or not."""
        return tuple(self._keeper.rows)

    @property
    def talk(self) -> Talk:
        """The talk about the box at hand."""
        return self.conversation.talk

    @property
    def asks(self) -> QuestionSlot | None:
        """The open question's slot."""
        return self.conversation.asks

    @property
    def job(self) -> Job:
        """The job's rows replayed."""
        return self._job

    @property
    def pictures(self) -> dict[str, list[Picture]]:
        """The pictures of each box by its name; none while the job is held in memory only."""
        file = self._keeper.file
        return {} if file is None else by_box(file.pictures()[0], self._keeper.rows)

    def take_notes(self) -> tuple[str, ...]:
        """What is to be told first, for a front end that hears no words."""
        self._keeper.notes += of_own_words()
        self._tell_changes()
        self._keeper.notes += of_set_aside(self.talk)
        notes, self._keeper.notes = tuple(self._keeper.notes), []
        return notes

    def resume(self) -> Reply:
        """What to say first: which job and box this is, and the question that is open."""
        job = self._job
        self._keeper.notes += of_own_words()
        if not job.texts:
            ask = say("job.first")
            text = say("job.started", job=self.name, edition=self.about.edition, ask=ask)
            return self._noted(self.talk.standing(text).saying((SystemAct("answer", text),)))
        self._tell_changes()
        count = how_many(len(self.conversation.boxes.names), "box")
        text = say("job.resumed", job=self.name, count=count, box=self.talk.name)
        return self._noted(self.talk.standing(text))

    def hear(self, words: str | Sequence[Word]) -> Reply:
        """Take what was typed or heard, keep it, then answer it."""
        heard = words if isinstance(words, str) else join(words)[0]
        reply = self._take(lambda: self.conversation.hear(words), heard)
        for act in reply.outside:
            if isinstance(act, NewJob):
                return self._begin(act, reply, words)
            if isinstance(act, TellProject):
                return described(self._keeper, act, reply)
        return reply

    def enter(self, told: Sequence[Act], heard: str) -> Reply:
        """Take what a key or a click said, keep it, then answer it."""
        return self._take(lambda: self.conversation.enter(told, heard), heard)

    def refresh(self) -> None:
        """Take in what other front ends wrote meanwhile."""
        if self._keeper.catch_up():
            self._refold()

    def _take(self, ask: Callable[[], Reply], heard: str) -> Reply:
        for _ in range(TRIES):
            self.refresh()
            reply = self._answer(ask, heard)
            try:
                self._keep(self.conversation.take_records())
            except Moved:
                self._keeper.catch_up()
                self._refold()
                continue
            if any(isinstance(act, Alias) for act in reply.outside):
                alias_file.write(self.conversation.aliases)
            return self._noted(reply)
        raise Problem(say("trouble.busy", path=self._keeper.path) + ".")

    def close(self) -> None:
        """Let go of the job's file."""
        self._keeper.close()

    def _answer(self, ask: Callable[[], Reply], heard: str) -> Reply:
        try:
            return ask()
        except Exception as fault:
            # a fault of ours must not lose what was said: the bare words are kept, and the
            # box stands as it did before them
            self.conversation.take_records()
            box = self.talk.name
            self._refold()
            self._keep((Record("entry", box, faults.set_aside(Entry(heard, ()))),))
            self._refold()
            if faults.raised:
                raise
            return self._after_fault(heard, fault)

    def _after_fault(self, heard: str, fault: Exception) -> Reply:
        """What is said once words were set aside: the reply that folding them gives."""
        last = self.talk.last or self.talk.standing("")
        return replace(last, heard=heard, fault=faults.named(fault))

    def _keep(self, records: Sequence[Record]) -> None:
        rows = rows_of(records, self._keeper.end, now())
        boxes = self.conversation.boxes
        touched = {record.box for record in records} & set(boxes.names)
        verdicts = {box: boxes.verdict(box) for box in touched}
        self._keeper.keep(rows, Standing(verdicts, works()))
        self._take_new_rows()

    def _take_new_rows(self) -> None:
        for row in self._keeper.rows[self._job.rows :]:
            self._job.take(row)

    def _begin(self, act: NewJob, reply: Reply, words: str | Sequence[Word]) -> Reply:
        """Begin another job; what is said behind that is of its first box."""
        other = Session.start(repository.unused_name(act.name or "job"), self.talk.state.edition)
        self._keeper.close()
        self._keeper, self._job = other._keeper, other._job
        self.conversation = other.conversation
        first = replace(
            other.resume(),
            heard=reply.heard,
            confidence=reply.confidence,
            understood=reply.understood,
            changed=True,
            event=True,
            outside=reply.outside,
        )
        rest = words_after(words if not isinstance(words, str) else reply.heard, act.span[1])
        if not rest:
            return first
        told = self.hear(rest)
        return replace(told.saying((*first.acts, *told.acts)), heard=reply.heard, event=True)

    def _noted(self, reply: Reply) -> Reply:
        """The reply, with what has to be told about keeping in front of it."""
        self._keeper.notes += of_set_aside(self.talk)
        notes = self._keeper.notes
        if not notes and self._keeper.trouble:
            notes = [say("keeping.not_kept")]
        if not notes:
            return reply
        self._keeper.notes = []
        return reply.saying((*(SystemAct("event", note) for note in notes), *reply.acts))

    def _tell_changes(self) -> None:
        """Note where a box stands otherwise than it was remembered to under earlier rules or an
        earlier form of its entries, which are folded anew."""
        before = self._job.standing(self._keeper.remembered_before())
        if not before:
            return
        boxes = self.conversation.boxes
        now = {box: boxes.verdict(box) for box in before}
        self._keeper.remember(Standing(now, works()), self._job.last)
        self._keeper.notes += of_changed_verdicts(before, now)

    def _refold(self) -> None:
        """Fold again from the rows, staying at the box at hand, wherever its name went."""
        at, trail = self.talk.name, self.conversation.boxes.trail
        for row in self._keeper.rows[self._job.rows :]:
            at = row.box if row.action == "renamed" and row.other == at else at
        self.conversation = self._fold(at, trail)

    def _fold(self, at: str = "", trail: tuple[str, ...] | None = None) -> Conversation:
        self._job = job = replay(self._keeper.rows)
        known = cast(dict[str, Verdict], job.standing(self._keeper.remembered()))
        way_back = job.trail if trail is None else [name for name in trail if name in job.texts]
        current = at if at in job.texts else job.current
        return Conversation(
            self._keeper.about.edition,
            alias_file.read(),
            job.journals,
            current or FIRST_BOX,
            Resumed(job.editions, known, tuple(way_back)),
        )
