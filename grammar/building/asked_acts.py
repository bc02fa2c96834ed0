"""The acts of a clause that asks or supposes. None of them ever changes a box by itself."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import cast

from boxaloud.grammar import acts, grammar_data
from boxaloud.grammar.acts import Act
from boxaloud.grammar.building.asked_question import Question, named
from boxaloud.grammar.building.box_questions import asks_of_the_outcome, box_wanted
from boxaloud.grammar.building.boxes_tried import box_tried
from boxaloud.grammar.building.fixed_questions import fixed_question
from boxaloud.grammar.building.report_questions import report_asked
from boxaloud.grammar.building.room_questions import asks_for_room, most_of, room_for
from boxaloud.grammar.building.supposed_acts import is_about
from boxaloud.grammar.building.taken_room import asks_what_it_takes, points, term_of_all
from boxaloud.grammar.building.told_acts import tell
from boxaloud.grammar.building.told_clause import Telling
from boxaloud.grammar.building.told_in_questions import OF_ALL, told_besides
from boxaloud.grammar.building.volume_readings import boxes_compared, volume_for, volume_of_a_box
from boxaloud.grammar.clauses.act_fields import BOX, QUESTIONS, THINGS, act_of, thing_of
from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.clauses.mood import TELLING_IF, UNSURE
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.phrases.statements import Statement

_TABLE = grammar_data.table("questions")
#: What the code asks beside the count, by the words it is asked in.
_CODE: tuple[tuple[str, str], ...] = tuple((row["id"], row["say"]) for row in _TABLE["code"])
_COUNTS = lazy_pattern(
    r"\b(?:count|counts|counted|counting|worth|take up|takes up|taking up|take|takes|cost|costs"
    r"|allowance|allowances|mean|means|considered|include|included|matter|deduct|deduction"
    r"|figure|figured|ignored|left out|omitted|twice|double|once|size of|volume of|called"
    r"|exactly|add)\b"
)
_TAKEN_OUT = lazy_pattern(r".*\b(?:take|taking) (?:out|off|away)\b")
#: "Can I take a 14-2 out", and not "how much does a 14-2 take out of it".
_TAKEN_OUT_OF_IT = lazy_pattern(
    r"(?i)(?!.*\b(?:how|what|does|do)\b).*\b(?:take|taking)\b.*\b(?:out|off|away)\b"
)
_ASKS_OF_A_TERM = lazy_pattern(
    r"(?:(?:so|and|ok|okay|but|hey|well) )*"
    r"(?:what|which|is|are|do|does|how|whats|where|when|why)\b"
)
#: "What's a dimmer count for on number 12 wire".
_ON_SIZE = lazy_pattern(
    r"\b(?:on|(?:wired|fed|connected|landed|hooked up) (?:with|by|to|on|off|in))"
    r" (?:a |the )?(?:# |number )?<(?:n|size|conductors):(18|16|14|12|10|8|6)[^>]*>"
)
_ANSWERED = frozenset({*QUESTIONS, "what_changes", "list_boxes", "why"})


def ask(telling: Telling, following: Sequence[Clause] = ()) -> list[Act]:
    """The acts of a question or supposition; `following` are the clauses joined to it."""
    clause = telling.clause
    span = (clause.span[0], (following[-1] if following else clause).span[1])
    question = Question(
        telling,
        following,
        telling.heard[slice(*span)],
        span,
        kinds=tuple(found.kind for found in (*clause.found, *clause.asked)),
        things=tuple(found for found in clause.found if found.kind in THINGS or found.kind in BOX),
    )
    for answer in _READINGS:
        if (made := answer(question)) is not None:
            return made
    return [acts.AskUnknown(words=question.words, span=span)]


def _unsure(question: Question) -> list[Act] | None:
    """ "I forget if it's the deep one": the speaker cannot tell."""
    if not UNSURE.search(question.line):
        return None
    return [acts.DontKnow(words=question.words, span=question.span)]


def _of_a_report(question: Question) -> list[Act] | None:
    """ "Can you send me the report", "how do I print"."""
    if "report" not in question.kinds or question.things:
        return None
    return report_asked(question.clause, question.words, question.span)


def _the_most(question: Question) -> list[Act] | None:
    """ "What's the most 12s a deep four square can take"."""
    return most_of(question.clause, question.following, question.words, question.span)


_WORTH = lazy_pattern(
    r"^(?:(?:so|and|ok|okay|but|hey|well) )*(?:how (?:much|many)|what) .*\b(?:counts?|takes?"
    r"|eats?|uses?|costs?|worth|adds?) ?(?:up|for|as|in it)?"
    r" (?:if|when|where) (?:it|that|this|one)(?: is)? "
)


def _worth_on_a_size(question: Question) -> list[Act] | None:
    """ "How much does a dimmer count for if it's wired with number 12": of one on that size."""
    if len(question.counted) != 1 or not _WORTH.match(question.line):
        return None
    made = _meaning(question.term, question.counted, question.words, question.span)
    landed = _landed(made, question)
    return [landed] if landed is not made else None


def _conditional(question: Question) -> list[Act] | None:
    """ "What if I add a 14-2"; "what if I use a deeper one" asks, for nothing in it is tried."""
    if question.clause.mood != "conditional":
        return None
    made = question.supposed()
    if all(isinstance(act, acts.AskUnknown) for act in made):
        asked = fixed_question(question.clause, question.words, question.span)
        return made if asked is None else [asked]
    return made


def _on_condition(question: Question) -> list[Act] | None:
    """ "Would I have more room if I took out a 12-2": the condition is supposed."""
    asked, _, condition = question.line.partition(" if ")
    if "<" not in condition or not asks_of_the_outcome(asked) or _COUNTS.search(asked):
        return None
    return None if TELLING_IF.search(question.line) else question.described()


def _of_the_code(question: Question) -> list[Act] | None:
    """ "Do I need a neutral at a switch", "how much free conductor": answered, never entered."""
    term = named(_CODE, question.words.lower().rstrip("?").replace("what's", "what is"))
    if term is None:
        return None
    return [acts.AskMeaning(term=term, words=question.words, span=question.span)]


def _taken_by_a_thing(question: Question) -> list[Act] | None:
    """ "How much is the dimmer taking up": of a line that stands."""
    if not asks_what_it_takes(question.line):
        return None
    counted = question.counted
    term = question.term if counted else term_of_all(question.line)
    if not term or (counted and not points(question.line)):
        return None
    return [replace(_meaning(term, counted, question.words, question.span), there=True)]


def _of_a_fixed_kind(question: Question) -> list[Act] | None:
    """A question of questions.toml; about the count, with what it is to be counted for."""
    fixed = fixed_question(question.clause, question.words, question.span)
    if fixed is None:
        return None
    counts = isinstance(fixed, acts.Ask) and fixed.about in OF_ALL
    if not counts or not question.inside:
        return [fixed]
    return [*told_besides(question.described()), fixed]


def _which_box(question: Question) -> list[Act] | None:
    """ "What box do I need for two 14-2s": with what it is for, told."""
    family = box_wanted(question.line, question.kinds, question.things)
    if family is None:
        return None
    told = [
        act
        for act in map(act_of, question.things)
        if act is not None and not isinstance(act, (acts.NameBoxKind, acts.SetSize))
    ]
    for later in question.following:
        told += tell(Telling(later, question.telling.heard))
    asked = acts.Ask(
        about="smallest_box", family=family or None, words=question.words, span=question.span
    )
    return [*told, asked]


def _found_whole(question: Question) -> list[Act] | None:
    """Questions that the phrases found with all that they are about."""
    if not {"what_changes", "list_boxes", "why", "which_edition"} & set(question.kinds):
        return None
    asked = (*question.clause.asked, *question.clause.found)
    return [
        act for found in asked if (act := act_of(found)) is not None and found.kind in _ANSWERED
    ]


def _for_room(question: Question) -> list[Act] | None:
    if not asks_for_room(question.clause, question.kinds, question.things):
        return None
    return room_for(question.clause, question.things, question.words, question.span)


def _whether_it_fits(question: Question) -> list[Act] | None:
    """ "Is an 18 enough for …": of an empty box it describes the box."""
    if not question.clause.fit or not question.things:
        return None
    return question.described()


def _how_about(question: Question) -> list[Act] | None:
    return question.described() if is_about(question.clause) else None


def _whether_it_counts(question: Question) -> list[Act] | None:
    """ "Does a wire nut count", "how much is a twelve worth"."""
    if not _COUNTS.search(question.line):
        return None
    if _TAKEN_OUT.match(question.line) or _TAKEN_OUT_OF_IT.match(question.words):
        return None
    counted, term = question.counted, question.term
    if not counted and not term:
        return None
    made = _meaning(term, counted, question.words, question.span)
    return [_landed(made, question)]


def _landed(made: acts.AskMeaning, question: Question) -> acts.AskMeaning:
    """ "What's a dimmer count for on number 12": of one that lands on that size."""
    size, thing = _ON_SIZE.search(question.line), made.thing
    if not isinstance(thing, acts.AddDevice) or thing.awg is not None or size is None:
        return made
    return replace(made, thing=replace(thing, awg=int(size[1])))


def _modal(question: Question) -> list[Act] | None:
    """ "Should I take out the switch": supposed, where anything is."""
    if not question.clause.modal:
        return None
    inner = question.supposed()
    return inner if inner and isinstance(inner[0], acts.Suppose) else None


def _what_it_means(question: Question) -> list[Act] | None:
    """ "What is a yoke", "what is a dimmer on twelves"."""
    if not _ASKS_OF_A_TERM.match(question.line) or (term := question.term) is None:
        return None
    sized = [one for one in question.counted if one.kind == "device" and one.get("awg")]
    return [_meaning(term, sized, question.words, question.span)]


def _found_in_it(question: Question) -> list[Act] | None:
    """A question of a fixed kind that the phrases found in it: the first."""
    told = [
        act
        for found in (*question.clause.asked, *question.clause.found)
        if found.kind in (*QUESTIONS, "dont_know") and (act := act_of(found)) is not None
    ]
    return told[:1] or None


def _margin(question: Question) -> list[Act] | None:
    """ "Does it fit"."""
    if not question.clause.fit or question.things:
        return None
    return [acts.Ask(about="margin", words=question.words, span=question.span)]


def _of_a_thing(question: Question) -> list[Act] | None:
    if not question.counted or not re.search(r"\b(?:what|how)\b", question.line):
        return None
    return [_meaning(question.term, question.counted, question.words, question.span)]


#: How a question may be meant; the first that makes anything of it decides.
_READINGS: tuple[Callable[[Question], list[Act] | None], ...] = (
    _the_most,
    _unsure,
    _of_a_report,
    volume_of_a_box,
    boxes_compared,
    box_tried,
    _worth_on_a_size,
    _conditional,
    _on_condition,
    _of_the_code,
    _taken_by_a_thing,
    _of_a_fixed_kind,
    _which_box,
    volume_for,
    _found_whole,
    _for_room,
    _whether_it_fits,
    _how_about,
    _whether_it_counts,
    _modal,
    _what_it_means,
    _found_in_it,
    _margin,
    _of_a_thing,
)


def _meaning(
    term: str | None, things: Sequence[Statement], words: str, span: tuple[int, int]
) -> acts.AskMeaning:
    sizes = [found.get("awg") for found in things if found.get("awg") is not None]
    thing = next((made for found in things if (made := thing_of(found)) is not None), None)
    if thing is None and things:
        term = term or things[0].kind
    awg = int(cast(int, sizes[0])) if sizes else None
    return acts.AskMeaning(term=term or "", thing=thing, awg=awg, words=words, span=span)
