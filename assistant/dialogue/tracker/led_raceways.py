"""Raceways of a pull box that were told already, and what is said of them anew, 314.28(A).

"The 3 goes out the top" gives one its way out, "make the big ones three inch" another size. Where
nothing told fits what is pointed at, or several do, nothing is entered and it is asked which: a
raceway given the wrong way or size makes the box too small.
"""

from __future__ import annotations

from dataclasses import replace
from typing import NamedTuple

from boxaloud.assistant.dialogue.enclosures.pull_state import (
    Entering,
    PullBoxSaid,
    Pulled,
    PullSaid,
)
from boxaloud.assistant.dialogue.nlg.sentences import say
from boxaloud.assistant.dialogue.tracker import pull_walls
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.rules.pull import OPPOSITE, Wall


class _Place(NamedTuple):
    """Where raceways stand: the pull, and the place in it."""

    pull: int
    at: int


def pointed(turn: Turn, act: acts.PointRaceways) -> None:
    """What is said of raceways that stand already."""
    said = turn.state.pulls or PullBoxSaid()
    if act.to is not None and act.which == "all" and not any(e.wall for e in said.entering):
        made = pull_walls.placed(said, act.to, act.function == "correction")
    else:
        made = _resized(said, act) if act.size is not None else _led(said, act)
    if made is None:
        turn.refuse(act.words, say("pull.which"))
        return
    turn.enter(replace(turn.state, pulls=made, last="pull"), "", act.words)


def _one(said: PullBoxSaid, place: _Place) -> Entering:
    return said.pulls[place.pull].entering[place.at]


def _meant(said: PullBoxSaid, act: acts.PointRaceways) -> list[_Place]:
    """The raceways that are pointed at, in the order told."""
    found = [_Place(p, e) for p, one in enumerate(said.pulls) for e, _ in enumerate(one.entering)]
    if act.which in ("first", "second", "last"):
        at = {"first": 0, "second": 1, "last": -1}[act.which]
        return [found[at]] if len(found) > max(at, 0) else []
    if act.which == "rest":
        found = [
            place
            for place in found
            if said.pulls[place.pull].kind is None and _one(said, place).to is None
        ]
    if act.of_size is not None:
        found = [place for place in found if _one(said, place).size == act.of_size]
    if act.at is not None:
        found = [place for place in found if _one(said, place).wall == act.at]
    if act.which in ("largest", "smallest"):
        sizes = [size for place in found if (size := _one(said, place).size) is not None]
        wanted = max(sizes, default=None) if act.which == "largest" else min(sizes, default=None)
        found = [place for place in found if _one(said, place).size == wanted]
    return found


def _many(said: PullBoxSaid, places: list[_Place]) -> int:
    return sum(_one(said, place).count for place in places)


def _resized(said: PullBoxSaid, act: acts.PointRaceways) -> PullBoxSaid | None:
    """Raceways of another size; None where those meant are of several sizes, or more than one."""
    meant = _meant(said, act)
    if act.single and _many(said, meant) != 1:
        return None
    if not meant or len({_one(said, place).size for place in meant} - {None}) > 1:
        return None
    if act.count is not None and _many(said, meant) != act.count:
        return None
    known = {_one(said, place).size for place in meant} - {None, act.size}
    if known and act.function != "correction":
        return None  # "both three inch" beside a four: of others
    return _with(said, {place: replace(_one(said, place), size=act.size) for place in meant})


def _with(said: PullBoxSaid, changed: dict[_Place, Entering]) -> PullBoxSaid:
    """What was said with some of its raceways changed."""
    pulls = tuple(
        replace(
            one,
            entering=tuple(
                changed.get(_Place(p, e), known) for e, known in enumerate(one.entering)
            ),
        )
        for p, one in enumerate(said.pulls)
    )
    return replace(said, pulls=pulls)


def _led(said: PullBoxSaid, act: acts.PointRaceways) -> PullBoxSaid | None:
    """Raceways with the wall that they enter or leave by; None where it is not clear which."""
    meant = _meant(said, act)
    if act.wall is not None:
        if not said.entering and act.count is not None:  # "both pipes are on the bottom wall"
            last = said.last or Pulled()
            return said.with_last(replace(last, entering=(Entering(act.count, None, act.wall),)))
        if not meant or _many(said, meant) != (act.count or _many(said, meant)):
            return None
        if act.single and _many(said, meant) != 1:
            return None
        return _with(said, {place: replace(_one(said, place), wall=act.wall) for place in meant})
    meant = [place for place in meant if _one(said, place).to is None]
    if act.to is not None and act.count is None:
        there = [place for place in meant if _one(said, place).wall == act.to]
        if there:  # the way out was told as a raceway of its own: the pull is told already
            return said if 2 * _many(said, there) == _many(said, meant) else None
    meant = [place for place in meant if _one(said, place).wall is not None or act.placing]
    count = act.count or (1 if act.single else _many(said, meant))
    if not meant or (act.single and _many(said, meant) != 1) or _many(said, meant) < count:
        return None
    if count < _many(said, meant) and len({_one(said, place).size for place in meant}) > 1:
        return None  # "one goes left" of a 3 and a 2: which?
    return _apart(said, meant, count, act)


def _apart(
    said: PullBoxSaid, meant: list[_Place], count: int, act: acts.PointRaceways
) -> PullBoxSaid:
    """So many of the raceways meant in pulls of their own, by the way that they go."""
    further: list[Pulled] = []
    kept: dict[_Place, Entering] = {}
    for place in meant:
        known = _one(said, place)
        taken = min(known.count, count)
        count -= taken
        kept[place] = replace(known, count=known.count - taken)
        if taken:
            further.append(_going(said.pulls[place.pull], replace(known, count=taken), act))
    left = _with(said, kept)
    pulls = [
        replace(one, entering=tuple(each for each in one.entering if each.count))
        for one in left.pulls
    ]
    emptied = [
        one
        for one, before in zip(pulls, said.pulls, strict=True)
        if one.entering or not before.entering
    ]
    return replace(said, pulls=(*emptied, *further))


def _going(pulled: Pulled, one: Entering, act: acts.PointRaceways) -> Pulled:
    """A pull of its own: raceways by the wall or the way that they leave by."""
    spliced: PullSaid | None = "splice" if pulled.kind == "splice" else None
    to: Wall | None = act.to
    if act.placing == "opposite" and one.wall is not None:
        to = OPPOSITE.get(one.wall)
    if act.placing == "same":
        return Pulled(spliced or "u", (one,), returns=True)
    if to is None:
        placing = act.placing if act.placing is not None else ""
        return Pulled(spliced, (one,), placing=placing)
    if act.leaves_as not in (None, one.size):
        out = replace(one, size=act.leaves_as, wall=to)
        return Pulled(spliced, (one, out))
    return Pulled(spliced, (replace(one, to=to),))
