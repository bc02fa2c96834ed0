"""The device that a box is called by, while nobody has said that it is in it: an open fact.

"Laundry outlet, four square, two and an eighth", and then "12-2 in and 12-2 out": the outlet may
yet be told of by itself, and the name may only say where the box is. The total leaves it out, the
verdict holds with it and without it (common practice: what is counted is what enters the box,
314.16(B)).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.nlg import item_names
from boxaloud.assistant.dialogue.nlg.sentences import say
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.state_parts import Item
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Thing
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.rules.contents import Yoke

SLOT = "named"
#: "A dimmer in eighteen cubic inches" is in it.
_IN_IT = lazy_pattern(r"(?i),? (?:sits |sitting )?(?:in|inside)\b")
#: Of what is told so, nobody says that it is in the box.
_GOES = lazy_pattern(
    r"(?i)\b(?:out|off|no|not|never|without|remove\w*|lose|drop|scrap|elsewhere|gone)\b|n['’]t\b"
)
#: A word before the device that says where it is, or what it works.
_BY_PLACE = lazy_pattern(
    r"(?i)(?:^|[\s.,:;])(?!(?:the|a|an|this|that|my|our|emergency|is|it['’]?s|for|at)\b)"
    r"[a-z][a-z'’]*[ -]+(?:[a-z0-9-]+[ -]+)??(?:switch|receptacle|outlet|plug|dimmer|timer|duplex"
    r"|recep|recept|sensor|thermostat|control|gfci|gfi|afci|(?:three|four|[34])[- ]?way)"
    r"(?:['’]s|e?s)?$"
)
#: "Switch in the cellar way".
_AT_PLACE = lazy_pattern(
    r"(?i)(?:['’]s)? (?:in|at|by|near|on|over|under|behind|beside|for)"
    r" (?:the|my|our|her|his|their) [a-z]+(?: [a-z]+)?[.,:;]"
)
_SEVERAL = lazy_pattern(r"(?i)(?:switches|[a-z]{4,}[^s]s|ways)$")


def open_device(state: State) -> Item | None:
    """The device of the box's name while it is open whether it is in the box; else None."""
    return state.item(state.name_open) if state.name_open and SLOT not in state.assumed else None


def counted(state: State) -> State:
    """The state without the device of its name, where that one is open; else as it is."""
    device = open_device(state)
    if device is None:
        return state
    return altered(state, items=tuple(item for item in state.items if item.key != device.key))


def counted_by_gangs(turn: Turn, thing: Thing) -> Thing:
    """The thing with a count, where a box is called by several devices whose number nobody has
    said, "hall switches": as many as it has gangs, common practice, and two at least."""
    several = isinstance(thing, acts.AddDevice) and thing.count is None
    if not several or not _SEVERAL.search(thing.words):
        return thing
    told = [getattr(act, "gangs", None) or 1 for act in (*turn.done, *turn.ahead)]
    return replace(thing, count=max(turn.state.gangs or 1, 2, *told))


def left_open(turn: Turn, thing: Thing, echoes: int) -> None:
    """The box was just called by a device, with `echoes` replies said before: it is left open
    where nothing else that comes in is told in the same breath."""
    key = turn.state.named_by
    item = turn.state.item(key)
    rest = (act for act in (*turn.done, *turn.ahead) if act.span != thing.span)
    if item is None or len(turn.state.items) > 1 or any(map(_of_contents, rest)):
        return
    before, behind = turn.heard[: thing.span[0]], turn.heard[thing.span[1] :]
    headed = turn.heard[slice(*thing.span)] != thing.words  # what opened the box stands before
    placed = _BY_PLACE.search(f"{before}{thing.words}") or (
        not before.strip(" ,.") and _AT_PLACE.match(behind)
    )
    if not headed and (_IN_IT.match(behind) or not placed):
        return
    del turn.echoes[echoes:]
    turn.echoes.append(say("echo.called_by", what=item_names.bare(item.content)))
    turn.state = altered(turn.state, name_open=key)


def _of_contents(act: Act) -> bool:
    told_anew = (acts.Restate, acts.RestateList, acts.More, acts.Recount)
    return is_thing(act) or isinstance(act, told_anew)


def as_counted(state: State) -> State:
    """The state as a worksheet shows it: what is open of the name is at its worst case, for a box
    called by a device mostly has it in."""
    if not state.name_open or SLOT in state.assumed:
        return state
    return altered(state, assumed=state.assumed | {SLOT})


def ended(turn: Turn, told: Sequence[Act], stands: bool) -> None:
    """ "Done": the device is counted before the box is read back, and said to be assumed, where
    the verdict `stands` with it and without."""
    done = any(isinstance(act, acts.Done) for act in told)
    if stands and done and open_device(turn.state) is not None:
        turn.state = as_counted(turn.state)


def settled(turn: Turn) -> None:
    """Close what was open at the beginning of a turn once the device is told by itself, changed,
    or gone. Where nothing else is said to be in, it is counted and said to be assumed."""
    key = turn.state.name_open
    if not key or key != turn.base.name_open:
        return
    if turn.closes:
        turn.enter(as_counted(turn.state), say("worst.named"))
        return
    now, before = turn.state.item(key), turn.base.item(key)
    same = now is not None and now == before and turn.state.named_by == key
    told = now is not None and any(_told_of(act, now) for act in turn.done)
    told = told and not (now is not None and _one_of_a_kind_more(turn, now))
    if same and (not told or _GOES.search(turn.heard)):
        return
    state = altered(turn.state, name_open=0)
    if now is None or now != before:
        turn.state = state
    else:
        turn.enter(state, say("echo.named_in", what=item_names.heard(now.content)))


#: "And a GFCI": maybe the one that the box is called by, maybe one more.
_AND_A = lazy_pattern(r"(?i)\W*(?:(?:ok|okay|so|oh|well|yeah|um|uh|now)\b\W*)*and (?:an?|one) ")
_ALSO = lazy_pattern(r"(?i)\b(?:too|also|as well|another|next to|beside|besides|other|more)\b")


def _one_of_a_kind_more(turn: Turn, item: Item) -> bool:
    """Whether all that was told is a device of another name, which may yet be that of the box."""
    things = [act for act in turn.done if isinstance(act, acts.AddDevice)]
    if len(things) != 1 or not isinstance(item.content, Yoke) or things[0].count != 1:
        return False
    other = things[0].name not in (item.content.name, "receptacle", "switch", "device")
    joined = _AND_A.match(turn.heard) is not None and _ALSO.search(turn.heard) is None
    return other and joined


def _told_of(act: Act, item: Item) -> bool:
    """Whether an act tells of the device, as in "just the one receptacle for the washer"."""
    thing = act.thing if isinstance(act, acts.Restate) else act
    if not isinstance(thing, acts.AddDevice) or not isinstance(item.content, Yoke):
        return False
    return thing.name is not None and references.same_name(item.content.name, thing.name)


def answered(turn: Turn, there: bool, act: Act) -> None:
    """Yes or no to whether the device is in the box."""
    key = turn.state.name_open
    item = turn.state.item(key)
    if item is None:
        return
    what = item_names.heard(item.content)
    if there:
        state = altered(turn.state, name_open=0, named_by=0, last=key)
        turn.enter(state, say("echo.named_in", what=what), act.words)
    else:
        state = altered(turn.state.without(key), name_open=0, named_by=0)
        turn.enter(state, say("echo.named_out", what=what), act.words)
