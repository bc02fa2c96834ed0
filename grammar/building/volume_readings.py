"""Questions for a volume: of a box that is named, of one beside another, and what things need."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.building.asked_question import Question
from boxaloud.grammar.building.box_questions import volume_asked, volume_needed
from boxaloud.grammar.lazy_patterns import lazy_pattern


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


_OF_SEVERAL = lazy_pattern(
    r"\b(?:which|what|who|whose|is|are|does|do|has)\b.*\b(?:roomier|bigger|larger|smaller|deeper"
    r"|tighter|shallower|better|cheaper|wider|taller|more|less|most|biggest|largest|roomiest"
    r"|smallest)\b.*(?:\bor (?:[a-z]+ ){0,2}<|<.* or (?:that|this|the|it|mine)\b|\bthan\b.*<box)"
)


def boxes_compared(question: Question) -> list[Act] | None:
    """ "Which is roomier, that or the 3x2x2-3/4": boxes compared, none of them taken."""
    kinds = {found.kind for found in question.things}
    boxes = kinds and kinds <= {"box_size", "box_volume", "box_kind"}
    if not boxes or question.clause.mood != "interrogative":
        return None
    if not _OF_SEVERAL.search(question.line):
        return None
    return [acts.AskUnknown(words=question.words, span=question.span)]
