"""Cables and conductors said over several clauses: their counts, sizes and landings."""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import takewhile

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.act_kinds import is_thing, with_count
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.cable_roles import drop_named


def _vague(act: Act) -> bool:
    """ "12-2 cables": several, and the number is to come."""
    return any(doubt.reason == "vague" for doubt in act.doubts)


def _unsized(kept: list[Act]) -> int:
    """Take the cables without a size off the end, and say how many they are.

    "Cables go in here, 12-2s" has none to say: what is behind it says how many, or is asked.
    """
    waiting = 0
    while kept and isinstance(last := kept[-1], acts.AddCable) and last.awg is None:
        uncounted = last.count is None and last.words.lower().endswith("cables")
        waiting += 0 if uncounted else last.count or 1
        kept.pop()
    return waiting


_SUM = lazy_pattern(r"\b(?:cables?|runs?)\s*[,:]")


def _listed(made: list[Act]) -> int:
    """How many cables are named one after the other; none where it is one name alone."""
    run = list(takewhile(lambda act: isinstance(act, acts.AddCable) and act.awg is not None, made))
    counts = [act.count or 1 for act in run if isinstance(act, acts.AddCable)]
    return sum(counts) if len(counts) > 1 else 0


def _sized_later(made: list[Act]) -> list[Act]:
    """ "a line cable and a load cable, both 12-2": the size of cables that were counted first."""
    kept: list[Act] = []
    for place, act in enumerate(made):
        if isinstance(act, acts.AddCable) and act.awg is not None:
            low = act.words.lower()
            if (act.count or 0) > 1 and _SUM.search(low):
                one = replace(act, count=1)
                if act.count == _listed([one, *made[place + 1 :]]):
                    act = one  # "two cables: 12-2 and 12-3"
            waiting = _unsized(kept)
            if low.startswith("both ") and act.count == 2:
                drop_named(kept)  # "a feed and a leg, both 14-2": one of the two
            if waiting > 1 and waiting == _listed(made[place:]):
                kept.append(act)  # "two cables, a 10-2 and a 12-2": a sum, then each of them
                continue
            said = act.count if not low.startswith(("both", "all", "each", "a ", "an ")) else None
            if waiting and (said is None or said == waiting):
                act = replace(
                    act, count=waiting, doubts=tuple(d for d in act.doubts if d.slot != "count")
                )
            elif waiting:
                kept.append(acts.AddCable(count=waiting, words=act.words, span=act.span))
        elif (
            isinstance(act, (acts.Replace, acts.Restate))
            and isinstance(act.thing, acts.AddCable)
            and act.thing.awg is not None
            and (waiting := _unsized(kept))
        ):
            told = act.thing.count or 1  # "one cable more, so it's four 14-2s": all there are
            act = replace(act.thing, count=told if told > 1 else waiting, doubts=())
        kept.append(act)
    return kept


#: What a size said behind it is of.
_LENT = (acts.AddGrounds, acts.AddConductors, acts.AddJumper, acts.AddTerminalBlock)


_ALSO = lazy_pattern(
    r"(?i)\s*,?\s*(?:and )?(?:it is |it's |they are |they're )?(?:also|too|likewise)"
    r"(?: an?| number)?\s*"
)


def _also_a_size(number: acts.Number, between: str) -> acts.Number | acts.Size:
    """ "One green, also a 12": a wire size, where the number is one."""
    value = number.value
    if value is None or value not in (14, 12, 10, 8, 6) or not _ALSO.fullmatch(between):
        return number
    return acts.Size(awg=int(value), words=number.words, span=number.span)


def sizes_lent(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "two grounds, also fourteen": the size is of what was said before it."""
    kept: list[Act] = []
    heading: int | None = None
    for act in made:
        last = kept[-1] if kept else None
        if isinstance(act, acts.Size) and heard[act.span[1] : act.span[1] + 2].lstrip().startswith(
            ":"
        ):
            heading = act.awg  # "#12: black 2, white 2, green 1"
            continue
        if (
            heading is not None
            and isinstance(act, (acts.AddConductors, acts.AddGrounds))
            and act.awg is None
        ):
            act = replace(act, awg=heading, doubts=tuple(d for d in act.doubts if d.slot != "awg"))
        if isinstance(act, acts.Number) and isinstance(last, _LENT):
            act = _also_a_size(act, heard[last.span[1] : act.span[0]])
        if isinstance(act, acts.Size) and isinstance(last, _LENT) and last.awg == act.awg:
            continue  # said once more
        if isinstance(act, acts.Size) and isinstance(last, _LENT) and last.awg is None:
            between = heard[last.span[1] : act.span[0]]
            near = len(between) < 6 or _ALSO.fullmatch(between) is not None
            if (near or (len(between) < 12 and " with" in between)) and not re.search(
                r"[.;]", between
            ):
                doubts = tuple(d for d in last.doubts if d.slot != "awg")
                kept[-1] = replace(
                    last, awg=act.awg, doubts=doubts, span=(last.span[0], act.span[1])
                )
                continue
        kept.append(act)
    return kept


_ONE_SIZE = lazy_pattern(r"(?i)(?:an? |number |#)?\S+ (?:wire|conductor)$")


def misplaced_counts(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "it takes 12 wire", "green twelve": a size."""
    return [_misplaced_count(act) for act in made]


_ONE_COLOUR = lazy_pattern(
    r"(?i)(?:black|red|blue|white|brown|orange|yellow|gr[ae]y|purple|hot|neutral)"
    r" (?:14|12|10|fourteen|twelve|ten)[,.;]?$"
)
_ONE_GREEN = lazy_pattern(r"(?i)(?:green|bare|ground) (?:14|12|10|fourteen|twelve|ten)[,.;]?$")


def _misplaced_count(act: Act) -> Act:
    if (
        isinstance(act, acts.AddConductors)
        and act.awg is None
        and act.count in (14, 12, 10, 8, 6)
        and _ONE_SIZE.match(act.words)
    ):
        return acts.Size(awg=act.count, words=act.words, span=act.span)
    colour = isinstance(act, acts.AddConductors) and _ONE_COLOUR.match(act.words)
    if isinstance(act, acts.AddConductors) and act.awg is None and colour:
        return replace(act, awg=act.count, count=1, doubts=())
    if isinstance(act, acts.AddGrounds) and act.awg is None and _ONE_GREEN.match(act.words):
        return replace(act, awg=act.count, count=1, doubts=())
    return act


_LEAST_VOLUME = 12
"""What may be the volume of a box, where nothing else says it, counts no cables."""


def _boxed(made: list[Act]) -> bool:
    """Whether an utterance says what box it is."""
    return any(isinstance(act, (acts.SetVolume, acts.SetSize)) for act in made)


def _counted_after(act: Act, count: int) -> Act:
    """A vague thing with the count said behind it, also where it restates: "it's 12-2s, four"."""
    if isinstance(act, (acts.Restate, acts.Replace)):
        return replace(act, thing=with_count(act.thing, count), doubts=())
    return with_count(act, count)


def joined_counts(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "fixture wires, two of them and a ground": one thing, its count and its ground."""
    kept: list[Act] = []
    made = _sized_later(made)
    for act in made:
        last = kept[-1] if kept else None
        if (
            isinstance(last, acts.Size)
            and isinstance(act, acts.Recount)
            and act.target.kind == "anything"
            and act.count
        ):
            kept[-1] = acts.AddConductors(
                count=act.count,
                awg=last.awg,
                words=f"{last.words}, {act.words}",
                span=(last.span[0], act.span[1]),
            )
            continue
        in_a = (
            isinstance(last, acts.AddCable)
            and last.role == "in"
            and isinstance(act, acts.Number)
            and act.words.split()[0] not in ("a",)
            and (act.value or 0) > 7
        )
        if in_a and isinstance(act, acts.Number) and act.value is not None:
            kept.append(
                acts.SetVolume(volume=act.value, words=act.words, span=act.span)
            )  # "14-2s in an 18"
            continue
        if (
            isinstance(act, acts.Number)
            and (is_thing(last) or isinstance(last, (acts.Restate, acts.Replace)))
            and _vague(last)
            and act.value is not None
            and act.value == int(act.value)
            and 0 < act.value < (20 if _boxed(made) else _LEAST_VOLUME)
        ):
            kept[-1] = _counted_after(last, int(act.value))
            continue
        if (
            isinstance(act, acts.Recount)
            and act.target.kind == "anything"
            and is_thing(last)
            and last.count is None
        ):
            kept[-1] = replace(last, count=act.count, doubts=())
        elif (
            isinstance(last, acts.AddFixtureWires)
            and isinstance(act, acts.AddGrounds)
            and act.awg is None and not act.isolated and last.grounds is None
            and (act.count in (None, 1))
        ):  # fmt: skip
            kept[-1] = replace(last, grounds=1)
        else:
            kept.append(act)
    return kept
