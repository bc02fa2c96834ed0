"""Questions for a volume: that of a box which is named, and that which things need."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.building.asked_question import Question
from boxaloud.grammar.building.box_questions import volume_asked, volume_needed


def volume_of_a_box(question: Question) -> list[Act] | None:
    """ "How many cubic inches is a 4 by 1-1/2 octagon"."""
    asked = volume_asked(question.line, question.things, question.words, question.span)
    return None if asked is None else [asked]


def volume_for(question: Question) -> list[Act] | None:
    """ "How many cubic inches do I need for two 14-2s and a timer": with what it is for."""
    if len(question.inside) < 2 and not any(f.get("count") for f in question.inside):
        return None
    if not volume_needed(question.line):
        return None
    asked = acts.Ask(about="smallest_box", words=question.words, span=question.span)
    return [*question.described(), asked]
