"""The electrician's side of the talk: say, listen, correct, ask for the read-back, accept."""

from __future__ import annotations

import random
import re
from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Protocol

from boxaloud.assistant.dialogue.reply import SystemAct

from electrician import lively, reading
from electrician.lively import Slip
from electrician.mind import Fact, Mind
from electrician.phrasing import GAUGE, WORDS, Talker
from electrician.reading import Reading

MOST_TURNS = 60
PATIENCE = 5
"""Read-backs put right before starting over."""
EXTRA, MOST_EXTRAS, SLIPS = 0.15, 3, 0.12
"""Chance of a question or remark at a turn, how many in a talk at most; chance of a slip."""


class Said(Protocol):
    """What the electrician gets to hear or see of a reply."""

    @property
    def said(self) -> str: ...
    @property
    def acts(self) -> Sequence[SystemAct]: ...
    @property
    def asks(self) -> str | None: ...


@dataclass
class Part:
    """One thing to be told: a fact with its count, or the clamps, the box, the edition."""

    kind: str
    fact: Fact = ()
    count: int = 0

    def expected(self, mind: Mind, sized: bool) -> Reading:
        if self.kind == "clamps":
            return Reading(clamps=mind.clamps)
        if self.kind == "box":
            return Reading(volume=mind.volume)
        if self.kind == "edition":
            return Reading(edition=mind.edition)
        return Reading(Counter({shown(self.fact, mind, sized): self.count}))


def shown(fact: Fact, mind: Mind, sized: bool = True) -> Fact:
    """A fact as it is read back: a device names its size only where there are several."""
    if fact[0] == "device" and (not sized or len(mind.sizes) == 1):
        return "device", fact[1], 0
    return fact


@dataclass
class Electrician:
    """Holds `mind`, and talks until it accepts a verdict or gives up."""

    mind: Mind
    dice: random.Random
    todo: list[list[Part]] = field(default_factory=list)
    later: list[Part] = field(default_factory=list)
    """Told only when asked."""
    accepted: tuple[str, str] | None = None
    """Total and verdict taken as right."""
    turns: int = 0
    least: int = 0
    gave_up: bool = False
    sized: bool = True
    lively: bool = True
    """Asks, chats and slips among what is told."""
    extra: bool = False
    """Whether the last utterance was a question or a remark: it may change nothing."""
    _extras: int = 0
    _slip: Slip | None = None
    _question_put: str = ""
    """The last question heard: it stays in mind while something else is answered."""
    _off: tuple[Fact, int] | None = None
    """What was asked to be taken off."""
    _move: str = ""
    _parts: list[Part] = field(default_factory=list)
    _last: str = ""
    _rounds: int = 0
    _restarts: int = 0

    def __post_init__(self) -> None:
        self.talker = Talker(self.mind, self.dice)
        self.sized = self.dice.random() < 0.6
        self.todo = self._plan()
        self.least = len(self.todo) + len(self.later) + 1
        if not self.sized and len(self.mind.sizes) > 1:
            self.least += sum(fact[0] == "device" for fact in self.mind.things)

    def _plan(self) -> list[list[Part]]:
        parts = [Part("thing", fact, count) for fact, count in self.mind.things.items()]
        self.dice.shuffle(parts)
        for kind, kept in (("clamps", 0.4), ("box", 0.3)):
            if self.dice.random() < kept:
                self.later.append(Part(kind))
            else:
                parts.insert(self.dice.randrange(len(parts) + 1), Part(kind))
        grounds = [part for part in parts if part.fact[:1] == ("grounds",)]
        if grounds and self._alone(grounds[0]) and self.dice.random() < 0.4:
            parts.remove(grounds[0])
            self.later.append(grounds[0])
        plan: list[list[Part]] = []
        if self.mind.edition != "2023":
            plan.append([Part("edition")])
        while parts:
            size = self.dice.choice([1, 2, 2, 3])
            plan.append(parts[:size])
            parts = parts[size:]
        return plan

    def _alone(self, grounds: Part) -> bool:
        """True where the grounds will be asked for: no cable brings any."""
        return not any(fact[0] == "cable" for fact in self.mind.things)

    # -- speaking -------------------------------------------------------------------------

    def say(self, reply: Said | None) -> str | None:
        """The next utterance, None when the talk is over."""
        if self.accepted or self.gave_up or self.turns >= MOST_TURNS:
            return None
        self.turns += 1
        self.extra = False
        if reply is not None and "?" in reply.said:
            self._question_put = _last_sentence(reply.said)
        if self._move != "fix":
            self._off = None
        words = self._answer(reply) if reply is not None else self._tell()
        if self.accepted or self.gave_up:
            self.turns -= 1
            return None
        self._last = words
        return words

    def _tell(self) -> str:
        if self.todo:
            return self._tell_next()
        self._move = "read back"
        return self.talker.read_back()

    def _tell_next(self) -> str:
        """The next things to be told; now and then with a slip of the tongue."""
        parts = self.todo.pop(0)
        only = parts[0]
        if self.lively and len(parts) == 1 and only.kind == "thing" and self.dice.random() < SLIPS:
            self._slip = lively.slip(
                self.talker, self.mind, only.fact, only.count, self.sized, self.dice
            )
            if self._slip is not None:
                self._move, self._parts = "slip", parts
                return self._slip.wrong
        return self._say_parts("tell", parts)

    def _mend(self, slip: Slip) -> str:
        self._move = "fix"
        self.least += 1
        return slip.right

    def _say_parts(self, move: str, parts: list[Part]) -> str:
        self._move, self._parts = move, parts
        words = [self._part(part) for part in parts]
        joined = self.dice.choice([" and ", " "]).join(words[-2:])
        return " ".join([*words[:-2], joined])

    def _part(self, part: Part) -> str:
        match part.kind:
            case "clamps":
                return self.talker.clamps()
            case "box":
                return self.talker.box()
            case "edition":
                return self.talker.edition()
        return self.talker.fact(part.fact, part.count, self.sized)

    # -- listening ------------------------------------------------------------------------

    def _answer(self, reply: Said) -> str:
        if surprise := self._surprise(reply):
            return surprise
        slip, self._slip = self._slip, None
        if reply.asks == "confirm":
            return self._confirm(reply)
        if slip is not None and self._move == "slip":
            return self._mend(slip)
        if self._move in ("tell", "yes", "fix") and self._parts:
            fix = self._check(reply)
            if fix is not None:
                return fix
        elif self._move == "undo" and not re.search("Took back|nothing to undo", reply.said):
            return self._undo()
        elif self._move == "read back":
            fix = self._compare(reply)
            if fix is not None:
                return fix
        return self._next(reply)

    def _surprise(self, reply: Said) -> str | None:
        """Something happened that was not asked for: take it back."""
        said = reply.said
        if "Started over" in said and self._move != "start over":
            self._repeat_parts()
            return self._undo()
        if "answers from now on" in said:
            self._repeat_parts()
            return self._undo()
        if said.startswith(("Next box", "Copied")) or "is now called" in said:
            self._repeat_parts()
            self._move = "go back"
            return "go back"
        unwanted = re.search(r"\b(?:Changed|Took out) ", said)
        if unwanted and self._move in ("tell", "slip", "answer", "skip", "read back", "remark"):
            self._repeat_parts()
            return self._undo()
        return None

    def _repeat_parts(self) -> None:
        self.todo[:0] = [[part] for part in self._parts]
        self._parts = []

    def _undo(self) -> str:
        self._move = "undo"
        return self.talker.undo()

    def _confirm(self, reply: Said) -> str:
        """A question about what was heard: yes to what was said, no to anything else."""
        question = _last_sentence(reply.said)
        asked = reading.read(question)
        expected = self._expected()
        quoted = re.findall("“([^”]*)”", question)
        right = not asked.empty and _within(asked, expected, self.mind)
        if self._off is not None and "take off" in question:
            right = asked.things == Counter({self._off[0]: self._off[1]})
        if asked.empty and (bare := re.search(r"Did you say (\d+)\?", question)):
            right = {bare[1], WORDS[int(bare[1]) % len(WORDS)]} & set(self._last.split()) != set()
        if asked.empty and quoted:
            right = quoted[0].lower() in self._last and "How many" not in question
        self._note_echo(reply)
        if right:
            self._move = "yes"
            return self.talker.pick("yes", "yes", "correct", "that's right")
        count = self._right_count(asked, expected)
        if count and self.dice.random() < 0.5:
            self._move = "yes"
            return f"no {WORDS[count]}"
        self._move = "no"
        if not self._parts:
            return "no"
        self._repeat_parts()
        return "no"

    def _right_count(self, asked: Reading, expected: Reading) -> int:
        for fact in asked.things:
            if fact in expected.things and 0 < expected.things[fact] < len(WORDS):
                return expected.things[fact]
        return 0

    def _expected(self) -> Reading:
        total = Reading()
        for part in self._parts:
            one = part.expected(self.mind, self.sized)
            total.things += one.things
            total.clamps = one.clamps or total.clamps
            total.volume = one.volume or total.volume
            total.edition = one.edition or total.edition
        return total

    def _note_echo(self, reply: Said) -> None:
        """Parts of the last utterance that were echoed right need not be told again."""
        heard = _echo(reply)
        kept = []
        for part in self._parts:
            if not _within(part.expected(self.mind, self.sized), heard, self.mind):
                kept.append(part)
        self._parts = kept

    def _check(self, reply: Said) -> str | None:
        """Compare the echo with what was said; the correction to make, if any."""
        heard, expected = _echo(reply), self._expected()
        wrong = [fact for fact in heard.things if heard.things[fact] != expected.things[fact]]
        scalars = (
            heard.clamps not in (None, expected.clamps, self.mind.clamps)
            or heard.volume not in (None, expected.volume, self.mind.volume)
            or heard.edition not in (None, expected.edition, self.mind.edition)
        )
        if len(wrong) == 1 and not scalars and wrong[0] in expected.things:
            last = self._parts[-1].expected(self.mind, self.sized).things
            if wrong[0] in last and self.dice.random() < 0.6 and "more:" not in reply.said:
                count = expected.things[wrong[0]]
                self._parts = self._parts[-1:]
                self._note_others(heard)
                return self.talker.pick(f"no {WORDS[count]}", f"make that {WORDS[count]}")
        if wrong or scalars:
            self._repeat_parts()
            return self._undo()
        self._note_echo(reply)
        self._repeat_parts()
        return None

    def _note_others(self, heard: Reading) -> None:
        self._move = "fix"

    # -- the read-back --------------------------------------------------------------------

    def _compare(self, reply: Said) -> str | None:
        listed = reading.told(reading.unquoted(reply.said))
        found = reading.read(listed)
        if found.empty:
            self._move = "read back"
            return self.talker.read_back()
        verdict, total = reading.verdict(reply.said), reading.total(reply.said)
        edition = reading.read(reply.said).edition
        fix = self._difference(found, edition)
        if fix is None:
            if verdict and total and reply.asks is None:
                self.accepted = (total, verdict)
                return ""
            return None
        self._rounds += 1
        if self._rounds > PATIENCE:
            return self._start_over()
        return fix

    def _start_over(self) -> str:
        self._rounds = 0
        self._restarts += 1
        if self._restarts > 2:
            self.gave_up = True
            return ""
        things = [Part("thing", fact, count) for fact, count in self.mind.things.items()]
        self.todo = [[part] for part in [*things, Part("clamps"), Part("box")]]
        if self.mind.edition != "2023":
            self.todo.append([Part("edition")])
        self._move, self._parts = "start over", []
        return self.talker.start_over()

    def _difference(self, found: Reading, edition: str | None) -> str | None:
        """The first thing that is not as it is in mind, put right; None where all is."""
        meant = Counter({shown(fact, self.mind): count for fact, count in self.mind.things.items()})
        things: Counter[Fact] = Counter()
        for fact, count in found.things.items():
            things[_plainly(fact, self.mind)] += count
        for fact, count in (things - meant).items():
            if fact[0] == "unread":
                return self._start_over()
            if fact[0] == "device" and fact[2] == 0 and len(self.mind.sizes) > 1:
                continue  # its size is still to be asked
            if fact[0] == "device" and (true := self._true_size(str(fact[1]))):
                self._move, self._parts = "fix", []
                if fact[1] == true[1] and fact[2] not in (0, true[2]):
                    name = str(fact[1]).replace("-", " ").lower()
                    return f"the {name} is on the {GAUGE[int(true[2])]}s"
            self._move, self._parts = "fix", []
            self._off = _plainly(fact, self.mind), min(count, 10)
            return self.talker.take_off(*self._off)
        for fact, count in (meant - things).items():
            loose = ("device", fact[1], 0)
            if fact[0] == "device" and things[loose] >= count and len(self.mind.sizes) > 1:
                continue
            real = fact if fact in self.mind.things else (self._true_size(str(fact[1])) or fact)
            return self._say_parts("fix", [Part("thing", real, count)])
        if found.clamps not in (None, self.mind.clamps):
            return self._say_parts("fix", [Part("clamps")])
        if found.volume not in (None, self.mind.volume):
            return self._say_parts("fix", [Part("box")])
        if edition not in (None, self.mind.edition):
            return self._say_parts("fix", [Part("edition")])
        return None

    def _true_size(self, name: str) -> Fact | None:
        return next((f for f in self.mind.things if f[0] == "device" and f[1] == name), None)

    # -- answering what is asked ----------------------------------------------------------

    def _next(self, reply: Said) -> str:
        if self.lively and self._extras < MOST_EXTRAS and self.dice.random() < EXTRA:
            return self._extra()
        asks = reply.asks
        willing = not self.todo or self.dice.random() < 0.6
        if asks and willing and asks not in ("contents", "unread"):
            answer = self._question(asks, reply)
            if answer is not None:
                return answer
        if self.todo:
            return self._tell_next()
        if asks == "contents":
            return self._start_over()
        if asks == "unread":
            self._move, self._parts = "skip", []
            return "skip"
        return self._tell()

    def _extra(self) -> str:
        """A question or a remark, which is to change nothing."""
        self._parts = []
        self._move, words = lively.extra(self.dice)
        self.extra = True
        self._extras += 1
        self.least += 1
        return words

    def _question(self, asks: str, reply: Said) -> str | None:
        if asks in ("clamps", "clamps_place", "box"):
            kind = "box" if asks == "box" else "clamps"
            self._take(kind)
            return self._say_parts("tell", [Part(kind)])
        if asks == "grounds":
            return self._grounds()
        if asks == "device_size":
            return self._size()
        self._move, self._parts = "answer", []
        if asks == "canopy":
            canopy = any(f[0] == "tails" and f[2] for f in self.mind.things)
            return "yes" if canopy else "no"
        if asks == "box_depth" and self.mind.standard:
            return f"{self.mind.standard[1]} deep"
        return "one" if asks == "gangs" else None

    def _take(self, kind: str) -> None:
        self.later = [part for part in self.later if part.kind != kind]
        self.todo = [[p for p in chunk if p.kind != kind] for chunk in self.todo]
        self.todo = [chunk for chunk in self.todo if chunk]

    def _grounds(self) -> str:
        held = next((p for p in self.later if p.fact[:1] == ("grounds",)), None)
        if held is not None:
            self.later.remove(held)
            return self._say_parts("tell", [held])
        grounds = next((f for f in self.mind.things if f[0] == "grounds"), None)
        if grounds is not None and not any(p.fact == grounds for c in self.todo for p in c):
            return self._say_parts("tell", [Part("thing", grounds, self.mind.things[grounds])])
        self._move, self._parts = "answer", []
        if any(fact[0] == "cable" and fact[3] for fact in self.mind.things):
            return self.talker.pick("none", "just the ones in the cables")
        return "none" if grounds is None else "skip"

    def _size(self) -> str | None:
        for fact in self.mind.things:
            if fact[0] == "device" and re.search(rf"the {fact[1]}(es|s)?\b", self._question_put):
                self._move, self._parts = "answer", []
                gauge = GAUGE[int(fact[2])]
                return self.talker.pick(gauge, f"the {gauge}s", f"number {gauge}")
        return None


def _plainly(fact: Fact, mind: Mind) -> Fact:
    """A device's size means nothing where there is only one."""
    if fact[0] == "device" and len(mind.sizes) == 1 and fact[2] in (0, *mind.sizes):
        return "device", fact[1], 0
    return fact


def _echo(reply: Said) -> Reading:
    return reading.read(reading.news(" ".join(act.says for act in reply.acts if act.act == "echo")))


def _within(part: Reading, whole: Reading, mind: Mind) -> bool:
    """True where everything in `part` is so in `whole`."""
    known: Counter[Fact] = Counter()
    for fact, count in whole.things.items():
        known[_plainly(fact, mind)] += count
    return (
        all(known[_plainly(fact, mind)] == count for fact, count in part.things.items())
        and part.clamps in (None, whole.clamps)
        and part.volume in (None, whole.volume)
        and part.edition in (None, whole.edition)
    )


def _last_sentence(text: str) -> str:
    """The last question in a reply, else its last sentence."""
    sentences = re.split(r"(?<=[.?!]) (?=[A-Z“\d])", text.strip())
    return next((one for one in reversed(sentences) if one.endswith("?")), sentences[-1])
