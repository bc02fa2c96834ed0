"""Headings: the names of boxes, numbers of exercises, kinds of things before a colon."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from boxaloud.grammar import acts, grammar_data
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.building.told_acts import tell
from boxaloud.grammar.building.told_clause import Telling
from boxaloud.grammar.clauses.act_fields import THINGS
from boxaloud.grammar.clauses.clause import Clause, Element
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.phrases.statements import Statement
from boxaloud.grammar.phrases.vocabulary import known_words

ROOMS = frozenset(grammar_data.table("clauses")["rooms"]["names"])
ROOM_WORDS = frozenset(grammar_data.table("clauses")["rooms"]["words"])
_CODE = lazy_pattern(r"[a-z]{1,3}-\d{1,3}[a-z]?")


def named_device(elements: Sequence[Element]) -> Element | None:
    """The device that a box is named by, "the hall 3-way": by a room, and by what is in it."""
    device = next((e for e in elements if e.found is not None and e.found.kind == "device"), None)
    if device is None or device.found is None or device.found.get("count") is not None:
        return None
    words = {w for e in elements for w in (e.found.words.lower().split() if e.found else [e.tag])}
    return device if words & ROOMS - {"box"} else None


def words_named(element: Element, device: Element | None) -> list[str]:
    """The words that an element of a heading stands for: of a device, those of its room."""
    if element is not device or element.found is None:
        return [element.tag]
    return [w for w in element.found.words.lower().split() if w in ROOMS]


def box_heading(clause: Clause, parts: list[Clause], heard: str) -> str:
    """ "Kitchen island: …", "laundry box. …": the name of a box as first words; else empty."""
    turned_to = clause is parts[-1] and clause.line.endswith(" box now")
    if turned_to:
        clause = replace(clause, elements=clause.elements[:-1])
    alone = (len(parts) == 1 or turned_to) and clause.elements[-1].tag.startswith(
        ("box", "<box_kind")
    )
    counted = re.fullmatch(r"(?:[a-z]+ ){1,2}<n:[1-9]>", clause.line) and clause.closes == ","
    ends = clause.closes in (":", ".", "\n", "/") or counted or _heads_a_box(clause, parts)
    if (not alone and (not ends or len(parts) < 2)) or len(clause.elements) > 6:
        return ""
    words = _words_of_heading(clause.elements)
    if (
        words
        and _CODE.fullmatch(words[-1])
        and all(w in ("box", "item", "no", "number") for w in words[:-1])
    ):
        return heard[clause.span[0] : clause.span[1]].strip(" .:,").split()[-1]
    if not words or not all(w.isalnum() or w.startswith(("<n:", "<box_kind")) for w in words):
        return ""
    numbered = len(words) == 2 and words[0] == "box" and words[1].startswith("<n:")
    called = clause.closes == ":" and _called_by_place(words)
    if not (numbered or called or _of_a_place(words)):
        return ""
    start, end = clause.span
    number = _ITS_NUMBER.match(heard, end)  # "room 110.", whose number is no count
    return name_in(heard[start : number.end() if number else end])


def _heads_a_box(clause: Clause, parts: Sequence[Clause]) -> bool:
    """ "Kitchen, two gang 34 …": a place before a comma heads a box that is described behind it."""
    at = next((place for place, part in enumerate(parts) if part is clause), None)
    if at is None or clause.closes != "," or any(part.found for part in parts[: at + 1]):
        return False
    words = [element.tag for element in clause.elements if element.tag not in _AROUND]
    if not ROOMS.intersection(words) or not (ROOMS | ROOM_WORDS).issuperset(words):
        return False  # "sewing room zapper": nobody knows what that is
    return any(found.kind.startswith("box_") for part in parts[at + 1 :] for found in part.found)


_ITS_NUMBER = lazy_pattern(
    r"(?i) ?#? ?\d{1,4}[a-z]?(?= *[.:])|(?<=ext: unit|ext: room|box: unit|box: room) \d+[a-z]?(?=,)"
)


def _words_of_heading(elements: Sequence[Element]) -> list[str]:
    """The words that a heading names a box by; of a device in it, those of its room."""
    device = named_device(elements)
    return [word for e in elements for word in words_named(e, device) if word not in _AROUND]


_AROUND = frozenset(
    {"ok", "okay", "alright", "so", "now", "then", "this", "is", "the", "and", "for", "in", "it"}
)
_NEAR = frozenset(
    {"over", "by", "near", "at", "behind", "above", "under", "below", "beside", "bottom", "top",
     "outside", "next"}
)  # fmt: skip


_HUNG = frozenset(grammar_data.table("clauses")["other"]["hung"]) | {"fan", "light", "lamp"}
#: Words of a place that tell no place by themselves: "old box: …", "j box: …", "light: …".
_NO_PLACES = frozenset(
    {"of", "big", "small", "old", "new", "a", "b", "c", "d", "j", "junction", "number", "first",
     "second", "third", "rest", "great", "bonus"}
)  # fmt: skip


def _called_by_place(words: Sequence[str]) -> bool:
    """Whether words before a colon call a box by where it is, or by what hangs on it: "upstairs
    box: …", "sconce box: …"."""
    called = words[:-1]
    if words[-1] != "box" or not called or _NEAR.intersection(called[-1:]):
        return False
    return all(word in _HUNG or word in ROOM_WORDS - _NO_PLACES for word in called)


def _of_a_place(words: Sequence[str]) -> bool:
    """Whether words name a place in a building: a room, and what tells it from others."""
    if not any(word in ROOMS and word != "box" for word in words):
        return False
    return all(may_name(word) for word in words)


def may_name(word: str) -> bool:
    """Whether a word may be of the name of a place: it names one, or means nothing else."""
    return word in ROOMS or word in ROOM_WORDS or word[0] == "<" or word not in known_words()


def name_in(text: str) -> str:
    """The name in the words of a heading: "so the hall box" is "hall"."""
    bare = re.sub(
        r"(?i)^(?:(?:ok|okay|alright|so|now|then|and|this is|it is|it's|the|for the|in the|for"
        r"|(?:the )?(?:first|next|second|third) (?:one|box|up)(?:'s| is)?|starting (?:in|with)) )+",
        "",
        " ".join(text.replace(",", " ").split()).strip(" .:/-"),
    )
    return re.sub(r"(?i) (?:j |jn |junction |splice )?box(?: now)?$", "", bare).strip()


def is_place_name(clause: Clause) -> bool:
    """Whether a clause behind "next box" is the name of a box: "bedroom two", "over the sink"."""
    words = [e.tag for e in clause.elements if e.tag != "the"]
    if not 0 < len(words) <= 6 or any(
        e.found is not None and e.tag[:3] != "<n:" for e in clause.elements
    ):
        return False
    if not all(may_name(word) or word in _NEAR for word in words):
        return False
    return any(word in ROOMS for word in words) or (words[0] in _NEAR and len(words) > 1)


#: "First box", "box one": the number of a box, before its name.
NUMBERED_BOX = lazy_pattern(
    r"(?:(?:ok|okay|so|right|now|alright|well|this is|the) )*"
    r"(?:(?:first|second|third|fourth|next|last) (?:box|<n:1>)|box <n:\d+>)"
)


#: "Box two, also 20.3 …", "now box B, a four square …": which box what follows is of.
WHICH_BOX = lazy_pattern(
    r"(?:(?:and|then|now|next|ok|okay|so|right|alright|well|for|in|on) )*"
    r"(box (?:<n:[1-9]>|[a-h]))"
)


def names_a_box(clause: Clause) -> bool:
    """Whether a clause before a colon holds nothing but a name of a few words."""
    return (
        clause.closes in (":", ".")
        and len(clause.elements) <= 5
        and all(e.found is None and e.tag.replace("'", "").isalpha() for e in clause.elements)
    )


LETTERED = lazy_pattern(
    r"(?:(?:this is|this one is|ok|okay|now|first|so|and|then|well|alright|hello|um|uh|back to"
    r"|go to|on to|over to),? )*(box (?:[a-z]|[1-5]|one|two|three|four|five))"
    r"(?:,? (?:again|now|please))*[.:,]?"
)
BOX_TOPIC = lazy_pattern(
    r"^(?:(?:and|so|ok|okay|now|as for|about|going back to|back to|for|no|wait|sorry|actually) )*"
    r"(?:(?:the|my|this) (?:box|volume|capacity)"
    r"|(?:i|we|he|they)(?: will| have| am| are| did)? (?:chang(?:e|ed|ing)|swap(?:ped)?"
    r"|switch(?:ed)?|replaced?) (?:the |my |that |this )?box"
    r"|(?:the|my) box (?:is |got |has )?(?:changed|different|another)"
    r"|(?:i|we|he|they)(?: will| have)? (?:put|use|used|got|have|took) "
    r"(?:other|another|a different|different|a new|a bigger|bigger|a smaller) box)$"
)


def of_the_box(act: Act) -> Act:
    """A number said of the box is its volume."""
    if isinstance(act, (acts.Number, acts.RestateNumber)) and act.value is not None:
        return acts.SetVolume(
            volume=act.value,
            words=act.words,
            span=act.span,
            doubts=act.doubts,
            function="correction",
        )
    return act


def grounds_listed(
    parts: list[Clause], place: int, heard: str
) -> tuple[int, list[Act], list[Unread]]:
    """ "EGC: 1 - #10, 2 - #12": what stands under that heading are grounds."""
    made: list[Act] = []
    while place < len(parts):
        clause = parts[place]
        told = tell(Telling(clause, heard))
        if not told or not all(
            isinstance(act, (acts.AddConductors, acts.AddGrounds)) for act in told
        ):
            break
        made += [
            acts.AddGrounds(count=act.count, awg=act.awg, words=act.words, span=act.span)
            for act in told
            if isinstance(act, (acts.AddConductors, acts.AddGrounds))
        ]
        place += 1
        if clause.closes not in (",", "and", ""):
            break
    return place, made, []


def is_heading(clause: Clause, told: list[Act]) -> bool:
    """ "Devices:" before the devices: a heading is no thing."""
    if clause.closes != ":" or len(told) != 1 or len(clause.elements) > 2:
        return False
    act = told[0]
    if isinstance(act, acts.AddDevice):
        return act.count is None and act.name in (None, "device")
    if any(one.found is None and one.tag not in known_words() for one in clause.elements):
        return False  # "ground practice: eight 14s": a name, and eight wires
    things = (acts.AddGrounds, acts.AddConductors, acts.NameBoxKind)
    return isinstance(act, things) and getattr(act, "count", None) is None


def is_topic(clause: Clause, told: list[Act]) -> bool:
    """A thing named by itself before a colon, a question mark or a comma."""
    return (
        bool(told)
        and clause.closes in (":", "?", ",", "(", "[", "")
        and clause.elements[-1].found is not None
    )


#: The words that may stand in a denial of what was named before it: "clamps? none in this one".
_PLAINLY = frozenset(grammar_data.table("clauses")["polarity"]["plainly"])


_PLAIN_NOT = frozenset(["not", "inside", "in", "the", "box", "them", "internal", "any"])


def _of_the_rest(clamps: Statement, head: Element, heard: str) -> bool:
    """ "… with internal clamps, nothing on it": nothing else, and clamps all the same."""
    said = (clamps.words.lower(), heard[head.start : head.end].lower())
    return said[0].startswith("with ") or said[1] == "nothing"


def denied_topic(clause: Clause, following: Clause, heard: str) -> list[Act] | None:
    """ "clamps? none inside", "devices: none"."""
    from boxaloud.grammar.clauses.polarity import denied, is_negator

    head = following.elements[0]
    others = any(e.tag.isalpha() and e.tag not in _PLAINLY for e in following.elements)
    if others or not is_negator(head):
        return None  # "clamps inside, no gadgets": of the gadgets
    plain_not = {e.tag for e in following.elements} <= _PLAIN_NOT
    if head.tag in ("not", "without", "minus") and not plain_not:
        return None
    if any(
        e.found is not None and e.found.kind in (*THINGS, "clamps", "part", "nothing")
        for e in following.elements
    ):
        return None
    topic = clause.elements[-1].found
    clamps = topic if topic is not None and topic.kind == "clamps" else None
    if clamps is not None and _of_the_rest(clamps, head, heard):
        return None
    if head.tag == "not" and clamps is not None:
        span = (clamps.span[0], following.span[1])
        return [acts.SetClamps(where="none", words=heard[slice(*span)], span=span)]
    both = [clause.elements[-1], *following.elements]
    return _plainly_denied(both, heard) if denied(both) else None


def _plainly_denied(both: list[Element], heard: str) -> list[Act]:
    """The denial of a topic alone: "none inside" says no more than "none"."""
    from boxaloud.grammar.clauses.polarity import denied

    return tell(Telling(Clause(both, line=""), heard))[: len(denied(both))]


NUMBERED = lazy_pattern(
    r"(?:(?:ok|okay|so|now|alright|this is|here is|next|and) )*(?:number|problem|exercise"
    r"|example|question|item|no) (?:<n:\d+>|<size[^>]*>)|<size::>"
)
