"""References resolved to lines of the box: it, those twelves, the second cable, both, the other."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.grammar.acts import Reference, Thing, ThingKind
from boxaloud.grammar.clauses.act_fields import KIND_OF
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer import numbers
from boxaloud.rules.contents import (
    BondingJumper,
    Cable,
    Conductors,
    FixtureWires,
    Grounds,
    SupportFitting,
    TerminalBlock,
    Uncounted,
    Yoke,
)

TYPES: dict[str, tuple[type, ...]] = {
    "cable": (Cable,),
    "conductors": (Conductors,),
    "grounds": (Grounds,),
    "jumper": (BondingJumper,),
    "fixture_wires": (FixtureWires,),
    "device": (Yoke,),
    "fitting": (SupportFitting,),
    "terminal_block": (TerminalBlock,),
    "uncounted": (Uncounted,),
    "wire": (Cable, Conductors),
    "anything": (
        Cable, Conductors, Grounds, BondingJumper, FixtureWires, Yoke, SupportFitting,
        TerminalBlock, Uncounted,
    ),
}  # fmt: skip


def kind_of(thing: Thing) -> ThingKind:
    """The kind of a described thing."""
    return KIND_OF[type(thing)]


def to_thing(thing: Thing) -> Reference:
    """A reference to things like the one described."""
    return Reference(
        kind_of(thing),
        getattr(thing, "name", None),
        getattr(thing, "awg", None),
        getattr(thing, "conductors", None),
        words=thing.words,
    )


def called(item: Item) -> str:
    """The name of a device, fitting or uncounted thing; empty for wires."""
    content = item.content
    return str(getattr(content, "name", getattr(content, "kind", "")))


def agrees(item: Item, reference: Reference) -> bool:
    """Whether an item is all that a reference says of it."""
    content = item.content
    if not isinstance(content, TYPES.get(reference.kind, ())):
        return False
    for slot, said in (("awg", reference.awg), ("conductors", reference.conductors)):
        if said is not None and getattr(content, slot, said) not in (None, said):
            return False
    name = reference.name
    if name is None or name == "device" or reference.kind not in ("device", "fitting", "uncounted"):
        return True
    return same_name(called(item), name)


def same_name(one: str, other: str) -> bool:
    """ "the switch" may mean a three-way switch; "the receptacle" the GFCI receptacle."""
    one, other = one.lower(), other.lower()
    return one == other or one.endswith(other) or other.endswith(one)


def find_all(state: State, reference: Reference) -> list[Item]:
    """The items that a reference can mean, in the order said."""
    if reference.item is not None:
        item = state.item(reference.item)
        return [item] if item else []
    pronoun = reference.kind == "anything" and reference.awg is None
    if pronoun and reference.which in ("said", "last") and not reference.ordinal:
        last = state.item(state.last)
        if reference.words and (reference.count is None or named_ones(reference.words)):
            named = by_words(state, reference.words)
            if named:
                return named
        if last is None:
            last = _latest(state, reference)
        return [last] if last else []
    found = [item for item in state.items if agrees(item, reference)]
    if reference.kind == "anything":  # "ditch the twelves": wires and cables go by their size
        wires = [item for item in found if isinstance(item.content, (Cable, Conductors))]
        found = wires or found
    found = found or _as_many(state, reference) or _cables_of(state, reference)
    if not found or (reference.kind == "cable" and reference.awg is None and len(found) > 1):
        named = by_words(state, reference.words)  # "the feed" of two cables
        if reference.awg is not None and reference.kind in ("cable", "conductors"):
            # "two twelves coming in" are not the eights that come in
            named = [one for one in named if getattr(one.content, "awg", None) == reference.awg]
        return [item for item in named if item in found] or found or named
    return found


def _as_many(state: State, reference: Reference) -> list[Item]:
    """ "Two of the six wires": no wires of 6 AWG are there, but six of another size."""
    if reference.kind != "conductors" or reference.count is None or reference.awg is None:
        return []
    found = [item for item in state.items if agrees(item, replace(reference, awg=None))]
    return found if len(found) == 1 and found[0].content.count == reference.awg else []


def _cables_of(state: State, reference: Reference) -> list[Item]:
    """ "One of the twelves", where no loose wire is 12 AWG and only one line of cables is."""
    if reference.kind != "conductors" or reference.awg is None:
        return []
    if not _SIZE_ALONE.fullmatch(reference.words.strip()):
        return []
    cables = [
        item
        for item in state.items
        if isinstance(item.content, Cable) and item.content.awg == reference.awg
    ]
    return cables if len(cables) == 1 else []


_SIZE_ALONE = re.compile(
    r"(?i)(?:(?:one|two|three|four|both|all|some|[1-4]) (?:of )?)?(?:the|those|these|my|them)? ?"
    r"(?:tens|twelves|fourteens|eights|1[024]['’]?s|8['’]?s)"
)


def named_ones(words: str) -> bool:
    """ "The two sconce ones": some, by what they are for."""
    return _NAMED_ONES.fullmatch(words.strip()) is not None


_NAMED_ONES = re.compile(
    r"(?i)(?:the|those|these|that) (?:(?:two|three|four|five|six|[2-6]) )?(?:[a-z]+ ){1,2}"
    r"(?:ones|runs|cables|wires|feeds|legs)"
)


def _latest(state: State, reference: Reference) -> Item | None:
    """What a pronoun means where clamps or the box came last: of several things the latest that
    there are several of."""
    several = [item for item in state.items if item.content.count > 1]
    if reference.count is not None or plural(reference.words):
        return several[-1] if several else None
    return None


def by_words(state: State, words: str) -> list[Item]:
    """ "the doorbell", "the fan feed": what was said to be for it; what it is called by is less
    than what it is for, so that the feed of the fan goes before another feed."""
    said = [
        word
        for word in words.lower().split()
        if len(word) >= _SHORTEST and word not in _COMMON and not numbers.word_classes(word)
    ]
    for meant in ([word for word in said if word not in _ROLES], said):
        found = [item for item in state.items if _holds(item.words, meant)]
        if found:
            return found
    return []


def _holds(words: str, meant: list[str]) -> bool:
    """Whether words hold one of those, each from where it begins."""
    return any(re.search(rf"\b{re.escape(word)}", words.lower()) for word in meant)


_SHORTEST = 3
"""Letters of the shortest word that tells of what something is for: "fan"."""
_ROLES = frozenset(
    {"feed", "feeds", "leg", "line", "load", "run", "runs", "home", "homerun", "hot", "power",
     "supply", "loop", "switched", "drop", "tap", "branch"}
)  # fmt: skip


_COMMON = frozenset(
    {"the", "and", "one", "out", "off", "all", "for", "not", "its", "any", "two", "box",
     "that", "those", "these", "this", "them", "cable", "cables", "wire", "wires", "switch", "with",
     "device", "last", "both", "other", "second", "first", "third", "thing", "receptacle", "outlet"}
)  # fmt: skip


def find(state: State, reference: Reference) -> Item | None:
    """The one item that a reference means: of several the one said last."""
    found = find_all(state, reference)
    if not found:
        return None
    if reference.ordinal == -1:
        said_last = state.item(state.last)  # "that last one"
        if said_last in found and (reference.kind == "anything" or _grew(state, said_last)):
            return said_last
    if reference.ordinal is not None:
        return _nth(_so_many(found, reference), reference.ordinal)
    if reference.which in ("other", "others") and len(found) > 1:
        rest = [item for item in found if item.key != state.last]
        return rest[-1] if rest else found[-1]
    last = next((item for item in found if item.key == state.last), None)
    return last or found[-1]


def _grew(state: State, item: Item | None) -> bool:
    """Whether what came in last came on top of those of its kind: "the last cable" is of them,
    wherever they stand in the list."""
    return item is not None and 0 < state.added < item.content.count


_SEVERAL = 3
"""A place in the count from which on it is of things of one kind: "that sixth one"."""


def _so_many(found: list[Item], reference: Reference) -> list[Item]:
    """What "the third one" may be of: what there are three of, else the cables, where there are
    any; with two cables and a switch it is not the switch."""
    nth = reference.ordinal or 0
    if reference.kind != "anything" or nth < _SEVERAL:
        return found
    exactly = [item for item in found if item.content.count == nth]
    cables = [item for item in found if isinstance(item.content, Cable)]
    return exactly if len(exactly) == 1 else cables or found


def _nth(found: list[Item], ordinal: int) -> Item | None:
    """The item that holds the nth unit: "the second cable" of two 14-2s and a 12-2."""
    units = [item for item in found for _ in range(item.content.count)]
    if ordinal < 0:
        return units[-1]
    return units[ordinal - 1] if ordinal <= len(units) else None


def meant(item: Item, reference: Reference) -> int:
    """How many of an item a reference means."""
    if reference.count is not None:
        return reference.count
    if reference.ordinal is not None:
        return 1
    if reference.words.lower().startswith("another"):
        return 1  # "take off another"
    if reference.words.lower().startswith("half ") and item.content.count % 2 == 0:
        return item.content.count // 2
    if reference.which == "both":
        return min(2, item.content.count)
    if reference.which == "all" or plural(reference.words):
        return item.content.count
    one = _singular(reference.words) or (reference.kind in ("device", "cable") and reference.words)
    return 1 if one and item.content.count > 1 else item.content.count  # notes say "sw is out"


_WAY = lazy_pattern(
    r"(?<=\S) (?:(?:that |which )?(?:goes|going|comes|coming|runs|running|headed|heading) )?"
    r"(?:(?:up|down|out|over|in) )?(?:to|for|from|feeding|feeds) (?=\S)"
)


def plural(words: str) -> bool:
    """Whether words stand in the plural: "those 14-2s", "the switches"."""
    head = _WAY.split(words.lower().strip(), maxsplit=1)[0]  # "the 14-2 to the lights"
    last = head.rstrip(" ,.").removesuffix("'s").rpartition(" ")[2]
    if last in ("its", "this", "thats", "whats"):
        return False  # "its coming out": one thing, written without its mark
    return (last.endswith("s") and not last.endswith(("ss", "us"))) or last in (
        "them",
        "those",
        "these",
        "both",
        "all",
    )


_OF_ONE = frozenset(
    {"the", "that", "this", "a", "an", "one", "its", "their", "his", "her", "my", "our", "your"}
)


def _singular(words: str) -> bool:
    low = words.lower()
    return bool(low) and low.split()[0] in _OF_ONE and not plural(words)
