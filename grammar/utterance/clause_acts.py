"""The acts of one clause, with the clauses joined to it."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.grammar import acts, grammar_data
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.building.asked_acts import ask
from boxaloud.grammar.building.fixed_questions import order
from boxaloud.grammar.building.room_questions import goes_on
from boxaloud.grammar.building.table_counts import allowed_by_table, told_by_table
from boxaloud.grammar.building.told_acts import parts_of, tell
from boxaloud.grammar.building.told_clause import Telling
from boxaloud.grammar.clauses.act_fields import thing_of
from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.phrases.vocabulary import known_words
from boxaloud.grammar.utterance.asked_on import goes_on_asking, guesses
from boxaloud.grammar.utterance.boxes_alike import counts_boxes
from boxaloud.grammar.utterance.correction_markers import is_marker
from boxaloud.grammar.utterance.further_ones import further_denied
from boxaloud.grammar.utterance.headings import (
    ROOM_WORDS,
    ROOMS,
    denied_topic,
    grounds_listed,
    is_heading,
    is_topic,
)
from boxaloud.grammar.utterance.once_and_now import no_longer
from boxaloud.grammar.utterance.other_talk import is_weak
from boxaloud.grammar.utterance.unknown_things import in_the_box
from boxaloud.grammar.utterance.unread_grading import unread
from boxaloud.grammar.utterance.usual_things import says_what_is_usual
from boxaloud.grammar.utterance.whereabouts import clause_elsewhere

_CHANGES = frozenset(grammar_data.table("clauses")["other"]["change"])
#: Verbs that take a thing out: none of them is unknown.
_TAKES_OUT = lazy_pattern(grammar_data.table("patterns")["macros"]["remove"])
#: "Three times", "twice over": how often what stands before it is there.
#: "I've got the feed for the shed": a cable, wherever it goes.
_FEED = lazy_pattern(
    r"(?i)(?:i(?:['’]ve| have)(?: also)?(?: got)?|there(?:['’]s| is)|i see|plus|and)(?: also)?"
    r" (?:an?|the|another|my) feed(?:er)? (?:for|to|from)\b"
)
_HOW_OFTEN = lazy_pattern(r"(?i)(?:just |only )?(?:\w+ times|twice)(?: over)?")
_LIFTS = frozenset({"lift", "pop", "kick", "haul", "boot"})
"""Verbs that take a thing out where "out" stands behind it."""


def clause_acts(
    parts: list[Clause], place: int, heard: str, corrective: bool, described: bool
) -> tuple[int, list[Act], list[Unread]]:
    """The acts of the clause at a place; with those joined to it, where it asks or supposes.

    `described`: the utterance describes a box, in this clause or another.
    """
    clause = parts[place]
    _declarative_after_all(clause)
    telling = Telling(clause, heard, corrective)
    if clause.mood != "declarative":
        return _asked(telling, parts, place)
    if (strange := _nobody_knows(telling)) is not None:
        return place + 1, *strange
    usual = says_what_is_usual(parts, place)
    other = clause_elsewhere(clause, heard, described)
    elsewhere = usual or other or counts_boxes(parts, place)
    if elsewhere and allowed_by_table(clause, heard) is None:  # "the Table permits ten"
        return place + 1, *_of_something_else(parts, place, heard, usual)
    if (formed := _told_by_form(parts, place, heard)) is not None:
        return *formed, []
    if (unclear := _unknown_operator(clause, heard)) is not None:
        return place + 1, [unclear], []
    told = [_asked_about(act, parts, place, heard) for act in tell(telling)]
    if not told and (asked := order(clause, heard)):
        return place + 1, asked, []
    if is_topic(clause, told) and place + 1 < len(parts):
        following = parts[place + 1]
        if denial := denied_topic(clause, following, heard):
            return place + 2, [*told[:-1], *denial], []
    if is_heading(clause, told):
        if isinstance(told[0], acts.AddGrounds):
            return grounds_listed(parts, place + 1, heard)
        return place + 1, [], []
    if any(isinstance(act, (acts.SetVolume, acts.SetSize)) for act in told):
        return (
            place + 1,
            told,
            [run for run in _unread(clause, told, heard) if run.words.lower() not in _CHANGES],
        )
    return place + 1, told, _unread(clause, told, heard)


def _of_something_else(
    parts: list[Clause], place: int, heard: str, usual: bool
) -> tuple[list[Act], list[Unread]]:
    """What is told of other things; what may be of the box after all is not passed over in
    silence, unless it says what is `usual`."""
    clause = parts[place]
    words = heard[clause.span[0] : clause.span[1]]
    exact = any(found.kind == "cable" and found.get("count") is not None for found in clause.found)
    held = [Unread(words, clause.span, True)] if exact and not usual else []
    if _FEED.search(words):
        held = [Unread(words, clause.span, True)]
    if _HOW_OFTEN.fullmatch(words) and place and parts[place - 1].found:
        held = [Unread(words, clause.span, True)]  # "two 12-2, three times": two or six
    return [acts.OtherTalk(words=words, span=clause.span)], held


def _nobody_knows(telling: Telling) -> tuple[list[Act], list[Unread]] | None:
    """ "There's a gizmo behind the switch": what nobody knows is held, and "the switch", which it
    is tied to, is no other one."""
    if in_the_box(telling.clause, known_words()) is None:
        return None
    told = [
        act
        for act in tell(telling)
        if not (is_weak(act) or isinstance(act, (acts.DontKnow, acts.OtherTalk)))
    ]
    return told, _unread(telling.clause, told, telling.heard)


def _told_by_form(parts: list[Clause], place: int, heard: str) -> tuple[int, list[Act]] | None:
    """What the form of a clause, or of two, tells: by the Table, put and answered, once and now."""
    if (allowed := told_by_table(parts[place], heard)) is not None:
        return place + 1, allowed
    return _put_and_answered(parts, place, heard) or no_longer(parts, place, heard)


_THEN_ASKED = lazy_pattern(
    r"(?:and |so |but )*(?:does|do|will|would|did|is|how does) (?:that|it|this|they|those)\b"
)


def _asked_about(act: Act, parts: list[Clause], place: int, heard: str) -> Act:
    """ "Just one switch?", "only two of them, does that change it?": a number told within a
    question, or asked about at once, is asked back before it changes anything."""
    if not isinstance(act, (acts.Restate, acts.Recount, acts.Reclassify)) or act.doubts:
        return act
    ends = place + 1 == len(parts) and heard.rstrip().endswith("?")  # "just one switch, please?"
    asked = ends or parts[place].closes == "?"
    if not asked and not (_then_asked(parts, place) and _counts(act)):
        return act
    return replace(act, doubts=(acts.Doubt("count", "unusual"),))


def _counts(act: Act) -> bool:
    """Whether an act says how many there are, and not what some of them are."""
    return not isinstance(act, acts.Reclassify)


def _then_asked(parts: list[Clause], place: int) -> bool:
    """Whether the clause behind asks what it changes: "…, does that matter?"."""
    if place + 1 >= len(parts) or parts[place].closes not in (",", ""):
        return False
    following = parts[place + 1]
    return following.mood == "interrogative" and _THEN_ASKED.match(following.line) is not None


def _put_and_answered(parts: list[Clause], place: int, heard: str) -> tuple[int, list[Act]] | None:
    """ "The travellers, they count?", "second stud? no": asked over two clauses, or answered."""
    clause = parts[place]
    if (
        place + 1 < len(parts)
        and clause.closes == ","
        and parts[place + 1].closes == "?"
        and len(clause.elements) < 5
        and re.search(r"\bcounts?\b|\bcounted\b", parts[place + 1].line)
    ):
        return place + 2, ask(Telling(parts[place + 1], heard))
    return further_denied(parts, place, heard)


def _asked(
    telling: Telling, parts: list[Clause], place: int
) -> tuple[int, list[Act], list[Unread]]:
    """The acts of a clause that asks or supposes, with those joined to it."""
    clause = parts[place]
    end = place + 1
    alone = clause.mood == "interrogative" and not clause.found and not clause.modal
    while not alone and end < len(parts) and goes_on_asking(clause, parts[end - 1], parts[end]):
        end += 1
    if clause.mood == "conditional" and _corrected_question(parts, end):
        span = (clause.span[0], parts[end + 1].span[1])
        unknown = acts.AskUnknown(words=telling.heard[slice(*span)], span=span)
        return end + 2, [unknown], []
    told = ask(telling, parts[place + 1 : end])
    if end == place + 1 and end < len(parts) and guesses(clause, parts[end]):
        end += 1
    if end < len(parts) and isinstance(told[0], acts.RoomFor) and goes_on(parts[end].line):
        end += 1
    return end, told, []


def _corrected_question(parts: list[Clause], end: int) -> bool:
    """ "What if I take out a 14-2, no, the 14-3?": all of it is asked, and none of it told."""
    behind = parts[end : end + 2]
    return len(behind) == 2 and is_marker(behind[0]) and behind[1].closes == "?"


_BEFORE_VERB = frozenset(
    {"ok", "okay", "so", "and", "then", "now", "well", "please", "just", "i", "we", "you",
     "let", "us", "oh", "actually", "no", "wait", "also", "to", "gonna", "going", "should",
     "will", "can"}
)  # fmt: skip


def _unknown_operator(clause: Clause, heard: str) -> acts.UnknownOperator | None:
    """ "yeet the switch": an operator that nobody knows, before a thing that is named."""
    elements = clause.elements
    at = 0
    while at < len(elements) - 1 and elements[at].tag in _BEFORE_VERB:
        at += 1
    if at + 2 != len(elements):
        return None
    verb, thing = elements[at], elements[at + 1]
    if not verb.tag.isalpha() or verb.tag in known_words() or verb.tag.endswith("ing"):
        return None
    if (
        thing.found is None
        or verb.tag in ROOMS
        or verb.tag in ROOM_WORDS
        or verb.tag.endswith(("ed", "s"))
    ):
        return None
    if _TAKES_OUT.fullmatch(verb.tag) or (
        verb.tag in _LIFTS and thing.found.words.lower().endswith((" out", " off"))
    ):
        return None
    if not thing.tag.endswith(":d>") and not thing.found.words.lower().startswith(
        ("a ", "an ", "one ", "the ")
    ):
        return None
    made = thing_of(thing.found)
    if made is None:
        return None
    words = heard[verb.start : thing.end]
    return acts.UnknownOperator(
        verb=heard[verb.start : verb.end], thing=made, words=words, span=(verb.start, thing.end)
    )


_RELATIVE = lazy_pattern(
    r"^(?!where (?:is|are|was|were)\b)"
    r"(?!which (?:<n:1> )?(?:is|are|has|holds|one is) (?:the )?(?:more|most|[a-z]+ier|bigger"
    r"|larger|smaller|deeper|wider|taller|tighter|shallower|better|cheaper|[a-z]+est)\b)"
    r"(?:which|who|where|when) (?:(?:is|are|has|have|was|were|goes|go|comes|come|makes|feeds"
    r"|means) (?:(?:a|an|the|all|both|on|to|just|of|got|from) )*<|(?:i|we|both|all|each"
    r"|<(?!box_(?:kind|size):[^>]*> (?:is|are|do|does|should|must|will|would|can)\b)))"
)
_WHAT_I_HAVE = lazy_pattern(
    r"^(?:(?:so|ok|okay|well|and) )*(?:what|here is what) (?:i|we) (?:have|am|got|see|found"
    r"|count|counted|meant|mean|should have said)\b"
    r"|^(?:(?:so|and|then) )*what (?:goes|went|comes|came|is going|is coming)(?: back)?"
    r" (?:there|in|(?:in )?(?:it is|its|their) (?:place|spot|stead))"
    r"(?: (?:there|now|instead|in (?:it is|its|their) (?:place|spot|stead)))*"
    r" (?:is|are) (?:<|a|one)"
)


def _declarative_after_all(clause: Clause) -> None:
    """ "…, which is a dimmer", "what I have is …" tell."""
    if clause.mood == "interrogative" and (
        (clause.opens in (",", "") and clause.closes != "?" and _RELATIVE.match(clause.line))
        or _WHAT_I_HAVE.match(clause.line)
    ):
        clause.mood = "declarative"
        clause.fit = clause.modal = False


def _unread(clause: Clause, told: list[Act], heard: str) -> list[Unread]:
    if all(e.found is not None and e.found.kind != "unclear" for e in clause.elements):
        return []  # nothing of it is a word by itself
    spans = sorted(act.span for act in parts_of(told) if act.words)
    taken: set[int] = set()
    ahead, reach = 0, -1
    for place, element in enumerate(clause.elements):
        while ahead < len(spans) and spans[ahead][0] <= element.start:
            reach = max(reach, spans[ahead][1])
            ahead += 1
        if element.end <= reach:
            taken.add(place)
    return unread(clause, taken, known_words(), heard)
