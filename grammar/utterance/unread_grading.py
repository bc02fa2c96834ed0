"""Words that became part of no act, graded: does a verdict stand over them or not?"""

from __future__ import annotations

from collections.abc import Sequence

from boxaloud.grammar import grammar_data
from boxaloud.grammar.acts import Unread
from boxaloud.grammar.clauses.clause import Clause, Element
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance import unknown_things
from boxaloud.grammar.utterance.abbreviations import is_abbreviation
from boxaloud.grammar.utterance.device_words import heads_a_box, is_device_named

_TABLE = grammar_data.table("clauses")["other"]
_ROOM_NAMES = frozenset(grammar_data.table("clauses")["rooms"]["names"])
_UNITS = frozenset(_TABLE["units"])
_LABELS = frozenset(_TABLE["labels"])
_CHANGE = frozenset(_TABLE["change"])
_ROOMS = _ROOM_NAMES - {"box"}
_RUNS = tuple(tuple(said.split()) for said in _TABLE["runs"])
_RUN_BEHIND = frozenset(_TABLE["run_behind"])


def unread(clause: Clause, taken: set[int], known: set[str], text: str) -> list[Unread]:
    """The runs of words of a clause that are in no act, graded; `taken` are elements of acts."""
    found: list[Unread] = []
    unknown = unknown_things.in_the_box(clause, known)
    if unknown is None:
        unknown = heads_a_box(clause, known)
    for place, element in enumerate(clause.elements):
        if place in taken:
            continue
        if element.found is not None and element.found.kind != "unclear":
            continue
        start = element.start
        if (first := _run_without_size(clause.elements, place)) is not None:
            start = clause.elements[first].start
        elif element.found is None and not (
            place == unknown or _weighs(clause.elements, place, known, text)
        ):
            continue
        found.append(Unread(text[start : element.end], (start, element.end), True))
    return found


#: "One of them is a switch leg", "uses this as a feed": what is there already is called so.
_CALLED = frozenset({"is", "are", "was", "be", "as", "like", "for", "called", "of"})


def _run_without_size(elements: Sequence[Element], place: int) -> int | None:
    """ "And a home run", "there's another cable": a cable more whose size nobody said.

    The place where its words begin, if they end at `place`; else None.
    """
    tags = [element.tag for element in elements]
    for run in _RUNS:
        start = place + 1 - len(run)
        if start < 1 or tuple(tags[start : place + 1]) != run:
            continue
        if place + 1 < len(tags) and tags[place + 1] not in _RUN_BEHIND:
            return None  # "another cable staple", "the feed is hot"
        return start if _one_more(tags, start) else None
    return None


def _one_more(tags: Sequence[str], start: int) -> bool:
    """Whether what begins at `start` is one thing more, by the words before it."""
    article, before = tags[start - 1], tags[start - 2] if start > 1 else ""
    if article == "the":
        return before in unknown_things.ADDED or "too" in tags or "also" in tags
    if article not in ("a", "another", "more", "<n:1>"):
        return False
    return before not in _CALLED or (before == "is" and "there" in tags[: start - 1])


def _weighs(elements: Sequence[Element], place: int, known: set[str], text: str) -> bool:
    tag = elements[place].tag
    if tag.startswith(("<n:", "<pair:")):
        return _number_weighs(elements, place, text)
    if _LARGE_WIRE.fullmatch(tag):
        return True
    if tag in _HALVES and place + 1 < len(elements):
        after = elements[place + 1].tag
        return after == "of" or (after.isalpha() and after not in known)
    if tag == "pair":  # and not "a pair of pliers"
        return [e.tag for e in elements[place + 1 : place + 3]] in _OF_THEM
    if tag in ("drop", "bump") and place + 1 < len(elements) and elements[place + 1].tag == "in":
        return False  # "drop in one 12-2": the thing is there
    if tag in _CHANGE:
        return not (
            _is_a_mark(elements, place)
            or (tag in _ADDING and _before_a_thing(elements, place))
            or _before_the_box(elements, place)
        )
    if tag == "another":  # and not "another box"
        after = elements[place + 1].tag if place + 1 < len(elements) else "<"
        return (after in _ENDS or after[0] == "<") and _stands_for_a_cable(elements, place)
    if is_device_named(elements, place):
        return True  # "a switch to the left of it"
    if tag in known or not tag.isalpha():
        return False
    if unknown_things.one_more(elements, place):
        return not unknown_things.in_a_room(elements, place + 1)
    before = elements[place - 1].tag if place else ""
    if before.startswith("<n:") and before != "<n:1>":
        return True
    said = text[elements[place].start : elements[place].end]
    return is_abbreviation(said, text)


#: Before and behind "one" where it may be a cable more: "and one to the porch".
_JOINING = frozenset({"and", "plus", "then"})
_ENDS = frozenset({"to", "from", "for", "out", "up", "down", "going", "coming"})


def _stands_for_a_cable(elements: Sequence[Element], place: int) -> bool:
    """ "The 14-2 and one to the porch": behind a cable, and what it goes to, one cable more. Where
    other things or numbers are between, it is one of those."""
    for element in reversed(elements[:place]):
        if element.tag[0] == "<":
            return element.found is not None and element.found.kind == "cable"
    return False


#: "4/0": a conductor that has no volume, so that another section governs what it is in.
_LARGE_WIRE = lazy_pattern(r"[1-4]/0s?")
#: Quantities without a number: what they count is not passed over.
_HALVES = frozenset({"several", "half", "few", "dozen", "couple"})
_OF_THEM = (["of", "them"], ["of", "those"], ["of", "these"])
_ADDING = frozenset({"add", "include"})


def _is_a_mark(elements: Sequence[Element], place: int) -> bool:
    """ "There's a scratch on the number": no order to take something out."""
    return elements[place].tag in _MARKS and place > 0 and elements[place - 1].tag in _ARTICLES


#: Verbs of change that are marks on a thing, behind an article.
_MARKS = frozenset({"scratch", "bump", "drop"})
_ARTICLES = frozenset({"a", "the", "some", "this", "that", "big", "little", "deep", "next"})
_BOX_KINDS = frozenset({"box_volume", "box_size", "box_kind", "clamps", "edition", "part"})


def _before_a_thing(elements: Sequence[Element], place: int) -> bool:
    """ "add a dimmer": the verb says no more than that the thing is there."""
    return any(element.found is not None for element in elements[place + 1 : place + 5])


def _before_the_box(elements: Sequence[Element], place: int) -> bool:
    """ "swap the box for a 4 square": the box said anew replaces the old one anyway."""
    return any(e.found is not None and e.found.kind in _BOX_KINDS for e in elements[place + 1 :])


#: "Bath 10C", "4C, three 14-2s": the name of an apartment, letter and all ("2G" is two gangs).
_UNIT_NAME = lazy_pattern(r"(?i)[abcdefh](?![a-z0-9'])")
_NAME_ENDS = lazy_pattern(
    r"(?i)\s*(?:[,.;:!?)–—-]|$|(?:and|or|now|next|first|again|is|here|then|today|done|please|too|has|gets"
    rf"|{'|'.join(sorted(_ROOM_NAMES))})\b)"
)


def _number_weighs(elements: Sequence[Element], place: int, text: str) -> bool:
    after = elements[place + 1].tag if place + 1 < len(elements) else ""
    before = elements[place - 1].tag if place else ""
    if after in _UNITS or before in _LABELS:
        return False
    if _UNIT_NAME.match(text, elements[place].end) and (
        before in _ROOM_NAMES or _NAME_ENDS.match(text, elements[place].end + 1)
    ):
        return False
    if elements[place].tag == "<n:1>":  # "the one in the hall", "that one"
        if before in _JOINING and after in _ENDS and _stands_for_a_cable(elements, place):
            return True
        return text[elements[place].start : elements[place].end].isdigit()
    return True
