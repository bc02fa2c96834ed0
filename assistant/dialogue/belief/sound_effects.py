"""What a sound may not do by itself: answer with a word hardly heard, empty a box, or leave it.

A bare answer carries no value that could be asked back, and to a confirmation it lets in just what
was held back. So one that the ear was unsure of answers nothing, and the question is put again; the
same said again is another sound, and counts with the first.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.assistant.dialogue.belief import belief_table
from boxaloud.assistant.dialogue.journal import Entry
from boxaloud.grammar import acts, recognise
from boxaloud.grammar.acts import Act, Doubt, Unread, Utterance


def answers_nothing(act: Act, confidence: float, asked: str | None) -> bool:
    """True for a bare answer that was heard too badly to be one, to the question `asked`."""
    known = belief_table.table()
    if belief_table.kind(act) not in known.answers:
        return False
    return confidence < (known.answering if asked == "confirm" else known.sure)


def with_earlier(act: Act, confidence: float, asked: str | None, before: Entry | None) -> float:
    """How sure the ear was of an act: enough for an answer where the same bare one was all that
    was said before, and answered nothing; the question is then still the same."""
    known = belief_table.table()
    if belief_table.kind(act) not in known.answers or confidence < known.again:
        return confidence
    if before is None or before.acts or before.unread or (before.confidence or 0.0) < known.again:
        return confidence
    earlier = [belief_table.kind(one) for one in recognise(before.heard, asked).acts]
    return max(confidence, known.answering) if earlier == [belief_table.kind(act)] else confidence


def asked_first(act: Act, confidence: float) -> Act:
    """The act, in doubt where it would empty a box or leave it at a sound."""
    known = belief_table.table()
    steps = isinstance(act, acts.Undo) and act.count >= known.steps
    leaves = belief_table.kind(act) in known.leaving and confidence < known.certain
    if not (steps or leaves or belief_table.kind(act) in known.emptying):
        return act
    return replace(act, doubts=(*act.doubts, Doubt("", "drastic")))


def is_asked_first(act: Act) -> bool:
    """True where an act waits for a yes because a sound brought it."""
    return any(doubt.reason == "drastic" for doubt in act.doubts)


def up_to_doubt(read: Utterance, kinds: tuple[type[Act], ...]) -> Utterance:
    """An utterance up to the first act of these kinds that waits: what follows may be of another
    box, and goes into none before that is known."""
    for place, act in enumerate(read.acts):
        if isinstance(act, kinds) and is_asked_first(act):
            kept = [run for run in read.unread if run.span[0] < act.span[1]]
            return replace(
                read, acts=read.acts[: place + 1], unread=(*kept, *_rest(read, act.span[1]))
            )
    return read


def _rest(read: Utterance, start: int) -> Sequence[Unread]:
    """All the words behind a place, as ones that weigh."""
    words = read.heard[start:].strip(" ,.;")
    at = read.heard.find(words, start) if words else start
    return [Unread(words, (at, at + len(words)), True)] if words else []
