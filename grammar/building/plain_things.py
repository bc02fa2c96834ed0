"""What no pattern takes: each noun group, value or command by itself."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference, Thing
from boxaloud.grammar.building.clamp_places import (
    ALL_PLACED,
    PLACE_WORDS,
    clamps_placed,
    place_clamps,
    place_of,
    points_back,
)
from boxaloud.grammar.building.luminaire_wires import fixture_wires
from boxaloud.grammar.building.neighbouring_words import (
    SIZE_NUMBERS,
    bears_clamps,
    behind_no,
    is_further_one,
    is_no_thing,
    is_no_volume,
    is_pronoun_one,
    is_size_behind_on,
    is_some_of_them,
    of_some,
    one_more,
    size_behind_on,
    some_moved,
    some_routed,
)
from boxaloud.grammar.building.places_named import is_elsewhere
from boxaloud.grammar.building.some_of_those import some_befallen
from boxaloud.grammar.building.told_clause import Telling
from boxaloud.grammar.clauses.act_fields import (
    KIND_OF,
    THINGS,
    act_of,
    marked,
    reference_to,
    thing_of,
)
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.clauses.clause import Element
from boxaloud.grammar.clauses.polarity import denied, is_negator
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.phrases.statements import Statement

BESIDE_A_PLACE = frozenset(
    {
        "cable",
        "conductors",
        "device",
        "grounds",
        "fixture_wires",
        "fitting",
        "terminal_block",
        "uncounted",
        "box_volume",
        "box_size",
    }
)


def plain_acts(telling: Telling, elements: Sequence[Element], rest: bool = False) -> list[Act]:
    """Each noun group, value or command by itself: entered, denied or restated."""
    negative = denied(elements) if any(map(is_negator, elements)) else set()
    corrects = not rest and telling.corrects
    several = sum(e.found is not None and e.found.kind in THINGS for e in elements) > 1
    made: list[Act] = []
    ahead: list[Statement] = []  # places before the clamps: "they are inside clamps"
    kinds = {element.found.kind for element in elements if element.found is not None}
    for place, element in enumerate(elements):
        found = element.found
        if found is None or _passed_over(elements, place, telling.heard):
            continue
        if negative and (element.tag == "<n:0>" or element.tag.startswith("<yes")):
            continue  # "clamps 0", "clamps there is not": it is what denies, or part of that
        if found.kind == "place":
            if "clamps" in kinds:
                ahead += _placed_ahead(made, found) if place not in negative else ()
                made += place_clamps(made, found)
                continue
            if kinds & BESIDE_A_PLACE and not points_back(elements, place):
                continue
        if place in negative:
            one = _nth_denied(elements, place, found)
            made += one or (_denial(found) if several else _alone_denied(elements, place, found))
        elif corrects or behind_no(elements, place):
            made += _restated(found, element, telling, several)
        elif element.tag in SIZE_NUMBERS and is_size_behind_on(elements, place):
            made.append(size_behind_on(elements, place, telling))
        elif (act := act_of(found)) is not None and not _yet(act, telling.heard):
            only = bool(place) and elements[place - 1].tag in ("just", "only")
            made.append(_of_those(act, elements, place, only and element.tag.endswith(":d>")))
    made = made or _all_placed(telling, elements)
    made += [act for found in ahead for act in place_clamps(made, found)]
    return fixture_wires(clamps_placed(made, elements), telling)


def _all_placed(telling: Telling, elements: Sequence[Element]) -> list[Act]:
    """ "Both of them are on the inside": where those are, of whatever was asked."""
    where = ALL_PLACED.fullmatch(" ".join(e.tag for e in elements))
    if where is None:
        return []
    span = (elements[0].start, elements[-1].end)
    words = telling.heard[slice(*span)]
    return [acts.Place(where=PLACE_WORDS[where[1]], words=words, span=span)]


def _placed_ahead(made: list[Act], found: Statement) -> tuple[Statement, ...]:
    return () if any(isinstance(act, acts.SetClamps) for act in made) else (found,)


def _passed_over(elements: Sequence[Element], place: int, heard: str) -> bool:
    """Whether what the words beside a thing say of it makes it none of this box."""
    if len(elements) == 1:  # all else is said by words beside it
        return is_no_volume(elements, place)
    found = elements[place].found
    return (
        is_pronoun_one(elements, place)
        or is_some_of_them(elements, place)
        or (found is not None and found.kind == "device" and is_elsewhere(elements, place))
        or bears_clamps(elements, place)
        or is_no_thing(elements, place, heard)
    )


def _yet(act: Act, heard: str) -> bool:
    """ "Nothing else yet": more is to come."""
    if not isinstance(act, acts.NothingElse):
        return False
    return heard[act.span[1] : act.span[1] + 4].lower() == " yet"


_FURTHER = lazy_pattern(r"\b(?:more|another|extra|additional|other)\b")
_OF_A_KIND = lazy_pattern(
    r"\w+ of (?:the|those|these|my) (?:old|older|new|newer|existing|original)\b"
)
_OF_THOSE = lazy_pattern(r"\bof (?:the|those|these|my)\b")


def _partitive(act: Act, only: bool = False) -> Act:
    """ "only one of the 12-3s", "just the one switch" says how many there are of what was named
    before."""
    if (routed := some_routed(act)) is not None:
        return routed
    if is_thing(act) and act.count is not None:
        low = act.words.lower()
        if act.count < 0 and low.startswith("minus "):
            target = replace(just_like(act), count=-act.count)
            return acts.Remove(target=target, words=act.words, span=act.span, function="request")
        if _FURTHER.search(low):
            return act
        if isinstance(act, acts.AddCable) and _OF_A_KIND.match(low):
            # of those that are there, or so many of that kind
            return replace(act, doubts=(*act.doubts, acts.Doubt("count", "some")))
        if _OF_THOSE.search(low) or only or low.startswith(("only ", "just ")):
            return acts.Restate(
                thing=act, instead_of=just_like(act), words=act.words, span=act.span,
                doubts=act.doubts, function="correction",
            )  # fmt: skip
    return act


def _of_those(act: Act, elements: Sequence[Element], place: int, only: bool) -> Act:
    """The act, or what it is where it is told of some of those that are there: "there's another
    one of those cables behind" is one more, and not one in all."""
    another = place and elements[place - 1].tag == "another"
    if not (another and is_thing(act) and _OF_THOSE.search(act.words.lower())):
        moved = some_moved(act, elements, place) or some_befallen(act, elements, place)
        return moved or _partitive(of_some(one_more(act, elements, place), elements, place), only)
    return acts.More(
        target=just_like(act), count=act.count or 1, words=act.words, span=act.span,
        function="request",
    )  # fmt: skip


def just_like(act: Thing) -> Reference:
    """A reference to things that differ from `act` in nothing but their count."""
    return Reference(
        KIND_OF[type(act)], getattr(act, "name", None), getattr(act, "awg", None),
        getattr(act, "conductors", None), words=act.words,
    )  # fmt: skip


def _alone_denied(elements: Sequence[Element], place: int, found: Statement) -> list[Act]:
    """ "There is no second stud": no further one, so that those that are there stay."""
    if found.kind in THINGS and is_further_one(elements, place):
        return [acts.Keep(words=found.words, span=found.span)]
    of_canopy = found.kind == "fixture_wires" and "canopy" in found.words.lower()
    if of_canopy and any(element.tag in _POINTING for element in elements[:place]):
        return [acts.SetCanopy(canopy=False, words=found.words, span=found.span)]
    return _denial(found)


_NTH = {"second": 2, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "last": -1, "extra": 0}
_THE_OTHER = lazy_pattern(r"(?i)(?:the|that|this|my) (?:other|extra) .*(?<!s)")
_DEFINITE = frozenset({"the", "that", "this", "my"})


def _nth_denied(elements: Sequence[Element], place: int, found: Statement) -> list[Act]:
    """ "Without the third 14-2", "minus that last switch": one of those that are there goes."""
    if found.kind not in ("cable", "device", "conductors") or found.get("count") is not None:
        return []
    if _THE_OTHER.fullmatch(found.words):
        target = replace(reference_to(found), count=1)
        return [acts.Remove(target=target, words=found.words, span=found.span, function="request")]
    before = [element.tag for element in elements[max(0, place - 2) : place]]
    if len(before) < 2 or before[0] not in _DEFINITE or before[1] not in _NTH:
        return []
    if found.words.lower().endswith("s") and before[1] in ("last", "extra"):
        return []
    nth = _NTH[before[1]] or None
    target = replace(reference_to(found), ordinal=nth, count=None if nth else 1)
    return [acts.Remove(target=target, words=found.words, span=found.span, function="request")]


#: "Those aren't canopy wires": they are there, and from no canopy.
_POINTING = frozenset({"these", "those", "they", "them", "it", "that"})

_MADE_IN = lazy_pattern(r"\b(?:built|integral|part|comes?|came)\b")


def _denial(found: Statement) -> list[Act]:
    """A thing that is not there."""
    if found.kind == "place" and _MADE_IN.search(found.words.lower()):
        return []  # "they're not part of the box": inside it or not is yet to be said
    if found.kind in ("clamps", "place"):
        where, clamps = place_of(found), found.kind == "clamps"
        if clamps and where == "outside":
            return []
        opposite: dict[acts.Placing, acts.Placing] = {"inside": "outside", "outside": "inside"}
        there: acts.Placing = "none" if clamps else opposite.get(where, "none")
        return [acts.SetClamps(where=there, words=found.words, span=found.span)]
    if found.kind == "nothing":
        made = act_of(found)
        return [made] if made is not None else []
    if re.match(r"(?i)another ", found.words) and found.kind in THINGS:
        # "one more 12-2, not another 12-3": of those that are there, one goes
        return [
            acts.Remove(
                target=replace(reference_to(found), count=1),
                words=found.words,
                span=found.span,
                function="request",
            )
        ]
    if found.kind == "fixture_wires" and found.get("canopy"):
        return [acts.SetCanopy(canopy=False, words=found.words, span=found.span)]
    return [acts.Deny(target=reference_to(found), words=found.words, span=found.span)]


def _restated(found: Statement, element: Element, telling: Telling, several: bool) -> list[Act]:
    """A thing said anew, in place of what it can mean; of several, only of what is just like it."""
    if found.kind == "number":
        value = found.get("value")
        if value is None:
            return []
        if Decimal(str(value)) in (14, 12, 10, 8, 6) and re.search(
            r"\bon (?:the )?<n:\d+>", telling.clause.line
        ):
            return [acts.Size(awg=int(value), words=found.words, span=found.span)]
        return [
            acts.RestateNumber(
                value=Decimal(str(value)),
                words=found.words,
                span=found.span,
                doubts=found.doubts,
                function="correction",
            )
        ]
    thing = thing_of(found)
    if thing is not None:
        act = act_of(found)
        if isinstance(act, acts.Deny):
            return [act]
        if (routed := some_routed(thing)) is not None:
            return [routed]
        like = just_like(thing) if several else None
        return [
            acts.Restate(
                thing=thing,
                instead_of=like,
                words=found.words,
                span=found.span,
                doubts=thing.doubts,
                function="correction",
            )
        ]
    act = act_of(found)
    return [] if act is None else [marked(act, "correction")]
