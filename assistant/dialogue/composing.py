"""Putting a reply together: refusals, what was not used, echoes, where it stands, the question."""

from __future__ import annotations

from dataclasses import replace

from assistant.dialogue import questions
from assistant.dialogue.asking import ask
from assistant.dialogue.assessing import assess, exact
from assistant.dialogue.journal import Entry
from assistant.dialogue.reply import Reply
from assistant.dialogue.saying import listed, say
from assistant.dialogue.spoken import slowly, spoken
from assistant.dialogue.state import State
from assistant.dialogue.status import assumed, status
from assistant.dialogue.turn import Turn


class Composer:
    """Composes one reply from a finished turn."""

    def __init__(self, state: State, turn: Turn, entry: Entry) -> None:
        self.state = state
        self.turn = turn
        self.entry = entry
        self.found = assess(state)
        question = self.found.question
        self.asks = question.slot if question else None

    @property
    def changed(self) -> bool:
        """True where the box changed, or a step through its history was asked for."""
        return bool(self.turn.trail or self.turn.stepped)

    @property
    def in_vain(self) -> bool:
        """True where the utterance neither changed nor asked anything."""
        turn = self.turn
        return not (self.changed or turn.answers or turn.event or turn.refused)

    def compose(self, tries: int, told: str, last: Reply | None) -> Reply:
        """The reply. `told` is the verdict last said of this box, `last` the reply before."""
        said = " ".join(piece for piece in self._pieces(tries, told, last) if piece)
        slow = self.turn.event is not None and self.turn.event[0] == "slower"
        sheet, verdict = self.found.sheet, self.found.verdict
        return Reply(
            heard=self.entry.heard,
            confidence=self.entry.confidence,
            understood=tuple(self.turn.understood),
            left_over=(*self.entry.left_over, *self.turn.unplaced),
            said=said,
            spoken=slowly(said) if slow else spoken(said),
            asks=self.asks,
            sheet=sheet,
            verdict=verdict,
            low=self.found.low,
            high=self.found.high,
            assumed=assumed(self.state),
            described=self.state if self.state.items or self.state.box else None,
            changed=bool(self.changed or self.turn.answers or self.turn.event),
            refused=bool(self.turn.refused or self.entry.refusal),
            event=self.turn.event,
        )

    def _pieces(self, tries: int, told: str, last: Reply | None) -> list[str]:
        turn = self.turn
        if turn.event and turn.event[0] in ("repeat", "slower"):
            return [last.said if last else say("nothing_to_repeat")]
        pieces = [*turn.refused]
        if self.entry.refusal:
            pieces.append(self.entry.refusal)
        pieces += self._unused()
        pieces += self._repairs()
        pieces += turn.echoes
        pieces += turn.answers
        if not pieces and not turn.understood and self.asks != "unused":
            heard = self.entry.heard.strip()
            pieces.append(say("nothing_understood" if heard else "nothing_heard"))
        if self.changed:
            pieces += self._standing(told)
        if not (turn.answers and self.found.verdict != "incomplete"):
            again = last is not None and last.asks == self.asks and not self.turn.stepped
            pieces.append(self._question(tries, again and not self.in_vain))
        if self.in_vain and self.asks is None and self.entry.left_over:
            pieces.append(say("say_again"))
        return pieces

    def _unused(self) -> list[str]:
        """What was said and not used, unless that is just what is asked about."""
        if self.asks == "unused":
            return []
        left_over = [f"“{words}”" for words in self.entry.left_over]
        pieces = [say("left_over", words=listed(left_over))] if left_over else []
        return pieces + [say("unplaced", words=words) for words in self.turn.unplaced]

    def _repairs(self) -> list[str]:
        """Mended spellings are announced: the user sees what a word was taken for."""
        said = []
        for statement in self.entry.statements:
            for doubt in statement.doubts:
                if doubt.reason == "repaired":
                    said.append(say("repaired", words=statement.words, what=doubt.instead))
        return said

    def _standing(self, told: str) -> list[str]:
        """Where the box stands; with a new verdict, advice if it is over and the caution."""
        if not self._moved(told):
            return []
        pieces = [self._qualified(status(self.state, self.found))]
        verdict = self.found.verdict
        if verdict == "over" and exact(self.found) and self.state.form != "brief":
            pieces.append(questions.advice_text(self.state, most=1))
        if verdict not in ("incomplete", told):
            pieces.append(say("caution_short"))
        return pieces

    def _moved(self, told: str) -> bool:
        """True where there is something new to say of the total, or something came in."""
        if self.turn.stepped or _described(self.state) != _described(self.turn.began):
            return True
        return self.found.verdict not in ("incomplete", told)

    def _qualified(self, text: str) -> str:
        """No total stands plainly over words that are not in it."""
        unused = self.entry.left_over or self.turn.unplaced or self.state.unused
        if not (text and unused):
            return text
        return say("without_that", text=text[0].lower() + text[1:])

    def _question(self, tries: int, again: bool) -> str:
        question = self.found.question
        if question is None:
            return ""
        text = ask(question, self.state, self.found, tries, again)
        if self.found.verdict != "incomplete" and not again:
            return say("for_margin", question=text[0].lower() + text[1:])
        return text


def _described(state: State) -> State:
    """A state without what says nothing of the box."""
    return replace(
        state, pending=(), rejected=frozenset(), unused=(), unused_with=frozenset(), form="normal",
        last="", put_off=frozenset(), clamps_mentioned=False,
    )  # fmt: skip
