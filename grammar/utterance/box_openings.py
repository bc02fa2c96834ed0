"""What begins or opens a box of the job: headings, "next box …", "back to the hall 3-way"."""

from __future__ import annotations

import re
from collections.abc import Sequence

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.clause import Clause
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer.numbers import value
from boxaloud.grammar.phrases.vocabulary import known_words
from boxaloud.grammar.utterance.going_on import gone_on
from boxaloud.grammar.utterance.headings import (
    NUMBERED,
    NUMBERED_BOX,
    ROOM_WORDS,
    ROOMS,
    WHICH_BOX,
    box_heading,
    is_place_name,
    name_in,
    names_a_box,
)
from boxaloud.grammar.utterance.named_boxes import (
    device_named,
    family_named,
    next_named,
    of_that_box,
    opened_named,
)
from boxaloud.grammar.utterance.place_headings import heads_by_place, told_by_place

_PLACES = ROOMS | ROOM_WORDS
#: The breaks that may stand behind the number of an exercise.
_HEADS = (".", ":", ";", "\n")
_FIRST = lazy_pattern(
    r"(?:(?:ok|okay|so|well|hi|hello|now|and|then|alright|right|please) )*"
    r"(?:(?:can|could|shall|should|may) (?:we|i|you)|let us|let me|i will|we will|i am|we are"
    r"|i want to|i would like to|we can)(?: going to)?"
    r" (?:do|doing|start|starting|begin|beginning|take|look at)(?: with| at| on| in)?"
    r" (?:the |my |our )(?P<name>(?:\S+ ){1,5}?)(?:(?:<n:1>|box) )?(?:first|now|next)"
)
"""“Can we do the bathroom one first?”: the box that is begun with."""
_OTHER = lazy_pattern(
    r"(?:(?:ok|okay|so|and|now|then|alright|right|well) )*"
    r"(?:<next_box::>|(?:other|another|a different|different) box)"
)
"""“Other box. Bedroom two”, “next box. Over the sink.”: a box begins, and its name may follow."""

_IS_NEXT = lazy_pattern(
    r"(?:(?:ok|okay|so|and|now|then|alright|right|well|the|my) )*"
    r"(?P<name>(?:[a-z]+ ){0,2}[a-z]+)(?:'s| is| box is| one is)(?: up)? next"
)
"""“Pantry's next.”: the box that begins."""


def opening(
    parts: list[Clause], place: int, heard: str, first: bool
) -> tuple[list[Act], int] | None:
    """The acts that begin or open a box at a clause, and how many clauses say it; None where no
    box is begun there. `first`: nothing was told before."""
    clause = parts[place]
    following = parts[place + 1 :]
    if first and (headed := _heading(clause, parts, place, heard)):
        return headed
    if (begun := _begun(clause, following, heard, first)) is not None:
        return begun
    opened, clauses = opened_named(clause, following, heard)
    if opened:
        return opened, clauses
    if (parted := of_that_box(clause, heard)) is not None:
        named, parts[place] = parted
        return named, 0
    return None


def _heading(
    clause: Clause, parts: list[Clause], place: int, heard: str
) -> tuple[list[Act], int] | None:
    """ "Kitchen island: …" names the box; "Number six. Two 14-3s …" is a heading."""
    following = parts[place + 1 :]
    numbers = bool(following) and NUMBERED_BOX.fullmatch(clause.line)
    if numbers and (numbered := _numbered(clause, following[0], heard)):
        return numbered, 2
    if following and clause.closes == "," and WHICH_BOX.fullmatch(clause.line):
        words = heard[slice(*clause.span)].strip(" .:,")
        return [_next(" ".join(words.split()[-2:]), words, clause.span)], 1
    if name := _first_named(clause, alone=not following):
        return [_next(name, heard[slice(*clause.span)], clause.span)], 1
    if name := heads_by_place(clause, following, heard):
        return [_next(name, heard[slice(*clause.span)], clause.span)], 1
    if told := told_by_place(parts, place, heard):
        return [_next(told[0], told[0], (clause.span[0], told[1]))], 0
    if name := box_heading(clause, parts, heard):
        held = [*_device_in_name(clause, following), *family_named(clause.elements)]
        return [_next(name, name, clause.span), *held], 1
    if following and (lettered := _LETTERED.fullmatch(clause.line)) and clause.closes in ":.,-":
        return [_next(lettered["name"], heard[slice(*clause.span)], clause.span)], 1
    words = heard[slice(*clause.span)]
    by_number = _BY_NUMBER.fullmatch(words.lower()) if following else None
    if by_number is not None and clause.closes == ":":
        return [_next(f"box {value((by_number['number'],))}", words, clause.span)], 1
    if following and clause.closes == ":" and _letter_alone(clause, following):
        letter = clause.elements[-1].tag
        return [_next(letter, letter, clause.span)], 1
    if following and clause.closes == ":" and _strange_name(clause, following):
        name = heard[slice(*clause.span)].strip()
        return [_next(name.lower(), name, clause.span)], 1
    if not following or clause.closes not in _HEADS or not NUMBERED.fullmatch(clause.line):
        return None
    return [], 1


_LETTERED = lazy_pattern(
    r"(?:(?:ok|okay|so|first|grab|hey|right|alright|start with|this is|here is) )*box"
    r" (?P<name>[a-h])"
)
#: "Box seven: …": no box for devices has so small a volume.
_BY_NUMBER = lazy_pattern(
    r"(?:(?:ok|okay|so|now|and|this is|here is|um|uh|hello),? )*box (?:number |no\.? |#)?"
    r"(?P<number>six|seven|eight|nine|ten|eleven|[6-9]|1[01])"
)
_NO_NAMES = frozenset(
    {"question", "note", "listen", "update", "correction", "problem", "contents", "inside", "total",
     "list", "answer", "look", "see", "here", "anyway", "summary", "fill", "stuff", "wires",
     "already", "existing", "currently", "presently"}
)  # fmt: skip
_LONGEST_NAME = 3


_BY_LETTER = lazy_pattern(r"(?:(?:and|then|now|next|ok|okay|so) )*[a-h]")


def _letter_alone(clause: Clause, following: Sequence[Clause]) -> bool:
    """ "B: four 14-2s …": the letter of a box, before what is in it."""
    if not _BY_LETTER.fullmatch(clause.line):
        return False
    return any(found.kind in ("cable", "conductors") for found in following[0].found)


def _strange_name(clause: Clause, following: Sequence[Clause]) -> bool:
    """ "Dairy: two 14-2s …": words that mean nothing else, before what is in the box."""
    words = [element.tag for element in clause.elements]
    if len(words) > _LONGEST_NAME or not all(word.isalpha() for word in words):
        return False
    if _NO_NAMES.intersection(words) or all(word in known_words() for word in words):
        return False
    return any(found.kind in ("cable", "conductors") for found in following[0].found)


def _device_in_name(clause: Clause, following: Sequence[Clause]) -> list[Act]:
    """ "Porch switch: two 14-2s": the device that a box is named by is in it, unless what is in
    it is listed: "porch sw / 14-2 x2 / sw 1"."""
    listed = any(found.kind == "device" for part in following for found in part.found)
    return [] if listed else device_named(clause.elements)


def _next(name: str, words: str, span: tuple[int, int]) -> acts.NextBox:
    return acts.NextBox(name=name, words=words, span=span)


def _numbered(clause: Clause, named: Clause, heard: str) -> list[Act]:
    """ "First box, the loafing barn: …": the box that is numbered and then named."""
    if clause.closes not in (",", ":", "-") or not names_a_box(named):
        return []
    words = heard[slice(*named.span)].strip(" .:,")
    name = re.sub(r"(?i)^(?:(?:it is|this is|that is|the|in the|for the) )+", "", words)
    return [_next(name, words, (clause.span[0], named.span[1]))]


_ROOM_FIRST = lazy_pattern(
    r"(?:(?:ok|okay|so|well|hi|hello|now|and|then|alright|right|the|my|our) )*"
    r"(?P<name>(?:[a-z]+ ){1,3}?)(?:(?:<box_kind[^>]*>|<gangs[^>]*>|<n:[1-9]>|box|gang) )*first"
)
"""“Living room three gang first”: by itself."""


def _first_named(clause: Clause, alone: bool) -> str:
    """The name in “can we do the bathroom one first?”, “living room three gang first”."""
    found = (_ROOM_FIRST if alone else _FIRST).fullmatch(clause.line)
    words = found["name"].split() if found else []
    known = all(word.isalpha() or re.fullmatch(r"<n:\d+>", word) for word in words)
    if not known or not ROOMS.intersection(words):
        return ""
    return " ".join(word.removeprefix("<n:").removesuffix(">") for word in words)


def _begun(
    clause: Clause, following: Sequence[Clause], heard: str, first: bool
) -> tuple[list[Act], int] | None:
    """ "Next one's the hall 3-way", "other box. Bedroom two": the name of the box that begins."""
    coming = _IS_NEXT.fullmatch(clause.line)
    words = coming["name"].split() if coming else []
    if ROOMS.intersection(words) and _PLACES.issuperset(words):
        return [_next(" ".join(words), heard[slice(*clause.span)], clause.span)], 1
    if (going := gone_on(clause, following, heard, first)) is not None:
        return going
    if not _OTHER.fullmatch(clause.line):
        run_on = _run_on(clause, heard)
        return (run_on, 1) if run_on else None
    other = "<next_box::>" not in clause.line
    if following and not other and (named := next_named(clause, following[0], heard)):
        return named, 2
    unnamed = other or not getattr(clause.found[0], "slots", {}).get("name")
    if following and unnamed and is_place_name(following[0]):
        span = (clause.span[0], following[0].span[1])
        name = name_in(heard[slice(*following[0].span)])
        return [_next(name, name, span)], 2
    alone = not following and not clause.line.endswith("the other box")
    if other and (alone or any(part.found for part in following)):
        return [_next("", heard[slice(*clause.span)], clause.span)], 1
    return None


def _run_on(clause: Clause, heard: str) -> list[Act]:
    """ "Another box the pantry", as an ear gives it: the name without a break before it."""
    tags = [element.tag for element in clause.elements]
    at = tags.index("box") + 1 if "box" in tags[:-1] else 0
    rest = Clause(clause.elements[at:], line="")
    if not at or not _OTHER.fullmatch(" ".join(tags[:at])) or not is_place_name(rest):
        return []
    return [_next(name_in(heard[slice(*rest.span)]), heard[slice(*clause.span)], clause.span)]


def nameless(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Back to the": no box has that name."""
    return [act for act in made if not (isinstance(act, acts.OpenBox) and act.name == "the")]
