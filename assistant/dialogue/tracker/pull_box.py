"""Pull boxes: what is said of raceways and pulls goes into the state (see rules.pull).

Conductors of 4 AWG and larger have no volume; they set the dimensions of the box, 314.28(A).
What is worked out of it is told by `pull_telling`, what is still open by `pull_open`.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from decimal import Decimal
from typing import cast, get_args

from boxaloud.assistant.dialogue.altering import with_told
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
from boxaloud.rules.pull import Wall


def pull(turn: Turn, act: acts.DescribePull) -> None:
    """ "An angle pull": a pull begins, or the one at hand gets its kind."""
    kind = cast(PullSaid, act.kind) if act.kind in get_args(PullSaid) else None
    said = turn.state.pulls or PullBoxSaid()
    last = said.last
    legacy = tuple(Entering(count, size) for count, size in _sizes(turn, act))
    fills = last is not None and (_kind_open(last, kind) or not (last.entering or last.walls))
    if last is not None and (fills or act.function == "correction"):
        begun = replace(last, kind=kind or last.kind, entering=(*last.entering, *legacy))
        said = said.with_last(begun)
    else:
        said = said.and_also(Pulled(kind, legacy))
    _enter(turn, said, act.words)


def _kind_open(last: Pulled, kind: PullSaid | None) -> bool:
    """Whether a kind may be that of the pull at hand: its walls tell no other."""
    from boxaloud.assistant.dialogue.enclosures.pull_open import kind_of

    known = kind_of(last)
    otherwise = known is not None and kind in ("straight", "angle", "u") and known != kind
    return last.kind is None and not otherwise


def _sizes(turn: Turn, act: acts.DescribePull) -> Iterable[tuple[int, Decimal]]:
    """The raceways of a pull as journals of before hold them: in the act, then bare numbers."""
    if act.size is not None:
        yield act.count or 1, act.size
    if act.others is not None:
        yield 1, act.others
    yield from ((1, size) for size in act.sizes)
    while act.size is not None and isinstance(more := turn.upcoming, acts.Number):
        turn.take()
        if more.value is not None:
            yield 1, more.value


def raceways(turn: Turn, act: acts.AddRaceways) -> None:
    """ "Two 3 inch in the left wall": raceways of the pull at hand."""
    said = turn.state.pulls or PullBoxSaid()
    last = said.last or Pulled()
    one = Entering(
        act.count or 1,
        act.size,
        act.wall,
        act.to,
        act.end,
        act.row,
        bool(act.cable),
        act.wires,
        act.ground,
        act.insulation or "",
    )
    if act.function == "correction":
        if not _one_meant(turn, last):
            turn.refuse(act.words, say("pull.which"))
            return
        before = last.entering[-1]
        one = _over(before, one, act)
        kept = last.entering[:-1]
    elif turn.asked == "pull_rows" and act.row is not None:
        placed = _in_row(last.entering, one)
        if placed is None:
            turn.refuse(act.words, say("pull.no_such_row"))
            return
        _enter(turn, said.with_last(replace(last, entering=placed)), act.words)
        return
    elif turn.asked == "pull_size" and act.wires and (at := _unsized(turn, last)) is not None:
        known = last.entering[at]  # "three 4/0 and a ground": what is in the cable asked about
        inside = replace(known, wires=act.wires, ground=act.ground, insulation=act.insulation or "")
        filled = (*last.entering[:at], inside, *last.entering[at + 1 :])
        _enter(turn, said.with_last(replace(last, entering=filled)), act.words)
        return
    elif act.size is not None and (at := _unsized(turn, last)) is not None:
        sized = _over(last.entering[at], one, act)
        filled = (*last.entering[:at], sized, *last.entering[at + 1 :])
        _enter(turn, said.with_last(replace(last, entering=filled)), act.words)
        return
    elif _goes_otherwise(last, one):
        _enter(turn, said.and_also(Pulled(None, (one,))), act.words)
        return
    else:
        kept = last.entering
    _enter(turn, said.with_last(replace(last, entering=(*kept, one))), act.words)


def _goes_otherwise(last: Pulled, one: Entering) -> bool:
    """Whether raceways told with both their walls go another way than the pull told before."""
    from boxaloud.assistant.dialogue.enclosures.pull_open import kind_of

    if one.wall is None or one.to is None or not last.entering:
        return False
    own = kind_of(Pulled(None, (one,)))
    return kind_of(last) not in (None, own, "splice") and own is not None


def _unsized(turn: Turn, last: Pulled) -> int | None:
    """The raceway that a size is said of: the one asked about, or the one said just before."""
    open_ = [
        at
        for at, one in enumerate(last.entering)
        if one.size is None and (turn.asked == "pull_size" or not one.wires)
    ]
    if turn.asked == "pull_size" and open_:
        return open_[0]
    behind = bool(open_) and open_[-1] == len(last.entering) - 1
    return open_[-1] if behind and not last.entering[-1].cable else None


def take_out(turn: Turn, act: acts.TakeOutRaceways) -> None:
    """ "Take out the 2 inch": so many of that size, or all, of the pull that has them."""
    said = turn.state.pulls or PullBoxSaid()
    for at in reversed(range(len(said.pulls))):
        one = said.pulls[at]
        left = _without(one.entering, act)
        if left is not None:
            pulls = (*said.pulls[:at], replace(one, entering=left), *said.pulls[at + 1 :])
            _enter(turn, replace(said, pulls=pulls), act.words)
            return
    turn.refuse(act.words, say("pull.not_there"))


def _without(known: tuple[Entering, ...], act: acts.TakeOutRaceways) -> tuple[Entering, ...] | None:
    """The raceways that are left; None where there are not as many of that size."""
    alike = [e for e in known if e.size == act.size and act.wall in (None, e.wall)]
    to_go = sum(e.count for e in alike) if act.count is None else act.count
    if not alike or sum(e.count for e in alike) < to_go:
        return None
    made = []
    for entry in known:
        taken = min(entry.count, to_go) if entry in alike else 0
        to_go -= taken
        if entry.count > taken:
            made.append(replace(entry, count=entry.count - taken))
    return tuple(made)


def _over(before: Entering, one: Entering, act: acts.AddRaceways) -> Entering:
    """What is said anew of raceways; the rest stays as it was."""
    return Entering(
        act.count or before.count,
        one.size or before.size,
        one.wall or before.wall,
        one.to or before.to,
        one.end or before.end,
        one.row if one.row is not None else before.row,
        before.cable,
        one.wires or (() if one.size is not None else before.wires),
        one.ground or before.ground,
        one.insulation or before.insulation,
    )


def _one_meant(turn: Turn, last: Pulled) -> bool:
    """True where a correction can only be of one: said just before, or the only raceway."""
    just = len(turn.done) > 1 and isinstance(turn.done[-2], acts.AddRaceways)
    return bool(last.entering) and (just or len(last.entering) == 1)


def _in_row(known: tuple[Entering, ...], one: Entering) -> tuple[Entering, ...] | None:
    """The raceways known, so many of one size put into a row, on each wall or on the one named.

    None where there are not as many.
    """
    walls = {entry.wall for entry in known if one.wall in (None, entry.wall)}
    left = dict.fromkeys(walls, one.count)
    made: list[Entering] = []
    for entry in known:
        here = left.get(entry.wall, 0)
        if entry.size != one.size or entry.row is not None or not here:
            made.append(entry)
            continue
        taken = min(here, entry.count)
        left[entry.wall] = here - taken
        made.append(replace(entry, count=taken, row=one.row))
        if entry.count > taken:
            made.append(replace(entry, count=entry.count - taken))
    with_size = {entry.wall for entry in known if entry.size == one.size}
    short = any(count for wall, count in left.items() if wall in with_size)
    return None if short or not walls & with_size else tuple(made)


def detail(turn: Turn, act: acts.SetPull) -> None:
    """What is said of a pull box besides its raceways."""
    said = turn.state.pulls or PullBoxSaid()
    said = with_told(said, act, "conductor", "cover", "rows", "listed", "blocks", "apart")
    said = with_told(said, act, "insulation")
    inside = _inside(said, act)
    if act.width is not None and act.height is not None and not act.sided:
        said = replace(said, sided=False)  # a whole box said anew, by no side's name
    elif act.sided and act.length is None:
        said = replace(said, sided=True)
    said = replace(said, inside=inside)
    if act.returns is not None and said.last is not None:
        said = said.with_last(replace(said.last, returns=act.returns))
    if act.walls is not None:
        placed = pull_walls.placed(said, act.walls, act.function == "correction")
        if placed is None:
            turn.refuse(act.words, say("pull.which"))
            return
        said = placed
    _enter(turn, said, act.words)


def _inside(said: PullBoxSaid, act: acts.SetPull) -> Inside:
    """The sides of the box at hand with what is said of them; a whole box said anew is another."""
    width, height, depth = (act.width, act.height, act.depth)
    if act.length is not None:
        upright = said.pulls and all(set(walls) <= {"top", "bottom"} for walls in _walls(said))
        if width is not None:  # so long, so wide and so high: along, across and deep
            height, depth = width, act.height if act.depth is None else act.depth
        width, height = (height, act.length) if upright else (act.length, height)
    if width is not None and height is not None:
        return width, height, depth
    known = said.inside
    return (
        known[0] if width is None else width,
        known[1] if height is None else height,
        known[2] if depth is None else depth,
    )


def _walls(said: PullBoxSaid) -> list[list[Wall]]:
    from boxaloud.assistant.dialogue.enclosures import pull_open

    return [pull_open.walls_of(one) or ["left"] for one in said.pulls]


Inside = tuple[Decimal | None, Decimal | None, Decimal | None]


def answered(turn: Turn, yes: bool, words: str) -> bool:
    """Take "yes" or "no" where a pull box is asked about; False where it answers nothing."""
    match turn.asked:
        case "pull_cover":
            detail(turn, acts.SetPull(cover=yes, words=words))
        case "pull_returns":
            detail(turn, acts.SetPull(returns=not yes, words=words))
        case _:
            return False
    return True


def _enter(turn: Turn, said: PullBoxSaid, words: str) -> None:
    state = replace(turn.state, pulls=said, last="pull")
    turn.enter(state, "", words)
