"""Names of devices that became part of nothing: each counts, 314.16(B)(4)."""

from __future__ import annotations

from collections.abc import Sequence, Set
from itertools import takewhile

from boxaloud.grammar import acts, grammar_data
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.clause import Clause, Element
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.headings import ROOM_WORDS, ROOMS

_DEVICES = frozenset(
    {"switch", "switches", "dimmer", "dimmers", "receptacle", "receptacles", "gfci", "timer"}
)
_PLACING = frozenset({"to", "over", "under", "above", "below", "out", "next", "beside"})
_ARTICLE = lazy_pattern(r"an?|another|<n:[^>]*>")


def is_device_named(elements: Sequence[Element], place: int) -> bool:
    """ "A switch to the left of it": a device behind an article, and no order to switch; "a switch
    leg", "one of them a dimmer" are none more. "One of those bath fan timers": one of its kind."""
    if _one_of_a_kind(elements, place):
        return True
    if elements[place].tag not in _DEVICES or not place:
        return False
    after = elements[place + 1].tag if place + 1 < len(elements) else ""
    if after not in _PLACING or (place > 1 and elements[place - 2].tag in ("them", "those")):
        return False
    return _ARTICLE.fullmatch(elements[place - 1].tag) is not None


_KINDS = _DEVICES | {"outlets", "plugs", "gfcis", "sensors", "timers", "thermostats", "controls"}


def _one_of_a_kind(elements: Sequence[Element], place: int) -> bool:
    tags = [element.tag for element in elements[: place + 1]]
    if tags[-1] not in _KINDS or not tags[-1].endswith("s"):
        return False
    words = " ".join(tags[-_LONGEST - 3 :])
    return _OF_THOSE.search(words) is not None


_OF_THOSE = lazy_pattern(r"<n:[^>]*> of (?:those|these|them) (?:[a-z]+ )+[a-z]+$")


#: Words that nobody knows, formed as the names of devices are.
_FORMED = lazy_pattern(
    r"[a-z]*(?:er|or|stat|way|meter|module|amajig|izer|switch|plug|outlet)s?"
    r"|gizmos?|gadgets?|widgets?|contraptions?|doohickeys?|whatsits?"
)
#: And those of what stands in a room and is in no box.
_FURNISHING = lazy_pattern(
    r"[a-z]*(?:heater|dryer|washer|cooler|freezer|fier|softener|opener|blower|burner|boiler"
    r"|grinder|charger|mirror|corner|counter|chandelier|door|floor|terior|center|shower|maker"
    r"|cooker|warmer|mower|computer|printer|server|tower|elevator|generator|compressor|motor"
    r"|refrigerator|number|drawer|disposer|pour)s?"
)


_BESIDE = frozenset(grammar_data.table("whereabouts")["leading_away"]["prepositions"])


def heads_a_box(clause: Clause, known: Set[str]) -> int | None:
    """ "Sewing room zapper, 14-3 …": the place of a word behind a room that nobody knows, and that
    may be a device as well as part of the name of the box; None where there is none."""
    elements = clause.elements
    words = [e.tag for e in takewhile(lambda element: element.found is None, elements)]
    if not 1 < len(words) <= _LONGEST or elements[0].start > _AHEAD:
        return None
    if len(words) == len(elements) and clause.closes != ",":
        return None
    last = words[-1]
    if last in known or not ROOMS.intersection(words[:-1]) or not _may_be_device(last):
        return None
    if words[-2] in ("the", "my", "our") and words[-3:-2] and words[-3] in _BESIDE:
        return None  # "box by the toaster": where it is
    return len(words) - 1


def _may_be_device(word: str) -> bool:
    """Whether a word that nobody knows is formed as the name of a device."""
    if word in ROOMS or word in ROOM_WORDS:
        return False
    return _FORMED.fullmatch(word) is not None and _FURNISHING.fullmatch(word) is None


def device_ahead(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Sewing room zapper 14-3", where no mark is heard: such a word is no part of the cable's
    name, and weighs."""
    for act in made:
        if not isinstance(act, acts.AddCable) or act.count is not None or act.role is not None:
            continue
        ahead = _BEFORE_SIZE.match(act.words)
        last = ahead["last"].lower() if ahead is not None else ""
        before = heard[: act.span[0]].lower().split()[-1:]
        if ahead is None or last in _OF_CABLES or not _may_be_device(last):
            continue
        if ROOMS.intersection((*before, *ahead["first"].lower().split())):
            start = act.span[0] + ahead.start("last")
            left.append(Unread(ahead["last"], (start, start + len(last)), True))
    return made


_BEFORE_SIZE = lazy_pattern(
    r"(?P<first>(?:[A-Za-z]+ )*)(?P<last>[A-Za-z]+) (?=\d|(?:ten|twelve|fourteen|eight|six)\b)"
)
#: Words before a size that are none of a device, as they end.
_OF_CABLES = frozenset(
    {"copper", "feeder", "rubber", "silver", "other", "another", "for", "or", "over", "under"}
    | {"after", "per", "either", "number", "outer", "inner", "upper", "lower", "longer", "shorter"}
)
_AHEAD = 12
"""Characters before a heading: "ok so, "."""
_LONGEST = 5
"""Words of a heading."""


def names_device(heard: str, span: tuple[int, int]) -> bool:
    """The same of words that nothing was made of, where no clause is at hand."""
    before = heard[: span[0]].lower().split()[-1:]
    return heard[slice(*span)].lower() in _DEVICES and before in (["a"], ["an"], ["one"])
