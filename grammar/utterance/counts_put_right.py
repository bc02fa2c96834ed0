"""Counts that are said again, and why they are others than before: each thing counts once.

"No, that was the same one. One 12-2.", "five cables, I do see five", "I forgot a 14-2, there's
another one behind", "it's only two, the other two are going by".
"""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Thing, Unread
from boxaloud.grammar.clauses.act_kinds import counted, is_thing, pointed_at
from boxaloud.grammar.lazy_patterns import lazy_pattern

_NUMBERS = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8,
    "nine": 9, "ten": 10, "eleven": 11, "twelve": 12,
}  # fmt: skip
_BY_NUMBER = lazy_pattern(rf"(?i)(?:just |only )?(?:{'|'.join(_NUMBERS)}|\d+)\b")
_FURTHER = lazy_pattern(
    r"(?i)\b(?:more|another|extra|additional|also|too|besides|plus|add|adding|second|third|as well"
    r"|forgot|missed|overlooked|found|there(?:['’]s| is| are)|and)\b"
)
_ANEW = (
    acts.Restate, acts.RestateNumber, acts.RestateList, acts.Recount, acts.Replace, acts.Remove,
    acts.More, acts.Undo, acts.Suppose, acts.Ask, acts.NextBox, acts.OpenBox,
)  # fmt: skip


def put_right_after_no(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "No, that's silly, it's a two gang, two switches": behind a no and why, so many there are
    in all, and none come on top."""
    if not made or not isinstance(made[0], acts.No) or heard.rstrip().endswith("?"):
        return made
    things = [act for act in made if is_thing(act)]
    if len(things) != 1 or any(isinstance(act, _ANEW) for act in made):
        return made
    thing = things[0]
    ahead = heard[made[0].span[1] : thing.span[0]]
    said_why = any(letter.isalpha() for letter in ahead)
    if not said_why or not _BY_NUMBER.match(thing.words) or _FURTHER.search(ahead + thing.words):
        return made
    return [_anew(act) if act is thing else act for act in made if not isinstance(act, acts.No)]


def _anew(thing: Thing) -> acts.Restate:
    there = replace(pointed_at(thing, thing.words), count=None)
    return acts.Restate(
        thing=thing, instead_of=there, words=thing.words, span=thing.span,
        doubts=thing.doubts, function="correction",
    )  # fmt: skip


_I_MEAN = lazy_pattern(r"(?i)\s*,\s*i mean(?:t)?\s*,")


def meant_behind(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Two rockers, I mean, each on its own yoke": so many, and no more besides."""
    things = [act for act in made if is_thing(act)]
    if len(things) != 1 or any(isinstance(act, (*_ANEW, acts.Number)) for act in made):
        return made
    thing = things[0]
    if counted(thing) is None or not _I_MEAN.match(heard, thing.span[1]):
        return made
    return [_anew(act) if act is thing else act for act in made]


_MARKED = lazy_pattern(
    r"(?i)[\s,.;:–—-]*(?:(?:no|nope|wait|sorry|er|oops|i mean|i meant|i should say|rather|actually"
    r"|correction|make that|that is|or rather)[\s,.;:–—-]+)+"
)
_WIRED = (acts.AddConductors, acts.AddCable)


def wires_or_cables(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Eight 14s, I mean four 14-2s": wires put right as cables of their size, or the reverse."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        things = act.things if isinstance(act, acts.RestateList) else _restated(act)
        if last is not None and things and _other_wires(last, things[0], heard):
            kept[-1:] = things
            continue
        kept.append(act)
    return kept


def _restated(act: Act) -> tuple[Thing, ...]:
    """What stands in place of its like, or of what nobody named."""
    if not isinstance(act, acts.Restate):
        return ()
    old, new = act.instead_of, pointed_at(act.thing, act.thing.words)
    like = old is None or (old.kind, old.awg, old.name) == (new.kind, new.awg, new.name)
    return (act.thing,) if like else ()


def _other_wires(last: Act, thing: Thing, heard: str) -> bool:
    """Whether cables stand for wires of their size, or wires for cables, behind a mark."""
    if not isinstance(last, _WIRED) or not isinstance(thing, _WIRED):
        return False
    if isinstance(thing, type(last)) or None in (last.count, thing.count):
        return False
    marked = _MARKED.fullmatch(heard, last.span[1], thing.span[0]) is not None
    return marked and last.awg in (None, thing.awg)


_SAID_OVER = lazy_pattern(
    r"(?i)[\s,.;:–—-]*(?:(?:yes|yeah|yep|no|i|do|did|see|am|sure|it['’]s|it is|that['’]s|there"
    r"|there['’]s|there are|are|count|counted|them|['’]em|again|all|told|right|definitely|really"
    r"|exactly|of|in|total|and|so|only|just|still|have|got|said|say|i['’]m)[\s,.;:–—-]+)*"
)


def said_over(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Three 14-2, count 'em again, three": the number said over counts nothing more."""
    told = [act for act in made if _count_of(act) is not None]
    made = [act for act in made if not _is_wondered_at(act, told, heard)]
    for act in told:
        left[:] = [run for run in left if not _is_over(act, run.words, run.span, heard)]
    return [
        act
        for act in made
        if not isinstance(act, acts.Number)
        or not any(_is_over(one, act.words, act.span, heard) for one in told)
    ]


def _is_wondered_at(act: Act, told: list[Act], heard: str) -> bool:
    """ "Four 14-2s on one switch. Four!": of all that was told, only those are so many."""
    if not isinstance(act, acts.Number) or not heard.startswith("!", act.span[1]):
        return False
    counts = sorted(_count_of(one) or 0 for one in told if one.span[1] < act.span[0])
    return counts[-1:] == [act.value] and all(count == 1 for count in counts[:-1])


def _count_of(act: Act) -> int | None:
    thing = act.thing if isinstance(act, acts.Restate) else act
    return counted(thing) if is_thing(thing) else None


def _is_over(told: Act, words: str, span: tuple[int, int], heard: str) -> bool:
    low = words.lower().strip(" .,")
    value = _NUMBERS.get(low, int(low) if low.isdecimal() else None)
    if value is None or value != _count_of(told) or span[0] < told.span[1]:
        return False
    between = heard[told.span[1] : span[0]]
    said = between.strip(" ,").lower()
    return said not in ("", "and", "plus") and _SAID_OVER.fullmatch(between) is not None


_FORGOT = lazy_pattern(
    r"(?i)\b(?:forgot|forgotten|missed|overlooked|left out|did not (?:see|count|mention)"
    r"|didn['’]t (?:see|count|mention))(?: about)? $"
)
_ONE_MORE = lazy_pattern(
    r"(?i)\s*[,–—-]?\s*(?:there(?:['’]s| is| was)|it['’]s|that['’]s|i(?:['’]ve| have) got|i see)\s+"
    r"(?:another one|another|one more)\b"
    r"(?!\s+(?:\d|of|[a-z]+teen|twelve|ten|switch|receptacle|device))"
)


def forgotten_once(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "I forgot a 14-2, there's another one behind": that one, and no second one."""
    kept: list[Act] = []
    told = 0
    for act in made:
        if isinstance(act, acts.More) and act.span[0] < told:
            continue
        once = _once(act, heard, left) if is_thing(act) else act
        told = once.span[1] if once is not act else told
        kept.append(once)
    return kept


def _once(thing: Thing, heard: str, left: list[Unread]) -> Thing:
    """What was forgotten, with the words that it is one more."""
    again = _ONE_MORE.match(heard, thing.span[1])
    if (
        again is None
        or counted(thing) not in (None, 1)
        or not _FORGOT.search(heard[: thing.span[0]])
    ):
        return thing
    span = (thing.span[0], again.end())
    left[:] = [run for run in left if not span[0] <= run.span[0] < span[1]]
    return replace(thing, words=heard[slice(*span)], span=span)


_THE_OTHERS = lazy_pattern(
    r"(?i)\bthe (?:other|rest of the)(?: of (?:them|those))? (?P<n>one|two|three|four|five|\d)\b"
)
_ONE_OF_THEM = lazy_pattern(
    r"(?i)\bthere(?:['’]s| is| was) (?:another )?one (?P<how>[a-z]+ed)\b(?! in\b| into\b)"
)
_BACK_IN = lazy_pattern(r"(?i)(?:goes|go|going|comes|coming) back(?: in)?")


def why_so_many(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Now there's four of them, there's one pinched": what is said of some beside the count of
    all adds none, and is not asked about."""
    anew = (acts.RestateNumber, acts.Recount, acts.Restate)
    if left and any(isinstance(act, anew) for act in made):
        said = [found.span("n") for found in _THE_OTHERS.finditer(heard)]
        said += [found.span("how") for found in _ONE_OF_THEM.finditer(heard)]
        left[:] = [
            run for run in left if run.span not in said and not _BACK_IN.fullmatch(run.words)
        ]
    return [act for place, act in enumerate(made) if not _was_missed(act, made[:place], heard)]


_MISSED = lazy_pattern(
    r"(?i)\b(?:(?:i|we|he|she)(?:['’]d| had| have|['’]ve)? (?:just |only |clean |had )*"
    r"(?:missed|forgot|forgotten|overlooked|skipped|left out)"
    r"|(?:i|we|he|she) (?:had not|hadn['’]?t|did not|didn['’]?t) (?:see|seen|counted|count|notice))"
    r"(?: about)? $"
)


def _was_missed(act: Act, before: list[Act], heard: str) -> bool:
    """ "Not six, eight, I missed the two whites": as many as the count of all has grown by, and
    among them."""
    if not before or not isinstance(act, acts.AddConductors) or act.awg is not None:
        return False
    last = before[-1]
    return (
        isinstance(last, acts.RestateNumber)
        and last.instead_of is not None
        and act.count == last.value - last.instead_of
        and _MISSED.search(heard[last.span[1] : act.span[0]]) is not None
    )
