"""Numbers that are the box's own working said once more: "and I keep coming up with thirty",
"twenty-one on twenty-one?", "fourteen, plus one and three quarters". They weigh nothing, since the
worksheet has them already."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from decimal import Decimal

from boxaloud.assistant.dialogue.assessment import assess
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.rewriting.spoken_values import SPOKEN_VALUE, spoken_value
from boxaloud.rules.contents import Uncounted
from boxaloud.rules.worksheet import Worksheet

_LEAST_ALONE = 15
"""A lesser whole number alone may count something, or be the size of a wire."""
_LEAST_BESIDE = 7
"""A lesser one beside others may count something more."""
_SIZES = frozenset(map(Decimal, (8, 10, 12, 14, 16, 18)))
"""Sizes of wires by AWG: a list of them may be wires."""
_FEWEST_WORDS = 4
"""Fewer words with nothing else in them, "and eighteen", go on with something."""
_PUTS_RIGHT = (acts.Restate, acts.RestateNumber, acts.Recount)
_GOES_ON = lazy_pattern(r"(?i)(?:\b(?:and|plus|with|another|also|add|then)|[+&]) ?$")
_NOT_SO_MANY = lazy_pattern(r"(?i)\b(?:not|instead of|rather than)(?: the| those)? ?$")
_DENIED = lazy_pattern(
    r"(?i)(?:\b(?:not|no|never|isn['’]?t|wasn['’]?t|ain['’]?t|aint)\b|n['’]t\b)[^,.;:!?…]*$"
)
_MARGIN_BEHIND = lazy_pattern(
    r"(?i)\b(?:(?:over|under|short|less) by|leav(?:es|ing)(?: (?:me|us))?|margin(?: of)?)"
    r" (?:about |exactly |just )?$"
)
_MARGIN_BEFORE = lazy_pattern(
    r"(?i) (?:cubes? |cubic inch(?:es)? |inch(?:es)? )?"
    r"(?:over|too much|short|to spare|left(?: over)?|of room)\b"
)


def checked(turn: Turn, unread: Sequence[Unread]) -> bool:
    """Whether all that weighs and was not understood are figures that the worksheet has.

    The total or the capacity alone is one, and so is the margin said as what it is; of several
    figures each may be any of the working, a volume, an allowance or how many conductors.
    """
    said = [*_values(run.words for run in unread if run.weighty), *_values(turn.unplaced)]
    if not said or None in said or len(turn.heard.split()) < _FEWEST_WORDS:
        return False
    if _of_what_changed(turn, unread):
        return True
    if any(_DENIED.search(turn.heard, 0, run.span[0]) for run in unread if run.weighty):
        return False
    sheet = assess(turn.state).sheet
    whole = {sheet.total, sheet.capacity}
    if len(said) == 1:
        value = said[0] or Decimal(0)
        large = value >= _LEAST_ALONE or value != int(value)
        return (large and value in whole) or _is_margin(turn, unread, value, sheet)
    figures = whole | _working(sheet)
    if all(value in _SIZES for value in said):
        return False
    return all(value in figures and _is_figure(value) for value in said)


def _of_what_changed(turn: Turn, unread: Sequence[Unread]) -> bool:
    """ "It's seven, no lie, seven", "three, not the four": so many there are now, or "not" before
    it were, of the one thing that this breath put right. What goes on with "and" is of something
    else."""
    counts = {item.key: _count(item) for item in turn.began.items}
    changes = [item for item in turn.state.items if counts.get(item.key) != _count(item)]
    before = turn.began.item(changes[0].key) if len(changes) == 1 else None
    if before is None or not any(isinstance(act, _PUTS_RIGHT) for act in turn.done):
        return False
    said = [(run.words, run.span[0]) for run in unread if run.weighty]
    said += [(words, turn.heard.rfind(words)) for words in turn.unplaced]
    for words, start in said:
        value = _values([words])[0]
        then = start >= 0 and _NOT_SO_MANY.search(turn.heard, 0, start) is not None
        if start < 0 or _GOES_ON.search(turn.heard, 0, start) or value is None:
            return False
        if value != _count(before if then else changes[0]):
            return False
    return True


def _count(item: Item) -> int:
    """How many an item is; none of what is only noted."""
    return 0 if isinstance(item.content, Uncounted) else item.content.count


def _values(said: Iterable[str]) -> list[Decimal | None]:
    """What each of them is worth; None for words that are no number, or several of a size."""
    found = [SPOKEN_VALUE.fullmatch(words) for words in said]
    return [spoken_value(one["value"]) if one and not one["plural"] else None for one in found]


def _is_figure(value: Decimal | None) -> bool:
    return value is not None and (value >= _LEAST_BESIDE or value != int(value))


def _is_margin(turn: Turn, unread: Sequence[Unread], value: Decimal, sheet: Worksheet) -> bool:
    """ "Over by two": what is missing or left, where that is what it is called."""
    runs = [run for run in unread if run.weighty]
    if not runs or sheet.margin is None or abs(sheet.margin) != value:
        return False
    start, end = runs[0].span
    before = _MARGIN_BEHIND.search(turn.heard, 0, start)
    return before is not None or _MARGIN_BEFORE.match(turn.heard, end) is not None


def _working(sheet: Worksheet) -> set[Decimal]:
    """Every figure of a worksheet: of each line, and how many allowances there are in all."""
    figures = {sum((line.allowances for line in sheet.lines), Decimal(0))}
    for line in sheet.lines:
        figures |= {line.allowances, line.each, line.subtotal, Decimal(line.count)}
    return figures
