"""What is there told over, and said to be so: "like I said, the two 14-2s and the switch", "that's
the 12-3 I gave you", "in other words one cable and the GFCI". Nothing comes in by it."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal

from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Thing, Unread, Utterance
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.rewriting.spoken_values import SPOKEN_VALUE, spoken_value
from boxaloud.rules.contents import Cable, Conductors, Grounds, Uncounted

#: What says that it was told before, or is the same.
_TOLD_BEFORE = lazy_pattern(
    r"(?i)\b(?:(?:i|we)(?:['’]d|['’]ve| had| have)? (?:just |already )?(?:said|told|gave|mentioned"
    r"|called(?: out)?|stated|listed|described|been talking about)"
    r"|as (?:stated|said|told|before|given)|in other words|same (?:ones?|as before|as i|as you"
    r"|two|three|four|five|six|\d+)|that same|exactly what|just the way|like you(?:['’]ve| have)?"
    r" (?:got|have|had)|(?:nothing|none of it)(?:['’]s| has| is)? (?:moved|changed|new|different)"
    r"|those are the|that makes (?:your|the|my)|there['’]s (?:your|the|my)|(?:and )?that['’]s the"
    r" (?:pair|lot|whole story)|(?:saying|say|reading|read|repeating|repeat|running|going)"
    r" (?:it|that|this|them|all that) (?:back|over|again)|(?:just|only) repeating"
    r"|on the same page|so i remember"
    r"|that['’]s what(?:['’]s| is) in (?:there|here|it)|that['’]s what (?:we|i)['’]ve got"
    r"|(?:you )?heard me right|you(?:['’]ve| have)? got (?:that|it|me) right)\b"
)
#: What puts something right or brings something in.
_PUTS_RIGHT = lazy_pattern(
    r"(?i)\b(?:more|another|extra|additional|also|plus (?:an?|one|another)|add(?:ed|ing|s)?|too"
    r"|as well|besides|forgot|missed|found|instead|(?<!nothing )(?<!nothing else )but|not|n['’]t"
    r"|actually|really|wrong|mistake|mistaken|lied|neither|except|turns? out|now|should"
    r"|make (?:it|that)|meant|take"
    r"|(?<!nothing has )(?<!nothing['’]s )change\w*"
    r"|remove|undo|swap|next box|last box)\b|n['’]t\b|\bthere(?:['’]s| is| are) (?!your|the|my)"
)


def told_over(read: Utterance, state: State, capacity: Decimal | None) -> Utterance:
    """The utterance with what is there already as what it is; else `read` as it is."""
    if not state.items or state.pending or not read.acts:
        return read
    if not _TOLD_BEFORE.search(read.heard) or _PUTS_RIGHT.search(read.heard):
        return read
    if _one_beyond(read, state):
        return read
    if not any(is_thing(getattr(act, "thing", act)) for act in read.acts) or not all(
        _agrees(state, act, capacity) for act in read.acts
    ):
        return read
    if not all(is_known(state, run) for run in read.unread if run.weighty):
        return read
    asked = acts.Ask(about="read_back", words=read.heard.strip(), span=(0, len(read.heard)))
    return replace(read, acts=(asked,), unread=())


_NTHS = ("second", "third", "fourth", "fifth", "sixth", "seventh", "eighth")
_THE_NTH = lazy_pattern(rf"(?i)\bthere['’]s the (?P<nth>{'|'.join(_NTHS)})\b")


def _one_beyond(read: Utterance, state: State) -> bool:
    """ "There's the third 12-2", of two: one that was not told of."""
    found = _THE_NTH.search(read.heard)
    things = [act for act in read.acts if is_thing(act)]
    if found is None or len(things) != 1:
        return False
    return _there(state, things[0]) < _NTHS.index(found["nth"].lower()) + 2


def _agrees(state: State, act: Act, capacity: Decimal | None) -> bool:
    """Whether an act says nothing that the box does not have."""
    if isinstance(act, acts.SetVolume):
        return act.volume == capacity or act.volume in _sizes(state)
    if isinstance(act, acts.Number):
        return act.value is not None and _counts(state, act.value)
    loose = _loose(state)
    if isinstance(act, acts.AddConductors) and loose:
        # "six THHN" may be six of them, or of that size
        return _is_so_many(state, act) or (act.count is None and act.awg == loose)
    if isinstance(act, acts.AddConductors | acts.AddGrounds):
        return act.awg is None or Decimal(act.awg) in _sizes(state)
    if isinstance(act, acts.Restate):
        # "it was the same one, one 12-2", of two
        exact = not is_thing(act.thing) or getattr(act.thing, "count", None) != 1
        return _agrees(state, act.thing, capacity) and (exact or _there(state, act.thing) == 1)
    if isinstance(act, acts.AddUncounted):
        return True
    if is_thing(act):
        return _is_so_many(state, act)
    return isinstance(act, acts.Yes | acts.Ask | acts.OtherTalk | acts.NothingElse)


def _loose(state: State) -> int:
    return sum(one.content.count for one in state.items if isinstance(one.content, Conductors))


def _is_so_many(state: State, thing: Thing) -> bool:
    """Whether a thing is there, and where several are named as many of it as are."""
    there = _there(state, thing)
    count = getattr(thing, "count", None) or 1
    return there == count if count > 1 else there > 0


def _there(state: State, thing: Thing) -> int:
    """How many of a thing are there."""
    like = replace(references.to_thing(thing), count=None)
    return sum(one.content.count for one in state.items if references.agrees(one, like))


def _sizes(state: State) -> set[Decimal]:
    """The sizes of the wires and cables of the box."""
    wired = [one.content for one in state.items]
    return {Decimal(one.awg) for one in wired if isinstance(one, Cable | Conductors | Grounds)}


def _counts(state: State, value: Decimal) -> bool:
    """Whether so many, or more, of something are there."""
    counted: Sequence[int] = [
        one.content.count for one in state.items if not isinstance(one.content, Uncounted)
    ]
    return value in _sizes(state) or value <= sum(counted)


def is_known(state: State, run: Unread) -> bool:
    """Whether words that were not read are a count or a size of what is there."""
    numbers = list(SPOKEN_VALUE.finditer(run.words))
    return bool(numbers) and all(_counts(state, spoken_value(one["value"])) for one in numbers)
