"""What the words beside a thing make of it: no thing of this box, no number, a size."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace

from boxaloud.grammar import acts, grammar_data
from boxaloud.grammar.acts import Act, Reference
from boxaloud.grammar.building.told_clause import Telling
from boxaloud.grammar.clauses.act_fields import KIND_OF
from boxaloud.grammar.clauses.act_kinds import ROUTED
from boxaloud.grammar.clauses.clause import Element
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer.numbers import word_classes

_TELLING = grammar_data.table("clauses")["telling"]
_ONE_BEHIND = frozenset(_TELLING["before_one"])
_HEADS = frozenset(_TELLING["tools"])
_HOT_HEADS = frozenset(_TELLING["hot_heads"])
_OTHER_UNITS = frozenset(_TELLING["other_units"])
_SEVERAL_BOXES = lazy_pattern(r"(?:(?:the|these|those|all) )*[a-z0-9 -]+ boxes", re.IGNORECASE)
SIZE_NUMBERS = frozenset({"<n:14>", "<n:12>", "<n:10>", "<n:8>", "<n:6>"})


def is_pronoun_one(elements: Sequence[Element], place: int) -> bool:
    """ "in this one", "the plastic one": no number."""
    element = elements[place]
    if element.tag != "<n:1>" or not place or element.found is None:
        return False
    if element.found.words.lower().strip() not in ("one", "the one", "that one", "this one"):
        return False
    before = elements[place - 1].tag
    return before not in _ONE_BEHIND and not before.startswith("<n")


def is_size_behind_on(elements: Sequence[Element], place: int) -> bool:
    """ "on the 14": a size, and never a volume."""
    before = [element.tag for element in elements[max(0, place - 2) : place]]
    return before[-1:] == ["on"] or before == ["on", "the"]


def size_behind_on(elements: Sequence[Element], place: int, telling: Telling) -> acts.Size:
    """The size, with the "on" before it."""
    first = place - 1 if elements[place - 1].tag == "on" else place - 2
    span = (elements[first].start, elements[place].end)
    return acts.Size(
        awg=int(elements[place].tag[3:-1]), words=telling.heard[slice(*span)], span=span
    )


def bears_clamps(elements: Sequence[Element], place: int) -> bool:
    """ "an internal clamp on one cable": the cable is one of those said."""
    found = elements[place].found
    if found is None or found.kind != "cable" or found.get("awg") is not None:
        return False
    before = elements[max(0, place - 2) : place]
    return any(e.tag in ("on", "for", "per") for e in before) and any(
        e.found is not None and e.found.kind == "clamps"
        for e in elements[max(0, place - 4) : place]
    )


def is_named_after(elements: Sequence[Element], place: int) -> bool:
    """ "the receptacle tester", "a stud finder", "the hot work": the thing only says which."""
    found = elements[place].found
    after = elements[place + 1].tag.removesuffix("'s") if place + 1 < len(elements) else ""
    if found is None or found.get("awg") is not None:
        return False
    return after in _HEADS or (after in _HOT_HEADS and found.words.lower().split()[-1] == "hot")


def is_no_volume(elements: Sequence[Element], place: int) -> bool:
    """ "says twenty amps", "eighteen dollars a box", "eleven boxes": no volume of this box."""
    found = elements[place].found
    if found is None or found.kind != "box_volume" or found.get("unit") is not None:
        return False
    words = found.words.strip()
    if _SEVERAL_BOXES.fullmatch(words):
        return not _CUBIC.search(words)
    after = elements[place + 1].tag if place + 1 < len(elements) else ""
    return after in _OTHER_UNITS and bool(word_classes(words.lower().split()[-1]))


_FRAMING = frozenset(_TELLING["against"])
_LUMINAIRES = frozenset(_TELLING["luminaires"])


def is_framing(elements: Sequence[Element], place: int) -> bool:
    """ "The box is nailed to the stud", "on a metal stud": what the box hangs on is in no box."""
    found = elements[place].found
    if found is None or any(e.tag.removesuffix("s") in _LUMINAIRES for e in elements):
        return False
    if found.kind == "box_kind" and place + 1 < len(elements):
        return set(found.slots) == {"material"} and is_framing(elements, place + 1)
    if found.kind != "fitting" or not _STUD.fullmatch(found.words.lower()):
        return False
    before = [e for e in elements[:place] if e.found is None or e.found.kind != "box_kind"]
    return bool(before) and before[-1].tag in _FRAMING


_STUD = lazy_pattern(r"(?:(?:the|a|that|this) )?(?:(?:metal|wood|steel|wall) )*studs?")
_ACTING = frozenset(_TELLING["acting"])
_IDLE = frozenset(_TELLING["idle"])


def is_number_of_another(elements: Sequence[Element], place: int) -> bool:
    """ "The old fifty goes spare", "the twenty is for the fridge": a circuit, and no volume."""
    found = elements[place].found
    if found is None or found.kind not in ("box_volume", "number") or found.get("unit") is not None:
        return False
    lead = " ".join(element.tag for element in elements[max(0, place - 2) : place])
    named = _NAMED.match(found.words.lower()) or re.search(r"\b(?:the|that)(?: old)?$", lead)
    after = [element.tag for element in elements[place + 1 : place + 3]]
    if not named or not after or "box" in found.words.lower():
        return False
    return after[0] in _ACTING or (len(after) > 1 and after[0] in _BEING and after[1] in _IDLE)


_NAMED = lazy_pattern(r"(?:the|that) (?:(?:old|new|other) )?[a-z0-9 -]+$")
_BEING = frozenset({"is", "was", "are", "were", "stays", "gets", "got", "just"})

_CUBIC = lazy_pattern(r"\b(?:cu|cubic|cubes?|inch(?:es)?|in)\b", re.IGNORECASE)


def is_no_thing(elements: Sequence[Element], place: int, heard: str) -> bool:
    """ "both cable clamps", "it's hot up here", "I'll feed it": no thing of the box."""
    found = elements[place].found
    if found is None:
        return False
    if is_named_after(elements, place) or is_no_volume(elements, place):
        return True
    if found.kind == "number" and place and elements[place - 1].tag == "wrong":
        return True  # "that was the wrong pair": which it was, and not how many
    if is_framing(elements, place) or is_number_of_another(elements, place):
        return True
    words = found.words.lower().strip()
    after = elements[place + 1] if place + 1 < len(elements) else None
    if found.kind == "device" and found.get("count") is None and after is not None:
        # "the switch box has a 12-2 too": the box at hand
        at_hand = words.startswith(("the ", "that ", "this ", "my "))
        return after.tag == "box" and at_hand
    if (found.kind == "cable" and found.get("awg") is None) or (
        found.get("role") is not None and found.get("count") is None
    ):
        sized = found.get("awg") is not None  # "12-2 out clamps inside": a cable, and the clamps
        if not sized and after is not None and after.found and after.found.kind == "clamps":
            return True
        if (
            words in ("feed", "feeds")
            and after is not None
            and after.tag in ("it", "them", "that", "this", "the", "from")
        ):
            return True
        if words == "feed" and place and elements[place - 1].tag == "to":
            return True
    return (
        words in ("hot", "neutral")
        and place > 0
        and elements[place - 1].tag in ("is", "are", "was", "so", "too", "really")
    )


_TELLING_OF = frozenset(_TELLING["predicates"])
_STATING = frozenset({"only", "just", "there", "have", "has", "got", "is", "are", "was", "were"})
_OF_THOSE = lazy_pattern(r"\bof (?:the|those|these|my)\b")


def is_some_of_them(elements: Sequence[Element], place: int) -> bool:
    """ "One of the 12-2s goes to the porch": something is told of one of those that are there, and
    not how many there are ("only one of the 12-2s", "there is one of the 12-2s")."""
    found = elements[place].found
    low = found.words.lower() if found is not None else ""
    if found is None or not _OF_THOSE.search(low) or low.startswith(("only ", "just ")):
        return False
    if any(element.tag in _STATING for element in elements[:place]):
        return False
    if _done_to(elements, place):
        return True
    after = elements[place + 1].tag if place + 1 < len(elements) else ""
    verb = found.get("role") is not None or low.endswith((" runs", " run"))
    return after in _TELLING_OF or (verb and after != "")


_WHO = frozenset({"i", "we", "he", "she", "they"})
_BETWEEN = frozenset({"just", "also", "already", "then", "now", "have", "had", "even"})
#: What somebody does who says how many there are.
_COUNTING = frozenset(
    {
        "see", "saw", "count", "counted", "found", "find", "need", "want", "mean", "meant", "said",
        "say", "needed", "wanted", "entered", "mentioned", "missed", "added", "overlooked", "used",
    }
)  # fmt: skip


def _done_to(elements: Sequence[Element], place: int) -> bool:
    """ "I labeled one of the 14-2s": what somebody does with one of them, whatever it is."""
    before = [e for e in elements[:place] if e.tag not in _BETWEEN]
    if len(before) < 2 or before[-1].found is not None or before[-2].tag not in _WHO:
        return False
    return before[-1].tag not in _COUNTING and before[-1].tag.endswith("ed")


_MOVED = frozenset({"take", "pull", "move", "drop", "lose", "remove", "swap", "ditch", "send"})
_MOVING = frozenset(
    {"taking", "pulling", "moving", "dropping", "losing", "removing", "swapping", "sending"}
    | {"moves", "moved", "goes", "going", "went", "shifts", "shifting", "leads", "heads"}
)


def some_moved(act: Act, elements: Sequence[Element], place: int) -> Act | None:
    """ "Can't take one of the 14-2s out", "one of the 14-2s moves over": so many of those are
    meant, and not how many there are, which is asked."""
    if not isinstance(act, ROUTED) or not _OF_THOSE.search(act.words.lower()):
        return None
    beside = [element.tag for element in elements]
    if not _MOVED.intersection(beside[:place]) and not _MOVING.intersection(beside):
        return None
    return replace(act, doubts=(*act.doubts, acts.Doubt("count", "some")))


def of_some(act: Act, elements: Sequence[Element], place: int) -> Act:
    """ "One cable goes to the porch": of cables that are there, it may be one of them."""
    if not isinstance(act, acts.AddCable) or act.awg is not None or act.count is None:
        return act
    if any(element.tag in _STATING for element in elements[:place]):
        return act
    after = elements[place + 1].tag if place + 1 < len(elements) else ""
    if after not in _TELLING_OF or _FURTHER_ONES.search(act.words.lower()):
        return act
    return replace(act, doubts=(*act.doubts, acts.Doubt("count", "some")))


def some_routed(act: Act) -> acts.Reclassify | None:
    """ "Two of those fourteens go straight through": so many of those that are there meet the box
    in another way, and the rest stay as they are."""
    if not isinstance(act, ROUTED) or act.path is None or act.count is None:
        return None
    if not _OF_THOSE.search(act.words.lower()):
        return None
    return acts.Reclassify(
        count=act.count, kind=KIND_OF[type(act)], path=act.path, awg=act.awg, words=act.words,
        span=act.span, function="correction",
    )  # fmt: skip


_FURTHER_ONES = lazy_pattern(r"\b(?:another|more|extra|other|only|just)\b")


def behind_no(elements: Sequence[Element], place: int) -> bool:
    """ "no three 14-2s": a number behind "no" corrects."""
    return place > 0 and elements[place - 1].tag in ("no", "nope") and place == 1


_FURTHER = frozenset({"second", "third", "fourth", "fifth", "sixth"})
_FURTHER_WORDS = lazy_pattern(
    r"(?i)(?:a |an |any |one )?"
    r"(?:another|other|second|third|fourth|fifth|sixth|extra|more|further)\b"
)


def is_further_one(elements: Sequence[Element], place: int) -> bool:
    """ "Second stud", "another switch": one beside those that are there, and none of them."""
    found = elements[place].found
    if found is not None and _FURTHER_WORDS.match(found.words):
        return True
    before = [element.tag for element in elements[max(0, place - 2) : place]]
    named = before[:-1] and before[0] in ("the", "that", "this", "my")
    return bool(before) and not named and before[-1] in (*_FURTHER, "extra", "further", "other")


def one_more(act: Act, elements: Sequence[Element], place: int) -> Act:
    """ "a second six-three", "put a second cable in it", "a second switch on the 12s": one more."""
    before = [element.tag for element in elements[max(0, place - 2) : place]]
    if not isinstance(act, (acts.AddCable, acts.AddDevice)) or act.count is not None:
        return act
    if isinstance(act, acts.AddDevice) and act.awg is None:
        return act
    if len(before) < 2 or before[0] != "a" or before[1] not in _FURTHER:
        return act
    if act.awg is None:
        target = Reference("cable", which="last", words=act.words)
        return acts.More(target=target, count=1, words=act.words, span=act.span, function="request")
    return replace(act, count=1, doubts=tuple(d for d in act.doubts if d.slot != "count"))
