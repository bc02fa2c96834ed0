"""The answers that can be chosen for the open question: signs, labels, and the acts they make."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Any

from boxaloud.assistant.dialogue.act_json import decoded
from boxaloud.assistant.dialogue.interpretation.references import to_thing
from boxaloud.assistant.dialogue.nlg.sentences import marked
from boxaloud.assistant.dialogue.state import State, sizes_present
from boxaloud.assistant.dialogue.tracker.table_box import rows_of
from boxaloud.assistant.tui.presenters.trade_writing import sizes_written
from boxaloud.assistant.tui.tui_messages import table, text
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act

SIGNS = "123456789"


@dataclass(frozen=True, slots=True)
class Choice:
    """One answer. It either makes acts or `opens` another part of the screen."""

    label: str
    acts: tuple[Act, ...] = ()
    opens: str = ""
    sign: str = ""
    """What stands before the label, and what is typed to take it."""

    @property
    def shown(self) -> str:
        """The label with its sign before it, unless it begins with it ("14 AWG")."""
        begins = self.label.startswith(f"{self.sign} ")
        return self.label if begins else f"{self.sign} {self.label}"


def choices_for(slot: str | None, state: State) -> tuple[Choice, ...]:
    """The answers for a slot, none where nothing is open.

    A question of how many shows each number as its own sign, and one for a measure has letters,
    so that a number that is typed never means another one.
    """
    if slot is None:
        return ()
    data = table("choices")
    asked = data.get(slot, data["other"])
    if slot == "confirm" and state.pending:
        asked = data.get(f"confirm_{state.pending[0].reason}", asked)
    fixed = [_fixed(row) for row in asked["choices"]]
    at = int(asked.get("after", 0))
    found = [*fixed[:at], *_found(asked.get("from", ""), state), *fixed[at:]]
    return signed(found, asked.get("signs", SIGNS))


def signed(choices: Iterable[Choice], signs: str = SIGNS) -> tuple[Choice, ...]:
    """The answers with a sign each: its own, else the next of `signs` that is no other's sign and
    no wire size on offer."""
    known = list(choices)
    taken = {choice.sign for choice in known} | {
        str(act.awg) for choice in known for act in choice.acts if isinstance(act, acts.Size)
    }
    free = (sign for sign in signs if sign not in taken)
    return tuple(
        choice if choice.sign else replace(choice, sign=next(free, "")) for choice in known
    )


#: Words that begin what is said next, and that no number counts or measures.
_BEGINS = re.compile(
    r"(?:the|it|its|it's|that|that's|this|there|there's|they|they're|no|and|but|so|put|add|make|move"
    r"|take|i|i'm|we|you|what|how|is|are|does|my|also|actually|wait|sorry)\b",
    re.IGNORECASE,
)


def parted(typed: str, choices: Sequence[Choice]) -> tuple[str, str]:
    """The sign of an answer with which a line begins, and the words that were typed straight
    behind it ("1the receptacle …"); an empty sign where the line is one of its own: "12 by 12",
    "1 receptacle"."""
    for choice in choices:
        behind = typed.removeprefix(choice.sign)
        if choice.sign.isdigit() and behind != typed and _BEGINS.match(behind):
            return choice.sign, behind
    return "", typed


def answer_rows(choices: Sequence[Choice], width: int) -> list[list[int]]:
    """Which answers stand in each row of so many columns; none is broken across rows."""
    rows: list[list[int]] = []
    at = 0
    for number, choice in enumerate(choices):
        columns = len(choice.shown) + 3
        if not rows or at + columns - 1 > width:
            rows.append([])
            at = 0
        rows[-1].append(number)
        at += columns
    return rows


def _fixed(row: dict[str, Any]) -> Choice:
    label, sign = row["label"], row.get("sign", "")
    if "opens" in row:
        return Choice(label, opens=row["opens"], sign=sign)
    made = decoded({"act": row["act"], **row.get("with", {}), "words": label})
    return Choice(label, (made,), sign=sign)


def _found(source: str, state: State) -> Iterator[Choice]:
    """Answers that depend on the box: the sizes in it, the depths it may have."""
    if source == "sizes":
        for awg in sizes_present(state):
            label = text("question.size", awg=awg)
            yield Choice(label, (acts.Size(awg=awg, words=label),))
    elif source == "depths" and state.partial is not None:
        for row in rows_of(state.partial):
            label = f"{sizes_written(row.name)}, {marked(row.volume)}"
            made = acts.SetSize(row=row.id, gangs=state.partial.gangs, words=row.name)
            yield Choice(label, (made,))
    elif source == "readings" and state.pending:
        yield from _readings(state.pending[0].act)
    elif source == "operators" and state.pending:
        yield from _operators(state.pending[0].act)


def _operators(doubtful: Act) -> Iterator[Choice]:
    """What may be done with the thing that an unknown verb stood before."""
    if isinstance(doubtful, acts.UnknownOperator):
        target = to_thing(doubtful.thing)
        out, more = text("question.take_out"), text("question.one_more")
        yield Choice(out, (acts.Remove(target=target, words=out, function="request"),))
        yield Choice(more, (acts.More(target=target, count=1, words=more, function="request"),))


def _readings(doubtful: Act) -> Iterator[Choice]:
    """What a doubtful number may have been instead."""
    thing = getattr(doubtful, "thing", None)
    doubts = (*doubtful.doubts, *(thing.doubts if isinstance(thing, Act) else ()))
    for doubt in doubts:
        if isinstance(doubt.instead, int | Decimal) and not isinstance(doubt.instead, bool):
            words = text("question.instead", value=doubt.instead)
            made = acts.Number(value=Decimal(doubt.instead), words=words)
            yield Choice(words, (made,), sign=str(doubt.instead))
