"""What a number said alone corrects: "nine, sorry" a count, "no, twenty" the marked volume."""

from __future__ import annotations

from decimal import Decimal
from typing import Literal

from boxaloud.assistant.dialogue.interpretation import box_measures
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.assistant.dialogue.tracker import item_changes
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.phrases.vocabulary import known_words
from boxaloud.rules.contents import Cable, Conductors, Marked, Uncounted, Yoke

_NEAR = 3
"""A number so far from a count, or less, may stand in its place."""
LEAST_UNASKED = 15
"""A number from here on is a volume where neither that nor a box was asked: above every size of
wire, and above what anybody counts of one thing beside another."""
_DIFFERENT = 2
"""A number more than so many times another, or less than its share, stands in no place of it."""


def meant(turn: Turn, act: acts.RestateNumber) -> Literal["volume", "count", "either"]:
    """Whether it is the box's volume, or how many of something there are, or may be either.

    A whole number is never the volume of a box of Table 314.16(A), which its name gives; and
    where a count that was said is near it, it is that of a box only if the marked volume is as
    well, which is asked; so is a number in place of one that was not said.
    """
    state, value = turn.state, act.value
    of_some = _OF_SOME.match(turn.heard, act.span[1])
    if of_some is not None and of_some["what"].lower() not in known_words():
        return "either"  # "one of the pass throughs is …": of what was not understood
    if _I_COUNT.search(act.words) or not _may_be_volume(turn, act):
        return "count"
    known = marked(state)
    if act.instead_of is not None and known is not None:
        # "32, not 34" of a box that was never said to have 34: of what is yet to be told
        return "volume" if abs(known - act.instead_of) < 1 else "either"
    if value != int(value):
        return "volume"
    near = _near(state, value) if act.instead_of is None else []
    if not near:
        return "either" if state.box and known is None else "volume"
    if known is None:
        return "count" if state.box else "either"
    if state.item(state.last) in near:
        return "either" if abs(known - value) <= _NEAR else "count"
    return "either" if known <= value * _DIFFERENT and value <= known * _DIFFERENT else "count"


_OF_SOME = lazy_pattern(r"(?i) of (?:the|these|those|my|our) (?P<what>[a-z]{4,})\b")
#: "I count three", "now I see three": no volume, which nobody counts.
_I_COUNT = lazy_pattern(
    r"(?i)\b(?:i|we)(?:['’]m| am)?(?: [a-z]+)? (?:count|find|see)(?:ed|ing)?\b|\bnow that \b"
)


def is_far(item: Item, act: acts.RestateNumber) -> bool:
    """ "I count eighteen", of two cables: of something else, or a sum, which is asked."""
    return _I_COUNT.search(act.words) is not None and _far(item, act.value) > _NEAR


_OF_NO_CABLE = (18, 16)
"""AWG sizes of fixture wires, 314.16(B)(1), in which no cable with a ground is told."""
_NOT_A = lazy_pattern(r"(?i)\bnot an? ")
_OF_WIRES = lazy_pattern(r"(?i)\b(?:gauge|awg|wires?|they|those|these|cables?)\b|[a-z0-9]['’]?s$")


def of_marked_volume(turn: Turn, act: acts.RestateNumber) -> Literal["volume", "count", "either"]:
    """Whether a number in place of one that is a size and the marked volume too is the volume:
    that was said last, or was not, which is asked. "Twelves, not fourteens" is of wires, "an
    eighteen, not a fourteen" of the box: cables come in no such size."""
    if marked(turn.state) != act.instead_of or _OF_WIRES.search(act.words):
        return "count"
    single = any(isinstance(one.content, Conductors) for one in turn.state.items)
    one = act.value in _OF_NO_CABLE and not single and _NOT_A.search(act.words)
    return "volume" if one or turn.state.last == "box" else "either"


#: "There is one", "oh there's one I didn't see", and not "there is only one".
_THERE_IS_ONE = lazy_pattern(
    r"(?i)\b(?:there(?:['’]s| is| was)|i (?:see|saw|found|find|count|missed|forgot|spotted)"
    r"|here(?:['’]s| is)) (?:also |now |still )*(?:one|1)\b(?! (?:of|less|fewer|too|in all|total))"
)


def may_be_one_more(turn: Turn, act: acts.RestateNumber, item: Item) -> bool:
    """Whether one that is there may come on top of those that were counted: "I miscounted, there
    is one" of three cables. All of them count, so that it is asked."""
    taken = any(isinstance(one, (acts.Remove, acts.Deny)) for one in turn.done)
    lone = act.value == 1 < item.content.count and act.instead_of is None
    return lone and not taken and _THERE_IS_ONE.search(turn.heard) is not None


_IT_WAS = lazy_pattern(r"(?i)\b(?:it|that|there) (?:was|were)\b")
_ONE = lazy_pattern(r"(?i)\b(?:one|1)\b")
_ONLY = lazy_pattern(r"(?i)\b(?:only|just|still|merely)\b")


def may_be_of_cables(turn: Turn, act: acts.RestateNumber) -> bool:
    """Whether a number may as well put right how many cables there are as how many of the one
    device told right behind them: "three 14-2s, one switch", "no wait, it was two". It is asked."""
    if not turn.state.items[1:] or act.instead_of is not None:
        return False
    cable, device = turn.state.items[-2:]
    return (
        isinstance(cable.content, Cable)
        and isinstance(device.content, Yoke)
        and abs(cable.content.count - act.value) == 1
        and device.content.count == 1
        and _ONE.search(device.words) is not None
        and _IT_WAS.search(act.words) is not None
    )


def counted(state: State, act: acts.RestateNumber) -> Item | None:
    """What a count said alone is of: what was said last, else the only thing near it in number.

    Where the box was said last, it may be what came in last: "two receptacles on the ring", "make
    it one". A count that is far from all there are is of none, which is asked.
    """
    said = state.item(state.last)
    if said is not None and _is_one_part(said) and act.instead_of is None and act.value > 1:
        several = [item for item in state.items if item.content.count > 1]
        near = [item for item in several if _far(item, act.value) <= _NEAR]
        return near[0] if len(near) == 1 else None
    last = said or _on_the_ring(state, act) or item_changes.countable(state)
    if act.instead_of is None and last is not None and _ONLY.search(act.words):
        # "only three" makes no more of what there are two of
        so_many = [one for one in state.items if one.content.count == act.value]
        if last.content.count < act.value and so_many:
            return so_many[0] if len(so_many) == 1 else None
    if act.instead_of is not None or (last is not None and _far(last, act.value) <= _NEAR):
        return last
    near = _near(state, act.value)
    if len(near) == 1:
        return near[0]
    if said is not None or last is None or len(state.items) == 1:
        return last
    newest = state.items[-1]
    return newest if newest.content.count > 1 and _far(newest, act.value) <= _NEAR else None


def _is_one_part(item: Item) -> bool:
    """Whether it is the one cover or plate, of which a box has no further: "blank cover"."""
    part = item.content
    if not isinstance(part, Uncounted) or part.count != 1:
        return False
    return part.kind.endswith(("cover", "plate"))


def _on_the_ring(state: State, act: acts.RestateNumber) -> Item | None:
    """The devices that came in last, where a ring was said of them and nothing behind it."""
    if state.last != "box" or not state.extras or not state.items or act.instead_of is not None:
        return None
    newest = state.items[-1]
    several = isinstance(newest.content, Yoke) and newest.content.count > 1
    return newest if several and _far(newest, act.value) <= _NEAR else None


def _far(item: Item, value: Decimal) -> Decimal:
    return abs(item.content.count - value)


def _near(state: State, value: Decimal) -> list[Item]:
    """What is in the box about so many times, and more often than a few times."""
    return [
        item
        for item in state.items
        if not isinstance(item.content, Uncounted)
        and item.content.count > _NEAR
        and _far(item, value) <= _NEAR
    ]


def marked(state: State) -> Decimal | None:
    """The volume that is marked on the box, as it was told."""
    return next((part.volume for part in state.box if isinstance(part, Marked)), None)


def _may_be_volume(turn: Turn, act: acts.RestateNumber) -> bool:
    """Whether a number alone can be the box's volume: "20.3 not 18", "no, it's a twenty"."""
    state, value = turn.state, act.value
    if act.instead_of is not None and marked(state) == act.instead_of:
        return True
    if not (state.box or turn.asked == "box"):
        # "a receptacle. It's eighteen": no count that anybody counts up to, and no size of a wire
        told_first = act.instead_of is None and not _near(state, value)
        described = bool(state.items) or state.clamps != "unknown"
        return told_first and value >= LEAST_UNASKED and described
    fraction = value != int(value)
    replaced = act.instead_of is not None and any(
        item.content.count == act.instead_of for item in state.items
    )
    if replaced and not fraction:
        return False
    if state.last == "box" and (value >= box_measures.LEAST_BOX or (fraction and value >= 3)):
        return True
    if fraction and value >= 3 and as_pair(value) is None:
        return True
    if state.item(state.last) is None:
        return value >= box_measures.LEAST_BOX
    return value > 12 and int(value) not in (14, 12, 10)


def as_pair(value: Decimal) -> tuple[int, int] | None:
    """ "make that twelve-two", read as 12.2."""
    awg, _, conductors = str(value).partition(".")
    if awg in ("14", "12", "10", "8", "6") and conductors in ("2", "3", "4"):
        return int(awg), int(conductors)
    return None
