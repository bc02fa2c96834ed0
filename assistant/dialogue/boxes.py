"""The boxes of one job, in memory: opening, naming, copying, counting them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace

from assistant.dialogue.journal import Entry
from assistant.dialogue.saying import counted, listed, say
from assistant.dialogue.status import status
from assistant.dialogue.talk import Talk
from rules.worksheet import Verdict


@dataclass(frozen=True, slots=True)
class Outcome:
    """What a box event came to: what is said, and what is to be kept."""

    said: str
    action: str = ""
    box: str = ""
    other: str = ""
    edition: str = ""
    """The edition that a new box begins under."""


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

    def event(self, kind: str, detail: str) -> Outcome:
        """Do what a statement about boxes asks for."""
        name = detail.strip()
        match kind:
            case "next_box":
                return self._next(name)
            case "open_box":
                return self._open(name)
            case "go_back":
                return self._open(self._trail[-1] if self._trail else "", back=True)
            case "copy_box":
                return self._copy(name)
            case "name_box":
                return self._rename(name)
            case "list_boxes":
                return Outcome(self._summary())
        return Outcome(say("job.new_job"))

    def _unused(self) -> str:
        number = len(self._names) + 1
        while f"box {number}" in self._names:
            number += 1
        return f"box {number}"

    def _find(self, name: str) -> str | None:
        """The box meant: by its whole name, else by the only one whose name holds it."""
        wanted = name.lower()
        for known in (wanted, wanted.removesuffix(" box"), _named(wanted)):
            if known in self._names:
                return known
        part = _named(wanted.removesuffix(" box"))
        close = [known for known in self._names if part and part in known]
        return close[0] if len(close) == 1 else None

    @property
    def _untouched(self) -> bool:
        """True where the box at hand has no name of its own, and nothing was said of it."""
        state = self.current.state
        blank = not (state.items or state.box or state.partial or state.pending)
        return blank and _named(self._at) == self._at and self._at.startswith("box ")

    def _go(self, name: str) -> None:
        self._trail.append(self._at)
        self._at = name

    def _next(self, name: str) -> Outcome:
        name = _named(name.lower())
        if name and name not in self._names and self._untouched:
            return replace(self._rename(name), said=say("job.new_box", name=name))
        name = name or self._unused()
        if name in self._names:
            return Outcome(say("job.taken", name=name))
        edition = self.current.state.edition
        self._begin(name, edition)
        self._talks[name] = Talk(edition, name)
        return Outcome(say("job.new_box", name=name), "opened", name, edition=edition)

    def _begin(self, name: str, edition: str) -> None:
        self._names.setdefault(name)
        self._editions[name] = edition
        self._go(name)

    def _open(self, name: str, back: bool = False) -> Outcome:
        found = self._find(name)
        if found is None:
            return Outcome(say("job.no_box", name=name or "that"))
        if back:
            self._trail.pop()
            self._at = found
        else:
            self._go(found)
        standing = status(self.current.state, self.current.assessment)
        return Outcome(f"{say('job.opened', name=found)} {standing}".strip(), "opened", found)

    def _copy(self, name: str) -> Outcome:
        old = self._at
        new = _named(name.lower()) or self._unused()
        if new in self._names:
            return Outcome(say("job.taken", name=new))
        edition = self.began_under(old)
        self._talks[new] = Talk.fold(self.current.journal, edition, new)
        self._begin(new, edition)
        return Outcome(say("job.copied", old=old, name=new), "copied", new, old)

    def _rename(self, name: str) -> Outcome:
        old, new = self._at, _named(name.lower())
        if not new or new in self._names:
            return Outcome(say("job.taken", name=new or "that"))
        talk = self.current
        talk.name = new
        self._talks[new] = self._talks.pop(old)
        self._names = {new if name == old else name: None for name in self._names}
        self._editions[new] = self._editions.pop(old, self.edition)
        self._trail = [new if step == old else step for step in self._trail]
        self._at = new
        return Outcome(say("job.named", name=new), "renamed", new, old)

    def _summary(self) -> str:
        verdicts = {name: self.verdict(name) for name in self._names}
        over = [name for name, verdict in verdicts.items() if verdict == "over"]
        fits = sum(verdict == "fits" for verdict in verdicts.values())
        count = len(verdicts)
        text = say(
            "job.summary",
            count=f"{counted(count)} box{'es' if count != 1 else ''}",
            fits=_some(fits),
            over=_some(len(over)),
            open=_some(count - fits - len(over)),
        )
        text = text[0].upper() + text[1:]
        return text + (" " + say("job.over_list", names=listed(over[:5])) if over else "")


def _some(count: int) -> str:
    return counted(count) if count else say("none_of_them")


def _named(name: str) -> str:
    """The name in "box hall" and in "the hall"; "box 3" is a name as it stands."""
    bare = name.removeprefix("the ")
    rest = bare.removeprefix("box ")
    return bare if rest.isdigit() or not rest else rest
