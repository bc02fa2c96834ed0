"""Corrections: what was said is counted anew, replaced, taken out, landed elsewhere.

Each says what changed from and to. What cannot be found is said, and nothing else is touched.
"""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace
from decimal import Decimal

from assistant.dialogue import boxing, entering, naming, references
from assistant.dialogue.saying import counted, listed, say, sentence
from assistant.dialogue.state import Item, Recalled, State, mark_of
from assistant.dialogue.turn import Turn
from grammar import acts
from grammar.acts import Act, Reference, Thing
from rules import RulesError, ground_for, validate
from rules.contents import (
    Cable,
    Conductors,
    Content,
    FixtureWires,
    Grounds,
    Marked,
    SupportFitting,
    TerminalBlock,
    Uncounted,
    Yoke,
)

SIZES = frozenset({18, 16, 14, 12, 10, 8, 6})
"""AWG sizes that have a volume allowance, Table 314.16(B)(1)."""

LEAST_BOX = Decimal("7.5")
"""Cubic inches that a bare number can mean of a box; fewer are a count. The smallest trade size
has 7.5, Table 314.16(A)."""


def not_found(turn: Turn, reference: Reference, words: str) -> None:
    """There is no such thing in the box: it is said, and no verdict stands over it unheard."""
    named = reference.words or words
    if reference.kind == "anything" and reference.item is None:
        turn.unplaced.append(words)
        return
    turn.refused.append(say("not_in_box", words=named.removeprefix("the ")))


def change_content(turn: Turn, item: Item, content: Content, words: str) -> None:
    """Put `content` in place of an item's, and say from what to what."""
    try:
        validate(content)
    except RulesError as refusal:
        turn.refuse(words, str(refusal))
        return
    if content == item.content:
        turn.answer(say("echo.already", what=naming.heard(content)), naming.shown(content))
        return
    echo = _changed(item.content, content)
    state = _merged(turn.state.with_content(item.key, content), item.key)
    turn.enter(state, echo, naming.shown(content))


def _merged(state: State, key: int) -> State:
    """An item that became like another is one with it."""
    item = state.item(key)
    assert item is not None
    twin = next(
        (
            other
            for other in state.items
            if other.key != key
            and other.open == item.open
            and entering.alike(other.content, item.content)
        ),
        None,
    )
    if twin is None:
        return state
    total = replace(twin.content, count=twin.content.count + item.content.count)
    with suppress(RulesError):
        validate(total)
        return replace(state.without(key).with_content(twin.key, total), last=twin.key)
    return state


def _changed(old: Content, new: Content) -> str:
    """From what to what; where one thing alone changed, no more than that."""
    if type(old) is type(new):
        if replace(old, count=new.count) == new:
            return say("echo.recounted", old=counted(old.count), new=naming.heard(new))
        unsized = isinstance(old, Yoke | TerminalBlock) and old.awg is None
        if unsized and naming.bare(old) == naming.bare(new):
            return sentence(naming.heard(new))
    return say("echo.changed_item", old=naming.heard(old), new=naming.heard(new))


def recount(turn: Turn, item: Item, count: int, words: str) -> None:
    """Give an item another count; none takes it out."""
    if count <= 0:
        taken = replace(
            turn.state.without(item.key),
            recalled=(*turn.state.recalled[-4:], Recalled(item.content, item.words)),
        )
        turn.enter(taken, say("echo.taken_out", what=naming.heard(item.content)))
        return
    before = turn.state
    change_content(turn, item, replace(item.content, count=count), words)
    if turn.state is not before and count < item.content.count:
        gone = Recalled(replace(item.content, count=item.content.count - count), item.words)
        turn.state = replace(turn.state, recalled=(*before.recalled[-4:], gone))


def recount_act(turn: Turn, act: acts.Recount) -> None:
    """ "The 14-2s are three", "there are three cables"."""
    picked = act.target.item is not None
    if turn.state.last == "clamps" and act.target.kind == "anything" and not picked:
        turn.understood.append(act.words)  # "one clamp. Well, two of them": they count as one
        return
    found = references.find_all(turn.state, act.target)
    count = act.count or 0
    if not found:
        if act.target.kind == "cable" and act.target.awg is None:
            _cables_to_come(turn, act)
        elif act.target.awg is not None or act.target.name is not None:
            _first_mention(turn, act)
        else:
            not_found(turn, act.target, act.words)
        return
    if len(found) > 1 and act.target.kind in ("cable", "wire", "conductors"):
        total = sum(item.content.count for item in found)
        if total == count:
            turn.answer(say("echo.agrees", count=counted(count)), act.words)
            return
        last = turn.state.item(turn.state.last)
        if last not in found or act.target.awg is None:
            turn.unplaced.append(act.words)
            return
    item = references.find(turn.state, act.target)
    assert item is not None
    recount(turn, item, count, act.words)


def unsized_cables(turn: Turn, cable: acts.AddCable) -> None:
    """ "There are three cables" where cables are in the box: how many of them there are."""
    target = Reference("cable", words=cable.words)
    low = cable.words.lower()
    counted = any(word in low.split() for word in ("a", "an"))
    if cable.count is None and not counted and not any(w in low.split() for w in ("another", "more", "same")):
        turn.understood.append(cable.words)  # "the old cable": nothing more
        return
    adds = any(word in low.split() for word in ("more", "another", "extra", "additional", "same"))
    if adds or low.startswith(("another ", "one more ", "a second", "a third")) or cable.count is None or (cable.count == 1 and low.startswith(("a ", "an "))):
        more(turn, acts.More(target=target, count=cable.count or 1, words=cable.words))
        return
    recount_act(turn, acts.Recount(target=target, count=cable.count, words=cable.words))


def _cables_to_come(turn: Turn, act: acts.Recount) -> None:
    """ "Two cables": their size is asked."""
    from assistant.dialogue import belief

    cable = acts.AddCable(count=act.count, words=act.words, span=act.span)
    belief.wait(turn, cable, "awg", "unsized")


def _first_mention(turn: Turn, act: acts.Recount) -> None:
    """ "The 14-2s are three" where none was named before: three of them come in."""
    target = act.target
    thing: Thing
    if target.kind == "cable":
        thing = acts.AddCable(count=act.count, awg=target.awg, conductors=target.conductors, words=act.words)
    elif target.kind == "device":
        thing = acts.AddDevice(count=act.count, name=target.name, awg=target.awg, words=act.words)
    elif target.kind == "conductors" and target.awg is not None:
        thing = acts.AddConductors(count=act.count, awg=target.awg, words=act.words)
    else:
        not_found(turn, target, act.words)
        return
    entering.enter(turn, thing)


def restate(turn: Turn, act: acts.Restate) -> None:
    """ "Actually three 14-2s", "it's a smart dimmer", "14-3s not 14-2s"."""
    state, thing = turn.state, act.thing
    if _proposed(turn, thing):
        return
    if isinstance(thing, acts.AddCable) and thing.awg is None:
        unsized_cables(turn, thing)
        return
    if isinstance(thing, acts.AddDevice) and thing.name == "combination device" and _combined(turn, thing):
        return
    item = _restated(state, act)
    if item is None:
        entering.enter(turn, thing)
        return
    if act.instead_of is not None and act.instead_of.count is not None and thing.count is not None:
        part = act.instead_of.count
        if part < item.content.count and part == thing.count:
            replace_some(turn, item, part, thing)
            return
    try:
        contents = entering.content_of(_with_count(thing, item), state.without(item.key))
    except RulesError as refusal:
        turn.refuse(thing.words, str(refusal))
        return
    put_in_place(turn, item, contents[0], thing)


def _combined(turn: Turn, thing: acts.AddDevice) -> bool:
    """ "It's a double switch, both on one yoke": two devices become one yoke; False for others."""
    yokes = [i for i in turn.state.items if isinstance(i.content, Yoke)]
    if sum(i.content.count for i in yokes) != 2:
        return False
    sizes = [i.content.awg for i in yokes if isinstance(i.content, Yoke) and i.content.awg is not None]
    state = turn.state
    for item in yokes:
        state = state.without(item.key)
    one = Yoke("combination device", min(sizes) if sizes else None)
    echo = say("echo.changed_item", old=listed([naming.heard(i.content) for i in yokes]), new=naming.heard(one))
    turn.enter(state.with_item(one, thing.words), echo, naming.shown(one))
    return True


def _proposed(turn: Turn, thing: Thing) -> bool:
    """ "Well, it is a 12-2": what was only supposed just before is so."""
    for one in turn.state.proposed:
        same = getattr(one, "thing", None)
        if isinstance(one, acts.Replace) and same is not None and mark_of(replace(same, count=None)) == mark_of(replace(thing, count=None)):
            turn.state = replace(turn.state, proposed=())
            replace_act(turn, replace(one, thing=replace(same, doubts=())))
            return True
    return False


def _restated(state: State, act: acts.Restate) -> Item | None:
    """What is restated: what was named, what agrees exactly, else the only one of its type."""
    if act.instead_of is not None:
        found = references.find(state, act.instead_of)
        if found is not None or references.to_thing(act.thing) == replace(act.instead_of, words=act.thing.words, count=None):
            return found
    reference = references.to_thing(act.thing)
    exact = references.find(state, reference) if reference.awg or reference.name else None
    if exact is not None:
        return exact
    return last_of_type(state, act.thing)


def last_of_type(state: State, thing: Thing) -> Item | None:
    """The only item of the thing's type, or the one said last."""
    kind = references.TYPES[references.kind_of(thing)]
    same = [item for item in state.items if isinstance(item.content, kind)]
    if len(same) == 1:
        return same[0]
    last = state.item(state.last)
    return last if last in same else None


def _with_count(thing: Thing, item: Item) -> Thing:
    """The thing with the item's count where it names none ("make that twelve-two")."""
    said = thing.words.lower()
    article = thing.count == 1 and said.startswith(("a ", "an "))
    if thing.count is not None and not (article and item.content.count == 1):
        return thing
    if thing.count is not None:
        return thing
    return replace(thing, count=item.content.count)


def put_in_place(turn: Turn, item: Item, new: Content, thing: Thing) -> None:
    """A content in place of an item's; what the words did not mention stays."""
    kept = _kept(item.content, new, thing)
    change_content(turn, item, kept, thing.words)


def _kept(old: Content, new: Content, thing: Thing) -> Content:
    """What was not mentioned stays: the size a device lands on, its width, a cable's ground."""
    if isinstance(old, Yoke) and isinstance(new, Yoke) and isinstance(thing, acts.AddDevice):
        awg = new.awg if thing.awg is not None else old.awg
        gangs = new.gangs if thing.gangs is not None else old.gangs
        return replace(new, awg=awg, gangs=gangs)
    if isinstance(old, Cable) and isinstance(new, Cable) and isinstance(thing, acts.AddCable):
        unsaid = thing.ground is None and thing.ground_awg is None
        return replace(new, ground=None) if unsaid and old.ground is None else new
    return new


def restate_number(turn: Turn, act: acts.RestateNumber) -> None:
    """ "Make that three", "it was three", "no, twenty": a value alone, in place of another."""
    state, value = turn.state, act.value
    whole = value == int(value)
    if act.instead_of in SIZES and value in SIZES and any(getattr(i.content, "awg", None) == act.instead_of for i in state.items):
        old = Reference("anything", awg=int(act.instead_of or 0), which="all", words=act.words)
        resize(turn, acts.Resize(target=old, awg=int(value), words=act.words))
        return
    if _means_box(turn, act):
        boxing.set_volume(turn, value, act)
        return
    item = state.item(state.last) or _countable(state)
    if act.instead_of is not None and item is not None and act.instead_of == state.added != item.content.count and whole:
        # "two more … not two, one": of what came in last
        recount(turn, item, item.content.count - state.added + int(value), act.words)
        return
    if act.instead_of is not None and act.instead_of == int(act.instead_of):
        same = [one for one in state.items if one.content.count == act.instead_of]
        if item not in same and len(same) == 1:
            item = same[0]
    if item is None or not whole:
        turn.unplaced.append(act.words)
        return
    if isinstance(item.content, Cable) and _as_pair(value) is None and int(value) in (10, 12, 14) and int(value) > 9:
        turn.unplaced.append(act.words)
        return
    recount(turn, item, int(value), act.words)


def _countable(state: State) -> Item | None:
    """What a bare number counts where clamps or the box came last: the cables, if they are of one
    kind."""
    cables = [item for item in state.items if isinstance(item.content, Cable | Conductors)]
    return cables[0] if len(cables) == 1 else None


def _means_box(turn: Turn, act: acts.RestateNumber) -> bool:
    """Whether a number alone is the box's volume: "20.3 not 18", "no, it's a twenty"."""
    state, value = turn.state, act.value
    known = next((part.volume for part in state.box if isinstance(part, Marked)), None)
    if act.instead_of is not None and known == act.instead_of:
        return True
    if not (state.box or turn.asked == "box"):
        return False
    fraction = value != int(value)
    counted = act.instead_of is not None and any(i.content.count == act.instead_of for i in state.items)
    if counted and not fraction:
        return False
    if state.last == "box" and (value >= LEAST_BOX or fraction and value >= 3):
        return True
    if fraction and value >= 3 and _as_pair(value) is None:
        return True
    item = state.item(state.last)
    if item is None:
        return value >= LEAST_BOX
    return value > 12 and int(value) not in (14, 12, 10)


def _as_pair(value: Decimal) -> tuple[int, int] | None:
    """ "make that twelve-two", read as 12.2."""
    awg, _, conductors = str(value).partition(".")
    if awg in ("14", "12", "10", "8", "6") and conductors in ("2", "3", "4"):
        return int(awg), int(conductors)
    return None


def resize(turn: Turn, act: acts.Resize) -> None:
    """ "Make the twelves fourteens": the wire size of what is meant, a device on it with it."""
    target = act.target
    found = [
        item
        for item in turn.state.items
        if (target.awg is None or getattr(item.content, "awg", None) == target.awg)
        and isinstance(item.content, references.TYPES[target.kind])
    ] if target.which == "all" else references.find_all(turn.state, target)
    found = [item for item in found if hasattr(item.content, "awg")]
    if not found:
        not_found(turn, act.target, act.words)
        return
    for item in found:
        content = item.content
        if isinstance(content, SupportFitting | Uncounted):
            continue
        if isinstance(content, Cable) and content.ground is not None:
            # a size the rules refuse is refused by change_content, in the rules' own sentence
            with suppress(RulesError):
                content = replace(content, ground=ground_for(act.awg))
        change_content(turn, item, replace(content, awg=act.awg), act.words)


def remove(turn: Turn, act: acts.Remove) -> None:
    """ "Take out one of the 14-2s", "scratch the switch"."""
    state, target = turn.state, act.target
    if target.kind == "part" or (target.kind == "anything" and state.last == "box"):
        if remove_part(turn, target, act):
            return
    if target.kind == "barrier":
        remove_part(turn, target, act)
        return
    if target.kind == "grounds" and references.find(state, target) is None:
        _unground_one(turn, act)
        return
    item = references.find(state, target)
    if item is None:
        not_found(turn, target, act.words)
        return
    if target.which in ("all", "both") and target.kind != "anything":
        for one in references.find_all(state, target):
            recount(turn, one, 0, act.words)
        return
    out = references.meant(item, target)
    if target.kind == "anything" and target.count is None and act.target.words.lower().strip() in ("it", "that", "that one", "the last one", "that last one") and 0 < state.added < item.content.count:
        out = state.added
    if out > item.content.count:
        turn.refused.append(say("fewer_than_that", what=naming.heard(item.content)))
        return
    if target.ordinal is None and target.count is None and target.kind == "device" and target.name not in (None, "device"):
        # "the switches" where a switch and a three-way switch are there: all of that name
        same = references.find_all(state, target)
        if references.plural(target.words) and len(same) > 1:
            for one in same:
                recount(turn, one, 0, act.words)
            return
    recount(turn, item, item.content.count - out, act.words)


def remove_part(turn: Turn, target: Reference, act: Act) -> bool:
    """Take a ring, cover or barrier off again; False where there is none."""
    extras = turn.state.extras
    name = target.name
    for part in reversed(extras):
        label = getattr(part, "label", "barrier")
        if target.kind == "anything" or name is None or references.same_name(str(label), name):
            rest = tuple(other for other in extras if other is not part)
            state = replace(turn.state, extras=rest, last="box")
            turn.enter(state, say("echo.taken_out", what=naming.part(part)))
            return True
    if target.kind in ("part", "barrier"):
        not_found(turn, target, act.words)
        return True
    return False


def _unground_one(turn: Turn, act: acts.Remove) -> None:
    """ "Take out one ground": where cables brought them, one cable is without."""
    cables = [i for i in turn.state.items if isinstance(i.content, Cable) and i.content.ground is not None]
    count = act.target.count or (0 if references.plural(act.target.words) else 1)
    if not cables:
        not_found(turn, act.target, act.words)
        return
    if not count:
        for item in cables:
            assert isinstance(item.content, Cable)
            change_content(turn, item, replace(item.content, ground=None), act.words)
        return
    item = cables[-1]
    split_cable(turn, item, count, None, act.words)


def split_cable(turn: Turn, item: Item, count: int, ground: int | None, words: str) -> None:
    """So many of an item's cables with another ground than the rest."""
    assert isinstance(item.content, Cable)
    if count >= item.content.count:
        change_content(turn, item, replace(item.content, ground=ground), words)
        return
    part = replace(item.content, count=count, ground=ground)
    rest = replace(item.content, count=item.content.count - count)
    state = turn.state.with_content(item.key, rest).with_item(part, item.words)
    echo = say("echo.changed_one", old=counted(count), all=naming.heard(item.content), new=naming.heard(part))
    turn.enter(state, echo, naming.shown(part))


def replace_act(turn: Turn, act: acts.Replace) -> None:
    """ "Change one of the 14-2s to a 14-3", "the cables are 14-3", "a dimmer instead of it"."""
    state, target, thing = turn.state, act.target, act.thing
    if target.kind == "anything" and target.which != "last":
        # a Reference like "one" or "both": among things of the new one's kind
        target = replace(target, kind=references.kind_of(thing), words="")
    same_kind = references.find_all(state, target)
    item = references.find(state, target)
    if item is None:
        if isinstance(thing, acts.AddCable) and _fill_pending(turn, act):
            return
        units = sum(one.content.count for one in same_kind)
        if act.target.ordinal == units + 1:  # "and the third one's a 14-3"
            entering.enter(turn, thing)
            return
        if act.target.kind in ("anything", "cable", "wire", "device") and act.target.awg is None and act.target.name is None:
            entering.enter(turn, thing)
            return
        if act.target.kind in ("device", "fitting") and act.target.name is not None:
            entering.enter(turn, thing)  # "I replaced the old switch with a dimmer"
            return
        not_found(turn, act.target, act.words)
        return
    if target.count is None and target.ordinal is None and len(same_kind) > 1 and (
        references.plural(act.target.words) or target.which in ("both", "all")
    ):
        _replace_all(turn, same_kind, thing)
        return
    if target.count is not None and _more_replaced(turn, item, target.count, act):
        return
    units = target.count if target.count is not None else (1 if target.ordinal is not None else None)
    if units is None:
        said = thing.count
        if said is not None and said < item.content.count:
            units = said
        elif target.which in ("other", "others") and len(same_kind) == 1:
            units = item.content.count - 1 or 1
        elif target.which == "both" or references.plural(act.target.words):
            units = item.content.count
        else:
            units = item.content.count
    if units < item.content.count:
        replace_some(turn, item, units, thing)
        return
    try:
        new = entering.content_of(_whole_count(thing, item, target), state.without(item.key))[0]
    except RulesError as refusal:
        turn.refuse(thing.words, str(refusal))
        return
    if type(new) is not type(item.content):
        taken = replace(state.without(item.key), recalled=(*state.recalled[-4:], Recalled(item.content, item.words)))
        turn.enter(taken, say("echo.taken_out", what=naming.heard(item.content)))
        entering.enter(turn, thing)
        return
    before = item.content
    put_in_place(turn, item, new, thing)
    if turn.state is not state:
        key = turn.state.last if isinstance(turn.state.last, int) else None
        turn.state = replace(turn.state, recalled=(*state.recalled[-4:], Recalled(before, item.words, key)))


def _more_replaced(turn: Turn, item: Item, units: int, act: acts.Replace) -> bool:
    """ "One of the 14-2s is a 14-3 … no, two of them": the change just made, for so many."""
    recalled = turn.state.recalled[-1] if turn.state.recalled else None
    by = turn.state.item(recalled.by) if recalled is not None and recalled.by is not None else None
    if recalled is None or by is None:
        return False
    same = references.agrees(by, replace(references.to_thing(act.thing), count=None))
    source = next((i for i in turn.state.items if entering.alike(i.content, recalled.content)), None)
    if not same or source is None or units == by.content.count or item.key not in (by.key, source.key):
        return False
    step = units - by.content.count
    if not 0 < step <= source.content.count:
        return False
    left = source.content.count - step
    state = turn.state.with_content(source.key, replace(source.content, count=left)) if left else turn.state.without(source.key)
    new = replace(by.content, count=units)
    turn.enter(state.with_content(by.key, new), _changed(by.content, new), naming.shown(new))
    return True


def _whole_count(thing: Thing, item: Item, target: Reference) -> Thing:
    """The count of what comes in place of a whole item."""
    if thing.count is None or (target.count is not None and thing.count == 1):
        return replace(thing, count=item.content.count)
    return thing


def _fill_pending(turn: Turn, act: acts.Replace) -> bool:
    """ "They're 14-2s" of cables whose size was still open."""
    for pending in turn.state.pending:
        if isinstance(pending.act, acts.AddCable) and pending.reason == "unsized":
            from assistant.dialogue import belief

            thing = act.thing
            count = pending.act.count if thing.count is None or act.target.which == "both" else thing.count
            belief.drop(turn, pending)
            entering.enter(turn, replace(thing, count=count))
            return True
    return False


def _replace_all(turn: Turn, items: list[Item], thing: Thing) -> None:
    for item in items:
        try:
            new = entering.content_of(replace(thing, count=item.content.count), turn.state)[0]
        except RulesError as refusal:
            turn.refuse(thing.words, str(refusal))
            return
        put_in_place(turn, item, new, thing)


def replace_some(turn: Turn, item: Item, units: int, thing: Thing) -> None:
    """So many of an item become something else; the rest stays."""
    count = thing.count if thing.count is not None and thing.count > 1 else units
    try:
        new = entering.content_of(replace(thing, count=count), turn.state)[0]
    except RulesError as refusal:
        turn.refuse(thing.words, str(refusal))
        return
    new = _kept(item.content, new, thing)
    old = replace(item.content, count=item.content.count - units)
    state = turn.state.with_content(item.key, old)
    twin = next((one for one in state.items if entering.alike(one.content, new)), None)
    if twin is not None and twin.key != item.key:
        state = state.with_content(twin.key, replace(new, count=twin.content.count + count))
    else:
        state = state.with_item(new, thing.words, entering.open_of(new, thing))
    key = state.last if isinstance(state.last, int) else None
    gone = Recalled(replace(item.content, count=units), item.words, key)
    state = replace(state, recalled=(*turn.state.recalled[-4:], gone))
    echo = say(
        "echo.changed_one", old=counted(units), all=naming.heard(item.content),
        new=naming.heard(new),
    )  # fmt: skip
    turn.enter(state, echo, naming.shown(new))


def more(turn: Turn, act: acts.More) -> None:
    """ "And one more of those", "another cable"; of what was just asked about, if that was."""
    proposed = [one for one in turn.state.proposed if isinstance(one, tuple(references.KIND_OF))]
    if act.target.kind == "anything" and len(proposed) == 1:
        turn.state = replace(turn.state, proposed=())
        entering.enter(turn, replace(proposed[0], count=act.count or 1, doubts=()))  # type: ignore[call-arg, arg-type]
        return
    item = _more_of(turn.state, act.target)
    if item is None or isinstance(item.content, Uncounted):
        if act.target.kind == "cable":
            from assistant.dialogue import belief

            belief.wait(turn, acts.AddCable(count=act.count or 1, words=act.words, span=act.span), "awg", "unsized")
            return
        turn.unplaced.append(act.words)
        return
    extra = act.count or 1
    recount(turn, item, item.content.count + extra, act.words)


def _more_of(state: State, target: Reference) -> Item | None:
    if target.kind == "anything":
        return state.item(state.last) or _countable(state)
    found = references.find_all(state, replace(target, which="said"))
    if target.kind == "cable" and len({(i.content.awg, i.content.conductors) for i in found if isinstance(i.content, Cable)}) > 1:
        last = state.item(state.last)
        return last if last in found else None
    return found[-1] if found else None


def land(turn: Turn, act: acts.Land) -> None:
    """ "The switch goes on the twelves": the largest conductor landed on a device."""
    state, target = turn.state, act.target
    if target.which == "both" or references.plural(target.words) or target.which == "all":
        sized = [i for i in references.find_all(state, target) if isinstance(i.content, Yoke | TerminalBlock)]
        if target.count is None and len(sized) > 1:
            for one in sized:
                land_item(turn, one, act.awg, None, act.words)
            return
    item = state.item(target.item) if target.item is not None else _landed(turn, target)
    if item is None:
        landed = all(i.content.awg is not None for i in state.items if isinstance(i.content, Yoke))
        if target.name and landed:
            # with every device landed already, this is the first mention of one
            entering.enter(turn, acts.AddDevice(name=target.name, count=target.count or 1, awg=act.awg, words=act.words))
        elif target.name and target.words.lower().startswith(("a ", "an ", "one ", "another ")):
            entering.enter(turn, acts.AddDevice(name=target.name, count=1, awg=act.awg, words=act.words))
        else:
            not_found(turn, target, act.words)
        return
    land_item(turn, item, act.awg, target.count, act.words)


def _landed(turn: Turn, target: Reference) -> Item | None:
    """The device or terminal block meant: the one asked about, the one named, the last unsized."""
    state = turn.state
    if target.name and target.name != "device":
        return references.find(state, target)
    if target.kind == "terminal_block":
        return references.find(state, target)
    asked = state.item(turn.subject) if turn.subject is not None else None
    if asked is not None and isinstance(asked.content, Yoke | TerminalBlock) and target.ordinal is None and target.which == "said":
        return asked
    if target.ordinal is not None or target.which in ("other", "others"):
        return references.find(state, replace(target, kind="device"))
    return last_sized(state)


def last_sized(state: State) -> Item | None:
    """The device or terminal block last said, one whose size is still unsaid before others."""
    sized = [item for item in state.items if isinstance(item.content, Yoke | TerminalBlock)]
    last = state.item(state.last)
    if last in sized:
        return last
    unsaid = [item for item in sized if getattr(item.content, "awg", None) is None]
    return next(reversed(unsaid or sized), None)


def land_item(turn: Turn, item: Item, awg: int, some: int | None, words: str) -> None:
    """Set the size on a device; on some of several where a count is said."""
    content = item.content
    assert isinstance(content, Yoke | TerminalBlock)
    if some is not None and some < content.count:
        rest = replace(content, count=content.count - some)
        part = replace(content, count=some, awg=awg)
        try:
            validate(part)
        except RulesError as refusal:
            turn.refuse(words, str(refusal))
            return
        state = turn.state.with_content(item.key, rest).with_item(part, item.words)
        turn.enter(state, sentence(naming.heard(part)), naming.shown(part))
        return
    change_content(turn, item, replace(content, awg=awg), words)


def widen(turn: Turn, act: acts.Widen) -> None:
    """ "It takes up two gangs"."""
    target = act.target
    item = turn.state.item(target.item) if target.item is not None else None
    if item is None and target.name:
        item = references.find(turn.state, replace(target, which="said", words=""))
    if item is None:
        devices = [i for i in turn.state.items if isinstance(i.content, Yoke)]
        last = turn.state.item(turn.state.last)
        open_ = [i for i in devices if i.open == "gangs"]
        item = open_[-1] if open_ else last if last in devices else devices[-1] if devices else None
    if item is None or not isinstance(item.content, Yoke):
        not_found(turn, target, act.words)
        return
    gangs = f"{counted(act.gangs)} {naming.plural('gang', act.gangs)}"
    state = turn.state.closed(item.key, replace(item.content, gangs=act.gangs))
    turn.enter(state, say("echo.gangs", what=item.content.name, gangs=gangs))


def unground(turn: Turn, act: acts.Unground) -> None:
    """ "That 14-2 has no ground"."""
    target = act.target
    if target.kind in ("anything", "wire") and target.which == "said" and target.count is None:
        target = replace(target, kind="cable")
        found = [i for i in references.find_all(turn.state, target) if isinstance(i.content, Cable)]
        last = turn.state.item(turn.state.last)
        if last in found and last is not None and not references.plural(act.target.words):
            found = [last]
    else:
        found = [i for i in references.find_all(turn.state, replace(target, kind="cable")) if isinstance(i.content, Cable)]
    if not found:
        not_found(turn, act.target, act.words)
        return
    if target.count is not None and target.which == "said":
        item = found[-1]
        ground = ground_for(item.content.awg) if act.ground else None  # type: ignore[union-attr]
        split_cable(turn, item, target.count, ground, act.words)
        return
    if target.ordinal is not None or (references._singular(target.words) and len(found) == 1 and found[0].content.count > 1):
        item = references.find(turn.state, replace(target, kind="cable")) or found[-1]
        split_cable(turn, item, 1, None, act.words)
        return
    for item in found:
        assert isinstance(item.content, Cable)
        ground = ground_for(item.content.awg) if act.ground else None
        change_content(turn, item, replace(item.content, ground=ground), act.words)


def reclassify(turn: Turn, act: acts.Reclassify) -> None:
    """ "Two are grounds" of eight wires; "two of them pass straight through"."""
    state = turn.state
    items = [i for i in state.items if isinstance(i.content, Conductors)]
    last = state.item(state.last)
    item = last if last in items else items[-1] if items else None
    if item is None:
        if act.kind == "grounds" and act.count is not None:
            entering.enter(turn, acts.AddGrounds(count=act.count, words=act.words))
            return
        turn.unplaced.append(act.words)
        return
    assert isinstance(item.content, Conductors)
    count = item.content.count if act.count is None else act.count
    if count > item.content.count:
        turn.refused.append(say("fewer_than_that", what=naming.heard(item.content)))
        return
    rest = item.content.count - count
    left = state.with_content(item.key, replace(item.content, count=rest)) if rest else state.without(item.key)
    new: Content = (
        Grounds(item.content.awg, count) if act.kind == "grounds"
        else replace(item.content, count=count, path=act.path or "ends")  # type: ignore[arg-type]
    )  # fmt: skip
    if act.kind == "grounds":
        left = replace(left, grounds="said")
    made = left.with_item(new, act.words)
    parts = [naming.heard(replace(item.content, count=rest))] if rest else []
    turn.enter(made, sentence(listed([*parts, naming.heard(new)])), naming.shown(new))


def route(turn: Turn, act: acts.Route) -> None:
    """ "Those pass straight through"."""
    found = [i for i in references.find_all(turn.state, act.target) if isinstance(i.content, Cable | Conductors)]
    if not found:
        last = [i for i in turn.state.items if isinstance(i.content, Cable | Conductors)]
        found = last[-1:]
    if not found:
        not_found(turn, act.target, act.words)
        return
    for item in found:
        change_content(turn, item, replace(item.content, path=act.path), act.words)  # type: ignore[call-arg]


def canopy(turn: Turn, act: acts.SetCanopy) -> None:
    """Whether the fixture wires come from a domed canopy, 314.16(B)(1) Exception."""
    state = turn.state
    found = False
    for item in state.items:
        if isinstance(item.content, FixtureWires | Grounds) and (
            item.open == "canopy" or isinstance(item.content, FixtureWires) or item.content.canopy
        ):
            found = True
            state = state.closed(item.key, replace(item.content, canopy=act.canopy))
    if not found:
        return
    turn.enter(state, say("echo.canopy" if act.canopy else "echo.no_canopy"))


def put_back(turn: Turn, act: acts.PutBack) -> None:
    """ "Put back the 14-2", "put both of those back": what was taken out or replaced comes again."""
    recalled = turn.state.recalled
    if not recalled:
        item = references.find(turn.state, act.target)
        turn.refused.append(say("nothing_to_redo") if item is None else say("not_taken_out", what=naming.heard(item.content)))
        turn.unplaced.append(act.words)
        return
    many = act.target.which in ("both", "all") or (references.plural(act.target.words) and act.target.kind == "anything")
    take = 2 if act.target.which == "both" else len(recalled) if many else 1
    for one in reversed(recalled[-take:]):
        _restore(turn, one, act.target.count)


def _restore(turn: Turn, recalled: Recalled, wanted: int | None) -> None:
    state = turn.state
    by = state.item(recalled.by) if recalled.by is not None else None
    if by is not None:
        left = by.content.count - recalled.content.count
        state = state.without(by.key) if left <= 0 else state.with_content(by.key, replace(by.content, count=left))
    count = min(wanted or recalled.content.count, recalled.content.count)
    content = replace(recalled.content, count=count)
    twin = next((i for i in state.items if entering.alike(i.content, content)), None)
    if twin is not None:
        state = state.with_content(twin.key, replace(content, count=twin.content.count + content.count))
    else:
        state = state.with_item(content, recalled.words)
    rest = tuple(one for one in state.recalled if one is not recalled)
    turn.enter(replace(state, recalled=rest), say("echo.back", what=naming.heard(content)))
