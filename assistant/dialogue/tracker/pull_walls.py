"""Walls said apart from the raceways of a pull box: which raceways they are of."""

from __future__ import annotations

from dataclasses import replace
from typing import cast

from boxaloud.assistant.dialogue.enclosures.pull_state import Placing, PullBoxSaid, Pulled
from boxaloud.rules.pull import OPPOSITE, Wall


def placed(said: PullBoxSaid, walls: str, corrects: bool = False) -> PullBoxSaid | None:
    """The walls of the pull that has none yet, the one said last first; None where they correct
    a wall, and it is open which."""
    from boxaloud.assistant.dialogue.enclosures import pull_open

    at = len(said.pulls) - 1
    for place, one in reversed([*enumerate(said.pulls)]):
        loose = any(e.through for e in one.entering) and not one.walls and not one.placing
        if loose and pull_open.kind_of(one) != "straight":
            at = place
            break
    if at < 0:
        said, at = said.and_also(Pulled()), 0
    one = said.pulls[at]
    if walls in ("same", "alike") and (beside := _beside(said, walls == "alike")) is not None:
        return beside
    if walls == "alike":
        return said  # of a pull whose walls nobody told: all of it goes the same way
    if walls in ("opposite", "adjacent") and _walled_otherwise(one, walls):
        return None
    if walls in ("opposite", "adjacent", "same"):
        one = replace(one, placing=cast("Placing", walls))
    else:
        named = tuple(cast(Wall, wall) for wall in walls.split())
        if (led := _led_out(one, named, corrects)) is not None:
            return said.with_last(led) if at == len(said.pulls) - 1 else None
        if corrects and any(e.wall is not None for e in one.entering):
            return None
        one = replace(one, walls=named)
        if len(named) == 1 and any(e.wall is not None for e in one.entering):
            filled = tuple(replace(e, wall=named[0]) if e.through else e for e in one.entering)
            one = replace(one, entering=filled, walls=())
    return replace(said, pulls=(*said.pulls[:at], one, *said.pulls[at + 1 :]))


def _beside(said: PullBoxSaid, alike: bool) -> PullBoxSaid | None:
    """ "A 2 inch next to it": by the wall that the raceway before it enters; of one that does the
    same, out by the same as well. None where no wall was told before it."""
    last = said.last
    if last is None or len(last.entering) < 2 or not last.entering[-1].through:
        return None
    before = next((e for e in reversed(last.entering) if e.wall is not None), None)
    if before is None:
        return None
    to = before.to if alike else None
    loose = tuple(replace(e, wall=before.wall, to=to) if e.through else e for e in last.entering)
    return said.with_last(replace(last, entering=loose))


def _led_out(one: Pulled, named: tuple[Wall, ...], corrects: bool) -> Pulled | None:
    """ "It goes out on the right" of raceways whose wall was told: the wall that they leave by."""
    entries = {e.wall for e in one.entering}
    if len(named) != 1 or corrects or None in entries or len(entries) != 1:
        return None
    if named[0] in entries or any(e.to for e in one.entering) or one.kind in ("u", "splice"):
        return None
    return replace(one, entering=tuple(replace(e, to=named[0]) for e in one.entering))


def _walled_otherwise(one: Pulled, walls: str) -> bool:
    """Whether raceways told by both their walls go another way than is said."""
    told = [(e.wall, e.to) for e in one.entering if e.wall is not None and e.to is not None]
    return any((OPPOSITE.get(wall) == to) != (walls == "opposite") for wall, to in told)
