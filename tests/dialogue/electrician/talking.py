"""The electrician's side of the talk: say, listen, correct, ask for the read-back, accept."""

from __future__ import annotations

import random
import re
from collections import Counter
from dataclasses import dataclass, field

from electrician import lively, reply_reading
from electrician.agenda import Agenda, Part, expected
from electrician.asked_answers import answer
from electrician.lively import Slip
from electrician.mind import Fact, Mind
from electrician.mind_differences import Fix, difference, right_count, within
from electrician.phrasing import GAUGE, WORDS, Talker
from electrician.reply_reading import Said

MOST_TURNS = 60
PATIENCE = 5
"""Read-backs put right before starting over."""
EXTRA, MOST_EXTRAS, SLIPS = 0.15, 3, 0.12
"""Chance of a question or remark at a turn, how many in a talk at most; chance of a slip."""


@dataclass
class Electrician:
    """Holds `mind`, and talks until it accepts a verdict or gives up."""

    mind: Mind
    dice: random.Random
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
        self.agenda = Agenda(self.mind, self.dice)
        self.least = len(self.agenda) + 1
        if not self.sized and len(self.mind.sizes) > 1:
            self.least += sum(fact[0] == "device" for fact in self.mind.things)

    # -- speaking -------------------------------------------------------------------------

    def say(self, reply: Said | None) -> str | None:
        """The next utterance, None when the talk is over."""
        if self.accepted or self.gave_up or self.turns >= MOST_TURNS:
            return None
        self.turns += 1
        self.extra = False
        if reply is not None and "?" in reply.said:
            self._question_put = reply_reading.last_sentence(reply.said)
        if self._move != "fix":
            self._off = None
        words = self._answer(reply) if reply is not None else self._tell()
        if self.accepted or self.gave_up:
            self.turns -= 1
            return None
        self._last = words
        return words

    def _tell(self) -> str:
        if self.agenda.todo:
            return self._tell_next()
        self._move = "read back"
        return self.talker.read_back()

    def _tell_next(self) -> str:
        """The next things to be told; now and then with a slip of the tongue."""
        parts = self.agenda.todo.pop(0)
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
        words = [part.said(self.talker, self.sized) for part in parts]
        joined = self.dice.choice([" and ", " "]).join(words[-2:])
        return " ".join([*words[:-2], joined])

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
        self.agenda.again(self._parts)
        self._parts = []

    def _undo(self) -> str:
        self._move = "undo"
        return self.talker.undo()

    def _confirm(self, reply: Said) -> str:
        """A question about what was heard: yes to what was said, no to anything else."""
        question = reply_reading.last_sentence(reply.said)
        asked = reply_reading.read(reply_reading.unquoted(question))
        due = expected(self._parts, self.mind, self.sized)
        quoted = re.findall("“([^”]*)”", question)
        right = not asked.empty and within(asked, due, self.mind)
        if self._off is not None and "take off" in question:
            right = asked.things == Counter({self._off[0]: self._off[1]})
        if asked.empty and (bare := re.search(r"Did you say (\d+)\?", question)):
            right = {bare[1], WORDS[int(bare[1]) % len(WORDS)]} & set(self._last.split()) != set()
        if (landed := reply_reading.landed(question)) is not None:
            right = landed in self.mind.things
        if asked.empty and quoted:
            right = quoted[0].lower() in self._last and "How many" not in question
        self._note_echo(reply)
        if right:
            self._move = "yes"
            return self.talker.pick("yes", "yes", "correct", "that's right")
        count = right_count(asked, due)
        if count and self.dice.random() < 0.5:
            self._move = "yes"
            return f"no {WORDS[count]}"
        self._move = "no"
        if not self._parts:
            return "no"
        self._repeat_parts()
        return "no"

    def _note_echo(self, reply: Said) -> None:
        """Parts of the last utterance that were echoed right need not be told again."""
        heard = reply_reading.echo(reply)
        kept = []
        for part in self._parts:
            if not within(part.expected(self.mind, self.sized), heard, self.mind):
                kept.append(part)
        self._parts = kept

    def _check(self, reply: Said) -> str | None:
        """Compare the echo with what was said; the correction to make, if any."""
        heard, due = reply_reading.echo(reply), expected(self._parts, self.mind, self.sized)
        wrong = [fact for fact in heard.things if heard.things[fact] != due.things[fact]]
        scalars = (
            heard.clamps not in (None, due.clamps, self.mind.clamps)
            or heard.volume not in (None, due.volume, self.mind.volume)
            or heard.edition not in (None, due.edition, self.mind.edition)
        )
        if len(wrong) == 1 and not scalars and wrong[0] in due.things:
            last = self._parts[-1].expected(self.mind, self.sized).things
            if wrong[0] in last and self.dice.random() < 0.6 and "more:" not in reply.said:
                count = due.things[wrong[0]]
                self._parts = self._parts[-1:]
                self._move = "fix"
                return self.talker.pick(f"no {WORDS[count]}", f"make that {WORDS[count]}")
        if wrong or scalars:
            self._repeat_parts()
            return self._undo()
        self._note_echo(reply)
        self._repeat_parts()
        return None

    # -- the read-back --------------------------------------------------------------------

    def _compare(self, reply: Said) -> str | None:
        listed = reply_reading.told(reply_reading.unquoted(reply.said))
        found = reply_reading.read(listed)
        if found.empty:
            self._move = "read back"
            return self.talker.read_back()
        verdict, total = reply_reading.verdict(reply.said), reply_reading.total(reply.said)
        edition = reply_reading.read(reply.said).edition
        fix = difference(found, edition, self.mind)
        if fix is None:
            if verdict and total and reply.asks is None:
                self.accepted = (total, verdict)
                return ""
            return None
        words = self._put_right(fix)
        self._rounds += 1
        return self._start_over() if self._rounds > PATIENCE else words

    def _put_right(self, fix: Fix) -> str:
        if fix.tell is not None:
            return self._say_parts("fix", [fix.tell])
        if fix.land is not None:
            self._move, self._parts = "fix", []
            name = str(fix.land[1]).replace("-", " ").lower()
            return f"the {name} is on the {GAUGE[int(fix.land[2])]}s"
        if fix.take_off is None:
            return self._start_over()
        self._move, self._parts, self._off = "fix", [], fix.take_off
        return self.talker.take_off(*fix.take_off)

    def _start_over(self) -> str:
        self._rounds = 0
        self._restarts += 1
        if self._restarts > 2:
            self.gave_up = True
            return ""
        self.agenda.all_anew()
        self._move, self._parts = "start over", []
        return self.talker.start_over()

    # -- answering what is asked ----------------------------------------------------------

    def _next(self, reply: Said) -> str:
        if self.lively and self._extras < MOST_EXTRAS and self.dice.random() < EXTRA:
            return self._extra()
        asks = reply.asks
        willing = not self.agenda.todo or self.dice.random() < 0.6
        if asks and willing and asks not in ("contents", "unread", "mistaken"):
            answer = self._question(asks)
            if answer is not None:
                return answer
        if self.agenda.todo:
            return self._tell_next()
        if asks == "contents":
            return self._start_over()
        # what is wrong shows when it is read back; where nothing is, there is nothing to say
        if asks == "unread" or (asks == "mistaken" and self._move == "read back"):
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

    def _question(self, asks: str) -> str | None:
        found = answer(asks, self.agenda, self.talker, self._question_put)
        if found is None:
            return None
        if found.tell is not None:
            return self._say_parts("tell", [found.tell])
        self._move, self._parts = "answer", []
        return found.words or None
