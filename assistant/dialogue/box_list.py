"""The boxes of one job, in memory: opening, naming, copying, deleting, listing them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import field, replace
from typing import Literal, TypeAlias

from boxaloud.assistant.dialogue.begun_boxes import box_meant, nth
from boxaloud.assistant.dialogue.box_dialogue import Talk
from boxaloud.assistant.dialogue.box_names import begun, copied, goes_on, named, numbered, placed
from boxaloud.assistant.dialogue.box_verdict_list import listing
from boxaloud.assistant.dialogue.enclosures.body_state import BodySaid
from boxaloud.assistant.dialogue.journal import Entry
from boxaloud.assistant.dialogue.nlg.sentences import joined, say
from boxaloud.assistant.dialogue.policy.box_status import status
from boxaloud.assistant.dialogue.policy.code_naming import short_caution
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.quick_dataclass import dataclass
from boxaloud.rules.worksheet import Verdict

JournalAction: TypeAlias = Literal["entry", "opened", "renamed", "copied", "removed", "restored"]
"""What a record of the journal is: something said of a box, or what became of it."""


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a box event came to: what is said, and what is to be kept."""

    said: str
    action: JournalAction | None = None
    box: str = ""
    other: str = ""
    edition: str = ""
    """The edition that a new box begins under."""

    @property
    def returned_to(self) -> str:
        """The box told before that is at hand again; empty where none is."""
        return self.box if self.action == "opened" and not self.edition else ""


@dataclass(frozen=True, slots=True)
class Resumed:
    """What is known of a job that is taken up again, besides its journals. All by box name."""

    editions: Mapping[str, str] = field(default_factory=dict)
    """The edition that a box began under, where it is not the job's."""
    verdicts: Mapping[str, Verdict] = field(default_factory=dict)
    """Verdicts that still hold, so that counting boxes need not fold every journal."""
    trail: tuple[str, ...] = ()
    """The boxes that "go back" leads to, the nearest last."""


class Boxes:
    """Talks by name. A journal is folded into a talk when its box is first opened."""

    def __init__(
        self,
        edition: str,
        journals: Mapping[str, Sequence[Entry]],
        current: str,
        resumed: Resumed | None = None,
    ) -> None:
        known = resumed or Resumed()
        self.edition = edition
        self._journals = journals
        self._editions = dict(known.editions)
        self._verdicts = known.verdicts
        self._talks: dict[str, Talk] = {}
        self._names: dict[str, None] = dict.fromkeys(journals)
        self._trail: list[str] = list(known.trail)
        self._names.setdefault(current)
        self._at = current
        self._deleted: list[tuple[str, int, str]] = []

    @property
    def current(self) -> Talk:
        """The talk at hand."""
        return self.talk(self._at)

    @property
    def names(self) -> tuple[str, ...]:
        """The names of all boxes, in the order they were begun."""
        return tuple(self._names)

    def talk(self, name: str) -> Talk:
        """The talk of a box, folded from its journal if need be."""
        if name not in self._talks:
            entries = self._journals.get(name, ())
            self._talks[name] = Talk.fold(entries, self.began_under(name), name)
        return self._talks[name]

    def journal(self, name: str) -> Sequence[Entry]:
        """What was said of a box, without folding it."""
        if name in self._talks:
            return self._talks[name].journal
        return self._journals.get(name, ())

    @property
    def trail(self) -> tuple[str, ...]:
        """The boxes that "go back" leads to, the nearest last."""
        return tuple(self._trail)

    def began_under(self, name: str) -> str:
        """The edition that a box began under, from which its journal is folded."""
        return self._editions.get(name, self.edition)

    def verdict(self, name: str) -> Verdict:
        """The verdict of a box, folding it only where it is not already known."""
        if name not in self._talks and name in self._verdicts:
            return self._verdicts[name]
        return self.talk(name).assessment.verdict

    def event(self, act: Act) -> Outcome:
        """Do what an act about boxes asks for."""
        match act:
            case acts.NextBox():
                return self._next(act.name)
            case acts.OpenBox():
                return self._open(act)
            case acts.CopyBox():
                return self._copy(act)
            case acts.NameBox():
                return self._named(act)
            case acts.DeleteBox():
                return self._delete(act.name)
            case acts.ListBoxes():
                return Outcome(
                    listing({name: self.verdict(name) for name in self._names}, act.only)
                )
        return Outcome(say("job.new_job"))

    def _unused(self) -> str:
        number = len(self._names) + 1
        while f"box {number}" in self._names:
            number += 1
        return f"box {number}"

    def find(self, name: str) -> str | None:
        """The box meant: by its name, the words that it was begun with, or its number."""
        return box_meant(name, self.names, self.talk)

    @property
    def _blank(self) -> bool:
        """True where nothing was said of the box at hand."""
        state = self.current.state
        described = state.items or state.box or state.partial or state.pending or state.pulls
        return not described and state.body == BodySaid()

    @property
    def _untouched(self) -> bool:
        """True where the box at hand has no name of its own, and nothing was said of it."""
        return self._blank and named(self._at) == self._at and self._at.startswith("box ")

    @property
    def _cautioned(self) -> bool:
        """True once the caution was said in this conversation, of whatever box."""
        return any(talk.cautioned for talk in self._talks.values())

    def _go(self, name: str) -> None:
        self._trail.append(self._at)
        self._at = name

    def _next(self, name: str) -> Outcome:
        name = begun(name, self.names)
        if name and name in self._names:
            return self._reopen(name)
        if name and self._untouched:
            return replace(self._rename(name), said=say("job.new_box", name=name))
        said = "job.new_box" if name else "job.new_box_unnamed"
        name = name or self._unused()
        edition = self.current.state.edition
        self._begin(name, edition)
        self._talks[name] = Talk(edition, name)
        self._talks[name].cautioned = self._cautioned
        return Outcome(say(said, name=name), "opened", name, edition=edition)

    def _begin(self, name: str, edition: str) -> None:
        self._names.setdefault(name)
        self._editions[name] = edition
        self._go(name)

    def _reopen(self, found: str) -> Outcome:
        if found != self._at:
            self._go(found)
        return Outcome(say("job.opened", name=found), "opened", found)

    def stands(self, name: str) -> str:
        """Where a box stands, with the caution where it is still to be said."""
        talk = self.talk(name)
        said = [status(talk.state, talk.assessment)]
        if talk.assessment.verdict != "incomplete" and not self._cautioned:
            said.append(short_caution(talk.assessment))
            talk.cautioned = True
        talk.cautioned = self._cautioned
        return joined(said)

    def _open(self, act: acts.OpenBox) -> Outcome:
        last = self.names[-1]
        if act.which == "previous" or (act.which == "last" and last == self._at):
            return self._back()
        name = {"first": self.names[0], "last": last}.get(act.which or "", act.name)
        found = self.find(name)
        if found is None and (begins := nth(name, act.words, len(self._names))) is not None:
            return self._next(begins)
        if found is None:
            return Outcome(say("job.no_box", name=name or "that"))
        return self._reopen(found)

    def _back(self) -> Outcome:
        """The box before: where the talk came from, else the one begun before this."""
        while self._trail and self._trail[-1] not in self._names:
            self._trail.pop()
        if self._trail:
            found = self._trail.pop()
        else:
            place = self.names.index(self._at)
            if not place:
                return Outcome(say("job.none_before"))
            found = self.names[place - 1]
        self._at = found
        return Outcome(say("job.opened", name=found), "opened", found)

    def _copy(self, act: acts.CopyBox) -> Outcome:
        old = copied(act.like, self.names, self._at, self._blank)
        if old is None:
            return Outcome(say("job.no_box", name=act.like))
        here = not act.name and self._blank and old != self._at
        new = self._at if here else numbered(named(act.name.lower())) or self._unused()
        if new in self._names and not here:
            return Outcome(say("job.taken", name=new))
        edition = self.began_under(old)
        cautioned = self._cautioned
        self._talks[new] = Talk.fold(self.talk(old).journal, edition, new)
        self._talks[new].cautioned = cautioned
        if here:
            self._editions[new] = edition
        else:
            self._begin(new, edition)
        return Outcome(say("job.copied", old=old, name=new), "copied", new, old)

    def _named(self, act: acts.NameBox) -> Outcome:
        """ "Call the first box pantry": that one, whichever is at hand."""
        if not act.of:
            another = not self._blank and goes_on(act.words, self._at)
            return self._next(act.name) if another else self._rename(act.name)
        place = placed(act.of, len(self._names))
        if place == len(self._names):
            return self._next(act.name)
        names = [*self.names]
        if act.of.startswith("previous"):
            old = next(reversed(self._trail), None)
        else:
            old = names[place] if place is not None and place < len(names) else self.find(act.of)
        return (
            Outcome(say("job.no_box", name=act.of)) if old is None else self._rename(act.name, old)
        )

    def _rename(self, name: str, old: str = "") -> Outcome:
        old, new = old or self._at, numbered(named(name.lower()))
        if new == old:
            return Outcome(say("job.named", name=new))
        if not new or new in self._names:
            return Outcome(say("job.taken", name=new or "that"))
        talk = self.talk(old)
        talk.name = new
        self._talks[new] = self._talks.pop(old)
        self._names = {new if name == old else name: None for name in self._names}
        self._editions[new] = self._editions.pop(old, self.edition)
        self._trail = [new if step == old else step for step in self._trail]
        self._at = new if self._at == old else self._at
        return Outcome(say("job.named", name=new), "renamed", new, old)

    def _delete(self, name: str) -> Outcome:
        found = self.find(name) if name else self._at
        if found is None:
            return Outcome(say("job.no_box", name=name))
        if len(self._names) == 1:
            return Outcome(say("job.only_box", name=found))
        self.talk(found)
        self._deleted.append((found, self.names.index(found), self._at))
        del self._names[found]
        if self._at == found:
            self._at = next(
                (step for step in reversed(self._trail) if step in self._names), self.names[-1]
            )
        return Outcome(say("job.deleted", name=found), "removed", found)

    def restore(self) -> Outcome | None:
        """Bring the box deleted last back; None where none was."""
        if not self._deleted:
            return None
        name, place, at = self._deleted.pop()
        order = list(self._names)
        order.insert(place, name)
        self._names = dict.fromkeys(order)
        self._at = at
        return Outcome(say("job.restored", name=name), "restored", name)
