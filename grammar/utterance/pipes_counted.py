"""What each of several pipes brings, counted so many times: "two pipes, three 12s in each"."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.text_before import lowered
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer import numbers

_PIPES = lazy_pattern(
    r"(?<![/.-])\b(two|three|four|five|six|[2-6]|both) (?:of (?:the|those) )?(?:\w+ )?(?:pipes?"
    r"|emts?|home ?runs|conduits?|raceways?|flex(?:es)?(?! (?:conn|fit))|whips|cords|stubs"
    r"|runs? of (?:emt|pipe|conduit|flex))\b"
)
_EACH = lazy_pattern(
    r"\b(?:in each|each (?:has|have|with|brings?|carr(?:y|ies)|of (?:them|those|these)|one"
    r"|pipe|whip|flex|cord)|each of (?:them|those|these)|per pipe|apiece|, each|each)\b"
)

_OF_EACH_PIPE = lazy_pattern(
    r"(?:in )?each(?: of the)? (?:pipes?|conduits?|raceways?|emts?|stubs?|whips?|cords?)\b"
    r"|per pipe\b"
)


def each_pipe(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "three pipes, two number 10s and a green 10 in each": what one brings, so many times."""
    low = lowered(heard)
    if not ("each" in low or "per pipe" in low or "apiece" in low):
        return made  # nothing that `_EACH` finds
    pipes = _PIPES.search(low)
    each = _EACH.search(low, pipes.end()) if pipes is not None else None
    if each is None and (of_each := _OF_EACH_PIPE.search(low)) is not None:
        if any(
            isinstance(act, acts.AddGrounds) and act.span[0] <= of_each.start() < act.span[1]
            for act in made
        ):
            return made  # "two in, two out, a green in each pipe": read as two greens
        return _of_each_pipe(made, low, left, of_each)
    of_pipe = each is not None and _OF_EACH_PIPE.match(low, each.start())
    if pipes is None or each is None:
        return made
    if any(act.span[0] <= pipes.start() and each.start() < act.span[1] for act in made):
        return made  # named one by one, and counted there
    value = 2 if pipes[1] == "both" else numbers.value((pipes[1],))
    stop = re.search(r"[.;]", low[each.end() :])
    end = each.end() + stop.start() if stop is not None else len(low)
    before = re.search(r"[.;]", low[pipes.end() : each.start()])
    if before is not None and each.start() - pipes.end() > 60 and not of_pipe:
        return made
    kinds = (acts.AddConductors, acts.AddGrounds, acts.AddFixtureWires)
    here = [act for act in made if isinstance(act, kinds) and pipes.end() <= act.span[0] < end]
    if not here or value is None:
        left.append(Unread(heard[each.start() : each.end()], each.span(), True))
        return made
    left[:] = [run for run in left if not (pipes.start() <= run.span[0] < pipes.end())]
    made = [
        act
        for act in made
        if not (isinstance(act, acts.Number) and pipes.start() <= act.span[0] < pipes.end())
    ]
    named = sum(act.count or 1 for act in here if isinstance(act, acts.AddConductors)) * int(value)
    made = [
        act  # "…, eight": what they come to
        for act in made
        if not (isinstance(act, acts.Number) and act.span[0] > each.start() and act.value == named)
    ]
    return [
        replace(
            act,
            count=(act.count or 1) * int(value),
            doubts=tuple(d for d in act.doubts if d.slot != "count"),
        )
        if isinstance(act, kinds) and any(act is one for one in here)
        else act
        for act in made
    ]


def _of_each_pipe(made: list[Act], low: str, left: list[Unread], each: re.Match[str]) -> list[Act]:
    """ "Three 12s in each conduit, two conduits": the wires said before it, so many times; where
    nobody says how many conduits there are, that is asked."""
    pipes = _PIPES.search(low)
    begins = max(low.rfind(mark, 0, each.start()) for mark in ".;") + 1
    here = [
        act
        for act in made
        if isinstance(act, acts.AddConductors) and begins <= act.span[0] < each.start()
    ]
    value = None if pipes is None else 2 if pipes[1] == "both" else numbers.value((pipes[1],))
    if not here:
        return made
    if value is None or pipes is None:
        left.append(Unread(each[0], each.span(), True))
        return made
    left[:] = [run for run in left if not pipes.start() <= run.span[0] < pipes.end()]
    return [
        replace(act, count=(act.count or 1) * int(value))
        if isinstance(act, acts.AddConductors) and any(act is one for one in here)
        else act
        for act in made
        if not (isinstance(act, acts.Number) and pipes.start() <= act.span[0] < pipes.end())
    ]
