"""A plain list of things that were all met before is put together from them.

Most of what is told of a box is such a list: "two 14-2s, a switch, no clamps, 18 cubic inch box".
Its words are few, and each thing of it means the same wherever it stands. So what a thing of a list
is read as is remembered, where the list as a whole made one act of each thing, sure and of a kind
of its own; a list of such things alone needs no reading. Anything else is read as a whole.
"""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts, grammar_data
from boxaloud.grammar.acts import Act, Utterance
from boxaloud.grammar.lazy_patterns import lazy_pattern

_THING = "(?:" + "|".join(grammar_data.table("clauses")["listed"]["things"]) + ")"
_LIST = lazy_pattern(rf"(?i){_THING}(?:(?:, and |, | and ){_THING})+\.?")
#: "Cables, one 14-2", "a receptacle, a duplex": may be of what stands before it.
_SHARED = lazy_pattern(
    r"(?i)cables?, (?:one|1) |(?:receptacle|switch|dimmer|duplex)(?:es|s)?, (?:an?|one) "
    r"(?:duplex|gfci|receptacle|dimmer|switch|single|(?:three|four|3|4)[- ])"
)
_PARTED = lazy_pattern(r"(?i), and |, | and ")

#: Open questions that give words of a list no other meaning.
_ASKED = frozenset({None, "box", "clamps", "contents"})
REMEMBERED = 2048

_known: dict[str, tuple[Act, object]] = {}
"""The act of a thing and what kind of thing it is, by its words."""


def parted(words: str, expect: str | None) -> list[str]:
    """The things of a plain list; empty for anything else."""
    if expect not in _ASKED or not _LIST.fullmatch(words) or _SHARED.search(words):
        return []
    return _PARTED.split(words.removesuffix("."))


def put_together(words: str, things: list[str]) -> Utterance | None:
    """The reading of a list of things that are known; None where it has to be read."""
    made: list[Act] = []
    kinds: set[object] = set()
    start = 0
    for thing in things:
        if (known := _known.get(thing)) is None:
            return None
        start = words.index(thing, start)
        made.append(replace(known[0], span=(start, start + len(thing))))
        kinds.add(known[1])
        start += len(thing)
    if len(kinds) < len(made) or _contradict(made):
        return None
    return Utterance(words, tuple(made))


def learn(things: list[str], read: Utterance) -> None:
    """Remember the things of a list that was read as a whole, where each is one act."""
    kinds = [_kind(act) for act in read.acts]
    plain = len(set(kinds)) == len(things) == len(kinds) and None not in kinds
    if read.unread or not plain or _contradict(read.acts):
        return
    if any(act.doubts or act.words != thing for act, thing in zip(read.acts, things, strict=True)):
        return
    if len(_known) > REMEMBERED:
        _known.clear()
    _known.update(zip(things, zip(read.acts, kinds, strict=True), strict=True))


def _kind(act: Act) -> object:
    """What no other thing of a plain list may be too; None for what a list does not hold."""
    match act:
        case acts.AddCable():
            return "cable", act.awg, act.conductors
        case acts.AddDevice():
            return "device", act.name
        case acts.SetClamps():
            return "clamps"
        case acts.SetVolume():
            return "box"
        case acts.Deny() if act.target.kind == "device":
            return "no device"
    return None


def _contradict(made: list[Act] | tuple[Act, ...]) -> bool:
    """ "A switch, no devices"."""
    denied = any(isinstance(act, acts.Deny) for act in made)
    return denied and any(isinstance(act, acts.AddDevice) for act in made)
