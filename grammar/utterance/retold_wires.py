"""Wires and sizes that are only told again: the wires of the cables just named, the parts of a
count, and the size of a ground that was named before it (each counts once, 314.16(B)(1), (5))."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import TypeGuard

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_SUMS_UP = lazy_pattern(
    r"(?i)\b(?:that is|that['’]s|that makes|that gives|which is|which makes|which gives|making"
    r"|giving|for a total of|totall?ing|so)(?: me| us| you)?\s*$"
)
_INSULATED = lazy_pattern(r"(?i)\b(?:insulated|current[ -]carrying)\b")
_FURTHER = lazy_pattern(r"(?i)\b(?:plus|also|more|another|extra|additional|too|and|with)\b")
#: What leads to further wires: "two 14-2s and four insulated wires".
_JOINS = lazy_pattern(r"(?i)\b(?:plus|also|more|another|extra|additional|and|with)\W*$")


def wires_of_cables(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Four 14-2s, that's eight conductors", "…, eight insulated wires": those of the cables. "One
    14-3, three wires and a ground": what is in it."""
    kept: list[Act] = []
    for act in _without_makeup(made, heard):
        thing = act.thing if isinstance(act, acts.Restate) else act
        if isinstance(thing, acts.AddConductors) and _told_again(thing, kept, heard):
            continue
        kept.append(act)
    return kept


_AND_A = lazy_pattern(r"(?i)\s*,?\s*(?:and|plus|with)\s+(?:an?\s+|the\s+|one\s+)?")
_APPOSED = lazy_pattern(r"(?i)(?:(?!\b(?:and|plus|with|also)\b)[^.;,])*(?:,|\(|:|[–—-]+)\s*")
_MAKEUP = 3
"""A cable, its wires and its ground."""


def _without_makeup(made: list[Act], heard: str) -> list[Act]:
    """The acts without the wires and the ground that a cable is said to be made of."""
    lost = {
        place + step
        for place in range(len(made) - _MAKEUP + 1)
        if _is_makeup(made[place : place + _MAKEUP], heard)
        for step in (1, 2)
    }
    return [act for place, act in enumerate(made) if place not in lost] if lost else made


def _is_makeup(three: list[Act], heard: str) -> bool:
    """Whether wires of no size, just as many as the one cable before them has, and a ground are
    said behind it without a word that joins them to it."""
    cable, wires, ground = three
    if not isinstance(cable, acts.AddCable) or not isinstance(wires, acts.AddConductors):
        return False
    if not isinstance(ground, acts.AddGrounds) or ground.count not in (None, 1) or ground.awg:
        return False
    if (wires.awg, wires.role, wires.path) != (None, None, None) or cable.count not in (None, 1):
        return False
    between = heard[cable.span[1] : wires.span[0]]
    joined = _AND_A.fullmatch(heard[wires.span[1] : ground.span[0]] + " ")
    return (
        wires.count == cable.conductors
        and _APPOSED.fullmatch(between) is not None
        and joined is not None
    )


def _told_again(act: acts.AddConductors, before: list[Act], heard: str) -> bool:
    cables = [one for one in before if isinstance(one, acts.AddCable)]
    wires = sum((one.count or 1) * (one.conductors or 0) for one in cables)
    if not cables or act.count != wires or (act.role, act.path) != (None, None):
        return False
    if act.awg not in (None, cables[-1].awg) or isinstance(before[-1], acts.AddConductors):
        return False
    between = heard[cables[-1].span[1] : act.span[0]]
    if _SUMS_UP.search(between):
        return True
    return _INSULATED.search(act.words) is not None and not _JOINS.search(between)


_PART = lazy_pattern(
    r"(?i)(?:[a-z]+|\d+) (?:of (?:them|those|these) )?(?:are |is |were )?"
    r"(?:(?:coming|going|heading|running) (?:in|out)|in|out|entering|leaving|arriving"
    r"|black|white|red|blue|orange|brown|yellow|gr[ae]y|hot|neutral)s?(?: and)?"
)


def parts_of_count(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Ten 14s, five coming in and five going out": the parts are those ten."""
    kept: list[Act] = []
    place = 0
    while place < len(made):
        act = made[place]
        kept.append(act)
        place += 1
        if isinstance(act, acts.AddConductors) and act.count and act.path is None:
            place += _parts(act, made[place:], heard)
    return kept


def _parts(whole: acts.AddConductors, behind: list[Act], heard: str) -> int:
    """How many acts behind a count are parts that come to it; 0 where they do not."""
    counted, end = 0, whole.span[1]
    for number, act in enumerate(behind, 1):
        lead = heard[end : act.span[0]]
        if (
            not isinstance(act, acts.AddConductors)
            or act.awg not in (None, whole.awg)
            or act.path is not None
            or not _PART.fullmatch(act.words.strip())
            or (number == 1 and _FURTHER.search(lead))
        ):
            return 0
        counted, end = counted + (act.count or 0), act.span[1]
        if counted == whole.count and number > 1:
            return number
    return 0


_GROUND_IS = lazy_pattern(
    r"(?i)\bground(?:ing)?s?(?: wires?| conductors?)?(?:['’](?:s|re)| is| are| was| were)"
    r"(?: all| only| just| both)?\s*$"
)
_IT_IS = lazy_pattern(
    r"(?i)\bground[^,.;:]*[,.;]\s*(?:and )?(?:it['’]s|it is|that['’]s|that one['’]s|it was)\s*$"
)
#: "A ground in and a ground out, fourteen as well".
_AS_WELL = lazy_pattern(r"(?i)\b(?:as well|too|also|the same)$")


def size_of_ground(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Its ground is a number 10", "an isolated ground, it's a number 12": no further wire."""
    kept: list[Act] = []
    for act in made:
        thing = act.thing if isinstance(act, acts.Restate) else act
        place = _ground_before(thing, kept, heard) if _one_of_size(thing) else None
        ground = kept[place] if place is not None else None
        awg = getattr(thing, "awg", None)
        if place is not None and isinstance(ground, acts.AddGrounds):
            kept[place] = replace(ground, awg=awg, words=f"{ground.words} of {thing.words}")
        elif isinstance(act, acts.Size) and _AS_WELL.search(act.words) and _is_ground(kept):
            kept = [replace(one, awg=awg) if _unsized(one) else one for one in kept]
        elif kept and (named := _named_behind(kept[-1], act, heard)):
            kept[-1] = named
        elif kept and _unsized(last := kept[-1]) and (size := _size_behind(act, last, heard)):
            kept[-1] = replace(last, awg=size)
        else:
            kept.append(act)
    return kept


_SORT = lazy_pattern(r"(?i)an? (?!.*\b(?:ground|more|other|second)s?\b)")


def _named_behind(last: Act, act: Act, heard: str) -> acts.AddGrounds | None:
    """ "One ground wire, a bare number twelve": that one ground, with its size; else None."""
    if not isinstance(act, acts.AddGrounds) or not _unsized(last):
        return None
    between = heard[last.span[1] : act.span[0]].strip()
    one = last.count == 1 and act.count == 1 and act.awg is not None
    apposed = between in (",", "-", "–", "—") and _SORT.match(act.words) is not None
    return replace(last, awg=act.awg) if one and apposed else None


_TOO = lazy_pattern(r"(?i)\W*(?:(?:too|also|as well|in there|with (?:it|them))\W+)*(?:it['’]s )?")


def _size_behind(act: Act, ground: Act, heard: str) -> int | None:
    """ "One green too, twelve": the size of the ground said right before it; else None."""
    if not isinstance(act, acts.Number) or act.value not in _SIZES:
        return None
    behind = _TOO.fullmatch(heard, ground.span[1], act.span[0]) is not None
    return int(act.value) if behind else None


_SIZES = frozenset(map(Decimal, (14, 12, 10, 8, 6)))


def _is_ground(kept: list[Act]) -> bool:
    return bool(kept) and _unsized(kept[-1])


def _unsized(act: Act) -> TypeGuard[acts.AddGrounds]:
    return isinstance(act, acts.AddGrounds) and act.awg is None


_BOX_OF = lazy_pattern(
    r"(?i)\s*box\W*(?:(?:here|in my hand|in front of me)\W*)?"
    r"(?:is |of |measuring |that measures )?(?:an? )?"
)


_TAKES = lazy_pattern(r"(?i)\b(?:takes?|gangs?|needs?|amps?)\b")


def switch_box(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Switch box three by two, three and a half deep": what box it is, and no switch."""
    return [
        act
        for act, behind in zip(made, [*made[1:], None], strict=True)
        if not (isinstance(act, acts.AddDevice) and _names_box(act, behind, heard))
    ]


def _names_box(act: acts.AddDevice, behind: Act | None, heard: str) -> bool:
    """Whether a device is the name of the box that is measured right behind it: "a switch box in
    my hand, three by two by two and a half", "the device box is a three by two"."""
    if not isinstance(behind, acts.SetSize) or act.count not in (None, 1):
        return False
    if act.words.lower().startswith(("one ", "1 ")):
        return False  # "one switch box is three by two", by ear: a switch is counted
    if _TAKES.search(act.words):
        return False  # "a receptacle that takes a two gang box. The box is…"
    between = heard[act.span[1] : behind.span[0]]
    if not between.strip(" "):
        return behind.words.lower().startswith("box ")
    return _BOX_OF.fullmatch(between) is not None


def _one_of_size(act: object) -> bool:
    return isinstance(act, acts.AddConductors) and act.count in (None, 1) and act.awg is not None


def _ground_before(thing: object, kept: list[Act], heard: str) -> int | None:
    """The place of the ground without a size that a size is said of; None where there is none."""
    if not isinstance(thing, acts.AddConductors):
        return None
    before = heard[: thing.span[0]]
    bare = [place for place, act in enumerate(kept) if _unsized(act)]
    if not bare:
        return None
    if _GROUND_IS.search(before):
        return bare[-1]
    if not _IT_IS.search(before):
        return None
    alone = [place for place in bare if getattr(kept[place], "isolated", None)]
    return (alone or bare)[0]


_AMONG = lazy_pattern(
    r"(?i)(?:only |just )?(?:[a-z]+|\d+) of (?:them|those|these|which|em|['’]em)\b.*"
)


def grounds_among(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Ten number 12s, two of them green": grounds that are among those ten."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        if (
            isinstance(act, acts.AddGrounds)
            and isinstance(last, acts.AddConductors)
            and (act.count or 0) < (last.count or 0)
            and act.awg in (None, last.awg)
            and _AMONG.fullmatch(act.words.strip())
        ):
            kept[-1] = replace(last, count=(last.count or 0) - (act.count or 0))
            act = replace(act, awg=last.awg)
        kept.append(act)
    return kept
