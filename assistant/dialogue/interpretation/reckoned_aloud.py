"""Somebody adds up aloud what is in the box already, and comes to its total: "four wires, eight,
switch is four, twelve, grounds two, fourteen". He checks, and brings nothing in."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from decimal import ROUND_DOWN, Decimal
from itertools import combinations

from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Utterance
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.rewriting.spoken_values import SPOKEN_VALUE, spoken_value
from boxaloud.rules import Worksheet

_FEWEST = 4
"""So many numbers at least make a sum, the total among them."""
_MOST = 10
"""Of so many numbers at most it is tried which come to the total."""
_TENTH, _HUNDREDTH = Decimal("0.1"), Decimal("0.01")
_BRINGS_IN = lazy_pattern(
    r"(?i)\b(?:add(?:ed|ing|s)?|put|putting|throw|remov\w*|swap\w*|replac\w*"
    r"|(?<!and )chang\w*|forgot|found|also|instead|undo|(?<!the )extra|next box"
    r"|new box|there['’]s|there is|there are|got to be|enters?|come in|comes in|turn out|rather"
    r"|take (?:it|that|one|them|out)|(?:another|more|additional) (?:1\d|10|8|6|cable|switch|outlet"
    r"|receptacle|dimmer|gfci|wire|conductor|device|plug|ground|fourteen|twelve|ten))\b"
)
#: What names a size and is worth nothing: "14-2", "two fourteen-twos", "the tens".
_SIZES = lazy_pattern(
    r"(?i)\b(?:1[024]|8|6|fourteen|twelve|ten)[-/ ](?:[234]|two|three|four)s?\b"
    r"(?:[- ]?(?:2|two)s?)?"
    r"|\b(?:twelve|fourteen|ten|1[024])(?:s|['’]s(?! (?:[a-z]+teen|[a-z]+ty|\d)))\b"
    r"|\b(?:number|no\.?|#) ?(?:\d+|fourteen|twelve|ten)\b"
    r"|\b(?:1[024]|8|6|fourteen|twelve|ten|eight|six)(?= ?-?(?:awg|gauge|ga|ground|wires?|cables?"
    r"|conductors?|thhn)\b)"
    r"|\b(?<=the )(?:fourteen|twelve|ten|1[024])\b"
    r"|(?<=one |two |six |ten )(?:1[024]|fourteen|twelve)\b"
    r"|(?<=four |five |nine )(?:1[024]|fourteen|twelve)\b"
    r"|(?<=three |seven |eight )(?:1[024]|fourteen|twelve)\b|(?<=\d )1[024]\b"
)
#: What somebody says who adds up; a list of things has none of it.
_ADDS_UP = lazy_pattern(
    r"(?i)\b(?:(?:is|are|makes?|that['’]?s|that is|gives?(?: me)?|comes? to|equals?)(?: just| only"
    r"| about| right| another| me| it| up)* (?:\d|half\b|[a-z]+teen\b|[a-z]+ty\b"
    r"|(?:one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)\b)"
    r"|plus|times|minus|take away|apiece|at (?:two|\d)|(?:over|under|short) by|out of|against"
    r"|on the nose|the nose|all told|adds? up|puts me|in my head|take it|boil it|check(?:ing)? it"
    r"|for the (?:wires?|switch(?:es)?|receptacle|plug|device|yoke|grounds?|gfci|dimmers?|clamps?))"
)
_OF_A_BOX = lazy_pattern(r"(?i)\b(?:inch(?:es)?|box|cubic)\b")
#: Dollars and cents of a cubic inch: "fifteen seventy-five", "two fifty".
_CENTS = lazy_pattern(
    r"(?i)\b(?P<whole>[a-z]+(?:-[a-z]+)?) (?P<part>fifty|twenty-five|twenty five|seventy-five"
    r"|seventy five)\b"
)


def reckoned_aloud(read: Utterance, state: State, sheet: Worksheet) -> Utterance:
    """The utterance as one that asks whether that is right, where it adds up what is there."""
    each = {line.each for line in sheet.lines}
    if not state.items or state.pending or not _is_sum(read.heard, sheet.total, each):
        return read
    if not all(_is_there(state, act) for act in read.acts) or _tells_box(read, sheet):
        return read
    words = read.heard.strip()
    asked = acts.Ask(about="margin", words=words, span=(0, len(read.heard)))
    return replace(read, acts=(asked,), unread=())


def _is_sum(heard: str, total: Decimal, each: set[Decimal]) -> bool:
    if _BRINGS_IN.search(heard):
        return False
    values = [value for _, value in sorted(_values(heard))]
    said = {total, total.quantize(_TENTH, ROUND_DOWN), total.quantize(_HUNDREDTH, ROUND_DOWN)}
    if len(values) < _FEWEST or said.isdisjoint(values):
        return False
    if values[-1] in said and sum(values[:-1]) == values[-1]:
        return True
    if total == int(total) and not _ADDS_UP.search(heard):
        return False  # a whole total may be a size or a count of something told
    if any(_is_made(values, place, each) for place in range(1, len(values))):
        return True
    return values[-1] in said and _adds_up(values[:-1], values[-1])


def _is_made(values: Sequence[Decimal], place: int, each: set[Decimal]) -> bool:
    """Whether two numbers before one come to it, by sum, product or difference, or one before it
    by what each wire takes: "ten twelves is twenty-two and a half"."""
    made, before = values[place], values[:place]
    if made < _FEWEST:
        return False
    if any(one * volume == made and one > 1 for one in before for volume in each):
        return True
    pairs = [(one, other) for at, one in enumerate(before) for other in before[:at]]
    return any(made in (one + other, one * other, other - one) for one, other in pairs)


def _adds_up(values: Sequence[Decimal], total: Decimal) -> bool:
    """Whether three numbers or more in a row come to a total: "eight, two, two and two, fourteen".
    What is no part of the sum, like the three of a three-way, is left out."""
    parts = values[-_MOST:]
    return any(
        sum(chosen) == total
        for count in range(3, len(parts) + 1)
        for chosen in combinations(parts, count)
    )


def _values(heard: str) -> Iterator[tuple[int, Decimal]]:
    """The numbers that are no size of a wire or cable: where each stands and what it is worth."""
    bare = _SIZES.sub(lambda found: " " * len(found[0]), heard)
    for found in _CENTS.finditer(bare):
        if SPOKEN_VALUE.fullmatch(found["whole"]):
            cents = spoken_value(found["part"]) / 100
            yield found.start(), spoken_value(found["whole"]) + cents
    for found in SPOKEN_VALUE.finditer(bare):
        yield found.start(), spoken_value(found["value"])


def _tells_box(read: Utterance, sheet: Worksheet) -> bool:
    """Whether a box is told that is another: its size, or cubic inches that it has not."""
    for act in read.acts:
        if isinstance(act, acts.SetSize | acts.NameBoxKind):
            return True
        other = isinstance(act, acts.SetVolume) and act.volume != sheet.capacity
        if other and _OF_A_BOX.search(act.words):
            return True
    return False


def _is_there(state: State, act: Act) -> bool:
    """Whether an act names nothing but what the box has: a cable or a device that it has not is
    told."""
    if not is_thing(act) or isinstance(act, acts.AddConductors | acts.AddGrounds):
        return True
    like = replace(references.to_thing(act), count=None, conductors=None)
    return any(references.agrees(item, like) for item in state.items)
