"""A box that barriers part into spaces: each is worked out by itself, 314.16(A) from 2017.

What is said after "on the first side" stands there. What nobody placed may be on either side: the
box fits where it does so on every side, and is over where one side is over without it. How the
barriers share the volume out is asked, for a barrier need not stand in the middle.
"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.nlg.sentences import counted
from boxaloud.assistant.dialogue.state import Settled, State, to_box
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.grammar.quick_dataclass import dataclass
from boxaloud.rules import is_canadian
from boxaloud.rules.contents import Barrier, Uncounted
from boxaloud.rules.worksheet import Worksheet

ZERO = Fraction(0)
MOST_SPACES = 4
"""More barriers than make so many spaces are counted as the box as a whole."""


@dataclass(frozen=True, slots=True)
class Standing:
    """One space: the state of what stands in it, its worksheet, and how far its total may go."""

    number: int
    state: State
    sheet: Worksheet
    capacity: Decimal
    low: Decimal
    high: Decimal

    @property
    def room(self) -> Decimal:
        """What is left at the worst case; negative where it may be over."""
        return self.capacity - self.high

    @property
    def over(self) -> bool:
        """Whether it is over whatever is still open."""
        return self.low > self.capacity


@dataclass(frozen=True, slots=True)
class Split:
    """A divided box. `unplaced` is the first thing of which nobody said where it stands. Without
    `spaces` it is open how the volume is shared."""

    spaces: tuple[Standing, ...]
    unplaced: Item | None

    @property
    def governing(self) -> Standing:
        """The space that the verdict hangs on: one that is over, else the tightest."""
        over = next((space for space in self.spaces if space.over), None)
        return over or min(self.spaces, key=lambda space: space.room)


def spaces_in(state: State) -> int:
    """How many spaces the barriers of a box make; 1 where they part nothing that is counted."""
    barriers = sum(isinstance(part, Barrier) for part in state.extras)
    divided = state.box and not is_canadian(state.edition) and state.edition >= "2017"
    return barriers + 1 if divided and barriers < MOST_SPACES else 1


def split(state: State, whole: Worksheet) -> Split | None:
    """The box space by space; None where nothing divides it, or nothing is in it yet."""
    count = spaces_in(state)
    if count < 2 or not state.items or whole.capacity is None:
        return None
    shares = shares_of(state, count, whole)
    if shares is None:
        return Split((), None)
    loose = tuple(item for item in state.items if _anywhere(item, count))
    worst = "space" in state.assumed
    spaces = tuple(_standing(state, number, shares, loose, worst) for number in range(1, count + 1))
    return Split(spaces, loose[0] if loose and not worst else None)


def shares_of(state: State, count: int, whole: Worksheet) -> tuple[Fraction, ...] | None:
    """The part of the volume that each space has; None where that was not said, or cannot be.

    Volumes may have been read with the barriers taken off or not: their sum is either.
    """
    if whole.capacity is None:
        return None
    if state.equal_spaces or "share" in state.assumed:
        return (Fraction(1, count),) * count
    net = Fraction(whole.capacity)
    gross = net + sum((-Fraction(line.volume) for line in whole.volumes if line.volume < 0), ZERO)
    known = {number: Fraction(volume) for number, volume in state.shares if number <= count}
    if len(known) == count - 1:
        (missing,) = set(range(1, count + 1)) - known.keys()
        known[missing] = net - sum(known.values())
    total = sum(known.values())
    if len(known) < count or not net <= total <= gross or min(known.values()) <= 0:
        return None
    return tuple(known[number] / total for number in range(1, count + 1))


def _anywhere(item: Item, count: int) -> bool:
    """Whether nobody said where a thing stands; what takes no room may stand anywhere."""
    placed = 1 <= item.space <= count
    return not placed and not isinstance(item.content, Uncounted)


def _standing(
    state: State, number: int, shares: tuple[Fraction, ...], loose: tuple[Item, ...], worst: bool
) -> Standing:
    here = tuple(item for item in state.items if item.space == number)
    full = altered(state, items=(*here, *loose))
    sure = full if worst else altered(state, items=here)
    sheet = _worked(sure, number, shares)
    low = min(sheet.low, _worked(sure, number, shares, "least").low)
    high = max(_worked(full, number, shares).high, _worked(full, number, shares, "most").high)
    if sheet.capacity is None:
        raise ValueError("a box is divided only where its volume is known")
    return Standing(number, sure, sheet, sheet.capacity, low, high)


def _worked(
    state: State, number: int, shares: tuple[Fraction, ...], settled: Settled = "said"
) -> Worksheet:
    from boxaloud.rules import Space, work_out_spaces  # few boxes are divided

    box = to_box(state, settled)
    spaces = [Space((), share=share) for share in shares]
    spaces[number - 1] = replace(
        spaces[number - 1],
        contents=box.contents,
        clamps=box.clamps,
        grounds_known=box.grounds_known,
    )
    return work_out_spaces(box, spaces)[number - 1]


def ordinal(number: int) -> str:
    """ "first", "second", "third"."""
    names = ("first", "second", "third", "fourth")
    return names[number - 1] if number <= len(names) else counted(number)
