"""Conductors of cables added up aloud: "two 12-2s and a 12-3, seven twelves in all", "six
fourteens, the grounds as one allowance, and the yoke".

Each insulated conductor of a cable is counted with the cable, 314.16(B)(1); a sum that does not
agree with the cables holds the verdict.
"""

from __future__ import annotations

from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import AddConductors, AddDevice, AddGrounds, Thing
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.rules.contents import Cable, Conductors, Yoke

_ADDED_UP = lazy_pattern(
    r"(?i)\b(?:so|that['’]s|that is|(?:that |which )?makes|making|which is|altogether|totall?ing"
    r"|(?:we|i)['’](?:re|m) at|up to|(?:i|we) (?:get|count|make it|make that)"
    r"|for a total of)[\s,:]*"
    r"(?:(?:now|about|already|that['’]s|it['’]s|i have|we have)\b[\s,]*)*$"
)
_ADDS_UP = lazy_pattern(
    r"(?i)\s*,?\s*(?:in all|in total|total|altogether|all told|if (?:i|you|we) (?:add|count)"
    r"|to count|(?:so far|already|alone|by themselves)(?=\s*(?:[.,;!]|$))|makes?"
    r"|comes? (?:to|out)|add up|takes?|is (?:an? (?:good many|lot)|plenty|quite)"
    r"|(?:at )?(?:\w+(?: and an? (?:quarter|half))?|\d(?:\.\d+)?)(?: cubic inches| inches)? each)\b"
)
_MAKES = lazy_pattern(r"(?i)(?:(?:so|and) )?(?:(?:that|which) makes|making|for a total of)\b")
#: A list of allowances: "six fourteens, the grounds together, a yoke and the clamps".
_ALLOWANCES = lazy_pattern(
    r"(?i)\b(?:yokes?|allowances?|grounds? (?:together|as one|for one|counted))\b"
)
_ENTER = lazy_pattern(r"(?i)\b(?:enter\w*|come(?:s|ing)? in|bring\w*|pull\w*|pipes?|conduit|emt)\b")
_FURTHER = lazy_pattern(
    r"(?i)\b(?:more|another|extra|additional|other|also|too|further|plus|add|besides|as well)\b"
)
_FURTHER_AHEAD = lazy_pattern(
    r"(?i)\b(?:more|another|extra|additional|other|also|further|plus|add|besides)\s*$"
)
#: Wires that come in by themselves, in the sentence that tells of them.
_BY_THEMSELVES = lazy_pattern(
    r"(?i)\b(?:pipes?|conduits?|emt|flex|raceway|loose|from the|out the|individual|singles)\b"
)
_AND = lazy_pattern(r"(?i)\s*,?\s*(?:and|plus|,)\s*$")
_SENTENCE_END = ".;!?"


def sums_up(turn: Turn, thing: Thing) -> bool:
    """Whether a thing only says again what the cables of the box come to; it is then understood,
    or left open where the numbers do not agree."""
    if isinstance(thing, AddGrounds | AddDevice):
        return _of_the_list(turn, thing)
    if not isinstance(thing, AddConductors) or not _may_be_sum(turn, thing):
        return False
    before = turn.heard[: thing.span[0]]
    end = thing.span[1] - (len(" in") if thing.words.lower().endswith(" in") else 0)
    summed = _ADDED_UP.search(before) or _ADDS_UP.match(turn.heard, end)
    return (summed is not None or _lists_allowances(turn, thing)) and _settled(turn, thing)


def restated(turn: Turn, act: acts.Restate) -> bool:
    """The same of what is told in place of something: "that's six twelves", of three 12-2s."""
    thing = act.thing
    if not isinstance(thing, AddConductors) or not _may_be_sum(turn, thing):
        return False
    makes = act.instead_of is None and _MAKES.match(act.words) is not None
    return (makes or _agrees(turn, thing)) and _settled(turn, thing)


def _may_be_sum(turn: Turn, thing: AddConductors) -> bool:
    """Whether there is something that may be added up, and nothing says there is more."""
    if thing.count is None or thing.path is not None or _FURTHER.search(thing.words):
        return False
    start, end = _sentence(turn, thing)
    if _FURTHER_AHEAD.search(turn.heard, start, thing.span[0]):
        return False
    if _BY_THEMSELVES.search(turn.heard, start, end):
        return False
    of_size = [
        item.content
        for item in turn.state.items
        if isinstance(item.content, Cable | Conductors) and thing.awg in (None, item.content.awg)
    ]
    return len(of_size) > 1 or any(isinstance(content, Cable) for content in of_size)


def _settled(turn: Turn, thing: AddConductors) -> bool:
    """Understood where the sum is right; else left open, but where wires by themselves may be
    meant."""
    if _agrees(turn, thing):
        turn.understood.append(thing.words)
        return True
    if any(isinstance(item.content, Conductors) for item in turn.state.items):
        return False
    turn.unplaced.append(thing.words)
    return True


def _agrees(turn: Turn, thing: AddConductors) -> bool:
    lent = any(doubt.reason == "carried" for doubt in thing.doubts)
    sums = {_insulated(turn.state, thing.awg)} | ({_insulated(turn.state, None)} if lent else set())
    return thing.count in sums


def _insulated(state: State, awg: int | None) -> int:
    """How many insulated conductors of a size are in the box, or of all sizes."""
    count = 0
    for item in state.items:
        content = item.content
        if awg not in (None, getattr(content, "awg", None)):
            continue
        if isinstance(content, Cable):
            count += content.count * content.conductors
        elif isinstance(content, Conductors):
            count += content.count
    return count


def _sentence(turn: Turn, thing: Thing) -> tuple[int, int]:
    """Where the sentence that names a thing begins and ends."""
    start = max(turn.heard.rfind(mark, 0, thing.span[0]) for mark in _SENTENCE_END) + 1
    ends = [turn.heard.find(mark, thing.span[1]) for mark in _SENTENCE_END]
    return start, min((end for end in ends if end >= 0), default=len(turn.heard))


def _lists_allowances(turn: Turn, thing: AddConductors) -> bool:
    """ "Six fourteens, the grounds as one allowance, and the yoke": no sentence tells so what comes
    in."""
    start, end = _sentence(turn, thing)
    said = turn.heard[start:end]
    if any(
        isinstance(_wires(act), acts.AddCable) and start <= act.span[0] < thing.span[0]
        for act in turn.done
    ):
        return False  # the cables themselves are told there
    joined = [
        act
        for act in turn.done
        if isinstance(_wires(act), AddConductors) and start <= act.span[0] < thing.span[0]
    ]
    if joined and _AND.match(turn.heard, joined[-1].span[1], thing.span[0]):
        return _wires(joined[-1]).words in turn.understood
    listed = turn.heard[thing.span[1] : end]
    return _ALLOWANCES.search(listed) is not None and _ENTER.search(said) is None


def _of_the_list(turn: Turn, thing: AddGrounds | AddDevice) -> bool:
    """ "…, one ground, one yoke" behind conductors that were only summed up."""
    start, _ = _sentence(turn, thing)
    summed = any(
        isinstance(act, AddConductors | acts.Restate)
        and start <= act.span[0] < thing.span[0]
        and _wires(act).words in turn.understood
        for act in turn.done
    )
    if not summed or _FURTHER.search(thing.words):
        return False
    if isinstance(thing, AddDevice):
        yokes = sum(one.content.count for one in turn.state.items if isinstance(one.content, Yoke))
        known = thing.name in (None, "device") and (thing.count or 1) <= yokes
    else:
        known = thing.awg is None and any(
            isinstance(one.content, Cable) and one.content.ground for one in turn.state.items
        )
    if known:
        turn.understood.append(thing.words)
    return known


def _wires(act: acts.Act) -> acts.Act:
    return act.thing if isinstance(act, acts.Restate) else act
