"""The grammar compiled: from the data files to the sections that the automaton is read from."""

from __future__ import annotations

import gc
from collections.abc import Iterable, Sequence
from decimal import Decimal
from itertools import accumulate
from typing import Any

from boxaloud.grammar import grammar_data, package_files
from boxaloud.grammar.patterns.pattern_requirements import needs
from boxaloud.grammar.patterns.patterns import expressions
from boxaloud.grammar.phrases import compiled_form
from boxaloud.grammar.phrases.phrase_files import Phrase, phrases
from boxaloud.grammar.phrases.positions import Builder
from boxaloud.grammar.phrases.statements import Value
from boxaloud.grammar.rewriting.rule_requirements import rewriting_needs
from boxaloud.grammar.utterance.coming_in_frames import frame_needs
from boxaloud.grammar.utterance.whereabouts_rows import elsewhere_needs
from boxaloud.grammar.utterance.withdrawal_forms import withdrawal_needs


def compiled() -> bytes:
    """The compiled grammar of the data files, in the form of `grammar.form`.

    Raises `TemplateError` for a phrase that cannot be read, and ValueError for one that matches
    nothing at all.
    """
    collects = gc.isenabled()
    gc.disable()  # a hundred thousand objects that all stay: looking for garbage is a third of it
    try:
        return _compiled()
    finally:
        if collects:
            gc.enable()


def _compiled() -> bytes:
    found = tuple(phrase for phrase in phrases() if not phrase.sampled_only)
    builder = Builder()
    first, last, begins = [], [], []
    for index, phrase in enumerate(found):
        begins.append(len(builder.positions))
        nullable, starts, ends = builder.build(phrase.node, index)
        if nullable:
            raise ValueError(f"phrase {phrase.id!r} matches nothing at all")
        first.append(sorted(starts))
        last.append(sorted(ends))
    tails: dict[tuple[Any, Any], int] = {}
    tail_of = [
        tails.setdefault((position.captures, position.gives), len(tails))
        for position in builder.positions
    ]
    numbers = {
        "begins": begins,
        "terminal_of": [position.terminal for position in builder.positions],
        "tail_of": tail_of,
        "accepts_of": _accepts(last, len(builder.positions)),
        **_runs("first", first),
        **_runs("last", last),
        **_runs("start", _start(first, builder)),
        **_following(builder),
    }
    data = {
        "terminals": list(builder.terminals),
        "phrases": [_meaning(phrase) for phrase in found],
        "tails": [[captures, _plain(gives)] for captures, gives in tails],
        "needs": [needs(expression) for expression in expressions()],
        **elsewhere_needs(),
        "needs rewriting": rewriting_needs(),
        "needs withdrawals": withdrawal_needs(),
        "needs coming in": frame_needs(),
        **{f"table {name}": grammar_data.table(name) for name in package_files.NAMES},
    }
    return compiled_form.written(package_files.fingerprint(), data, numbers)


def _runs(name: str, lists: Sequence[Sequence[int]]) -> dict[str, list[int]]:
    """Lists of numbers as one list, and where each begins in it."""
    return {
        name: [number for part in lists for number in part],
        f"{name} from": list(accumulate(map(len, lists), initial=0)),
    }


def _accepts(last: Sequence[Iterable[int]], count: int) -> list[int]:
    """For every position the phrase that may end there, counted from 1; else 0."""
    accepts = [0] * count
    for phrase, ends in enumerate(last, 1):
        for position in ends:
            accepts[position] = phrase
    return accepts


def _start(first: Sequence[Iterable[int]], builder: Builder) -> list[list[int]]:
    """For every terminal the positions that a phrase may begin with."""
    start: list[list[int]] = [[] for _ in builder.terminals]
    for positions in first:
        for position in positions:
            start[builder.positions[position].terminal].append(position)
    return start


def _following(builder: Builder) -> dict[str, list[int]]:
    """What may follow each position: lists of sets, both numbered, each kept once."""
    sets: dict[frozenset[int], int] = {}
    lists: dict[tuple[int, ...], int] = {}
    # the sets are not changed any more, and many positions share theirs: each is read once
    numbered: dict[tuple[int, ...], int] = {}
    follow_of: list[int] = []
    for after in builder.follow:
        shared = tuple(map(id, after))
        number = numbered.get(shared)
        if number is None:
            # a set that is empty, or that another repeats, says nothing
            distinct = dict.fromkeys([frozenset(following) for following in after if following])
            key = tuple([sets.setdefault(following, len(sets)) for following in distinct])
            number = numbered[shared] = lists.setdefault(key, len(lists))
        follow_of.append(number)
    return {
        "follow_of": follow_of,
        **_runs("follow", list(lists)),
        **_runs("set", [sorted(positions) for positions in sets]),
    }


def _meaning(phrase: Phrase) -> list[Any]:
    gives = _plain(tuple(phrase.gives.items()))
    return [phrase.id, phrase.kind, phrase.priority, phrase.when, gives]


def _plain(gives: Iterable[tuple[str, Value]]) -> list[list[Any]]:
    """Slots and their values, exact ones as [text]."""
    return [[slot, [str(value)] if isinstance(value, Decimal) else value] for slot, value in gives]
