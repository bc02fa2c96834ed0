"""Conductors that are counted, and then named one by one: "five 12s, so that's two hots …".

The names say what they are, and are no further ones. Where they are not as many, it is open which
number is right, and the list is left unread (each conductor counts, 314.16(B)(1)).
"""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_LEADS_ON = lazy_pattern(
    r"(?i)[^,.:;(<>]{0,20}(?:[:(]|[,.;–-]+\s*(?:so |meaning |namely |being |i\.?e\.? |which |that"
    r"|they|those|these|it'?s |as in |for |and )).*"
)
_LEG = lazy_pattern(r"(?i)\bswitch(?:ed)? (?:legs?|loops?)$")
#: Behind the count, a size of its own.
_SIZED = lazy_pattern(
    r"(?i)(?<!^)\b(?:\d|(?:eighteen|sixteen|fourteen|twelve|ten|eight|six)(?:e?s)?\b)"
)
_FURTHER = lazy_pattern(r"(?i)\b(?:plus|also|more|another|extra|additional|too)\b")


def explained(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts without the names of conductors that were counted before them."""
    made = _sized_one_by_one(_counted_then_listed(made, heard), heard)
    made = _ground_ahead(made, heard)
    kept: list[Act] = []
    place = 0
    while place < len(made):
        act = made[place]
        run = _names(made, place, heard) if _counts(act) else []
        place += 1 + len(run)
        if not run or not isinstance(act, acts.AddConductors):
            kept.append(act)
            continue
        grounds = [one for one in run if isinstance(one, acts.AddGrounds)]
        named = sum(_count(one) for one in run)
        if named == act.count:
            of_ground = sum(one.count or 1 for one in grounds)
            kept.append(replace(act, count=act.count - of_ground))
            kept += [replace(one, awg=one.awg or act.awg) for one in grounds]
            continue
        without = [one for one in run if not isinstance(one, acts.AddGrounds)]
        if sum(_count(one) for one in without) != act.count:
            span = (without[0].span[0], without[-1].span[1])
            left.append(Unread(heard[slice(*span)], span, True))
        kept += [act, *grounds]
    return kept


def _counts(act: Act) -> bool:
    """ "Five 12s": so many conductors of a size, not yet named."""
    return (
        isinstance(act, acts.AddConductors)
        and act.role is None
        and act.awg is not None
        and (act.count or 0) > 1
        and not any(doubt.slot == "awg" for doubt in act.doubts)
    )


def _run(made: list[Act], place: int, heard: str) -> list[Act]:
    """The names that stand behind an act."""
    run: list[Act] = []
    for act in made[place + 1 :]:
        thing = act.thing if isinstance(act, acts.Restate) else act
        if not _is_name(thing) or _FURTHER.search(heard[made[place].span[1] : act.span[0]]):
            break
        run.append(thing)
    while run and isinstance(run[-1], acts.AddGrounds) and run[-1].awg is not None:
        run.pop()  # "…, one 12 ground": counted by itself
    return run


def _names(made: list[Act], place: int, heard: str) -> list[Act]:
    """The names that stand behind a count, with the words that lead to them."""
    run = _run(made, place, heard)
    if not run or isinstance(run[0], acts.AddGrounds):
        return []
    first = made[place + 1]
    between = heard[made[place].span[1] : first.span[0]]
    if _LEADS_ON.match(between + first.words) or _just_as_many(made[place], run, between):
        return run
    return []


_ONE_COMMA = lazy_pattern(r"\s*[,–—]\s*")


def _just_as_many(counted: Act, run: list[Act], between: str) -> bool:
    """ "Nine 12s, four blacks, four whites and a green": colours right behind the count that come
    to it, with the green ones or without them, and to nothing else."""
    wires = [one for one in run if isinstance(one, acts.AddConductors)]
    if not _ONE_COMMA.fullmatch(between) or len({one.role for one in wires}) < 2:
        return False
    if any(not _COLOURS.search(one.role or "") for one in wires):
        return False
    insulated = sum(_count(one) for one in wires)
    return getattr(counted, "count", None) in (insulated, sum(_count(one) for one in run))


_AND = lazy_pattern(r"(?i)\s*,?\s*(?:and|plus|with)\s*")


def _ground_ahead(made: list[Act], heard: str) -> list[Act]:
    """ "Eight 12s and a green, four black and four white": the green one stands before the count,
    and the colours right behind it."""
    for place in range(len(made) - 3):
        act, ground, *rest = made[place:]
        if not _counts(act) or not isinstance(ground, acts.AddGrounds):
            continue
        run = _run([ground, *rest], 0, heard)
        wires = [one for one in run if not isinstance(one, acts.AddGrounds)]
        told = _AND.fullmatch(heard[act.span[1] : ground.span[0]])
        between = heard[ground.span[1] : rest[0].span[0]]
        if told and run and len(wires) == len(run) and _just_as_many(act, run, between):
            return [*made[: place + 2], *made[place + 2 + len(run) :]]
    return made


def _is_name(act: Act) -> bool:
    """A conductor by its colour or by what it does, with no size of its own."""
    if isinstance(act, acts.AddGrounds):
        return act.awg is None
    if isinstance(act, acts.AddCable):
        return act.role is not None and any(doubt.reason == "carried" for doubt in act.doubts)
    if not isinstance(act, acts.AddConductors):
        return False
    lent = act.awg is None or not _SIZED.search(act.words)
    return (lent and act.role is not None) or _LEG.search(act.words) is not None


def _count(act: Act) -> int:
    """How many a name is of; 0 where nobody can say."""
    if any(doubt.reason == "vague" for doubt in act.doubts):
        return 0
    return getattr(act, "count", None) or 1


_COLOUR = r"(?:black|white|red|blue|green|orange|brown|yellow|gr[ae]y|purple)"
_LISTED = lazy_pattern(
    rf"(?i)(?:(?:all |in )?(?:number |#)?(?:eighteen|sixteen|fourteen|twelve|ten|eight|six|\d+)s?"
    rf"\W+)?(?:(?:one|an?|the|and|&)\W+|{_COLOUR}\W*)+"
)
_COLOURS = lazy_pattern(rf"(?i)\b{_COLOUR}\b")


def _counted_then_listed(made: list[Act], heard: str) -> list[Act]:
    """ "Three wires, number twelve, black white and red": the colours are those three."""
    kept: list[Act] = []
    for act in made:
        last = kept[-1] if kept else None
        said = heard[slice(*act.span)]
        if (
            isinstance(act, acts.AddConductors)
            and isinstance(last, acts.AddConductors)
            and (last.role, act.role, last.path, act.path) == (None, None, None, None)
            and last.count == act.count == len(_COLOURS.findall(said))
            and last.awg in (None, act.awg)
            and _LISTED.fullmatch(said.strip() + " ")
            and not _FURTHER.search(heard[last.span[1] : act.span[0]])
            and not re.search(r"(?i)\b(?:and|with)\W*$", heard[last.span[1] : act.span[0]])
        ):
            kept[-1] = replace(
                last, awg=act.awg, doubts=tuple(d for d in last.doubts if d.slot != "awg")
            )
            continue
        kept.append(act)
    return kept


_THESE = lazy_pattern(
    r"(?i) ?(?:first|to start|in (?:it|there|here|the box|total|all)|total)?[\s,.:;–—-]+"
    r"(?:(?:so|that['’]?s|they['’]?re|meaning|namely) )*"
)


def _sized_one_by_one(made: list[Act], heard: str) -> list[Act]:
    """ "Two wires: a black 14 and a white 14": where just as many are named, each with its size,
    they are those."""
    for place, act in enumerate(made):
        if not isinstance(act, acts.AddConductors) or act.role is not None or not act.count:
            continue
        if act.awg is not None and not any(doubt.slot == "awg" for doubt in act.doubts):
            continue
        run: list[acts.AddConductors] = []
        for one in made[place + 1 :]:
            if not isinstance(one, acts.AddConductors) or not _COLOURS.search(one.role or ""):
                break
            run.append(one)
        if not run or any(one.awg is None or _FURTHER.search(one.words) for one in run):
            continue
        between = heard[act.span[1] : run[0].span[0]]
        if sum(_count(one) for one in run) == act.count and _THESE.fullmatch(between):
            return [*made[:place], *made[place + 1 :]]
    return made
