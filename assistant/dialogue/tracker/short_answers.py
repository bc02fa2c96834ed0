"""Answers that only mean something to the open question, and yes, no, skip, I don't know."""

from __future__ import annotations

import re
from decimal import Decimal

from boxaloud.assistant.dialogue import named_devices, undo
from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.belief import held_acts
from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.nlg import item_names
from boxaloud.assistant.dialogue.nlg.sentences import say
from boxaloud.assistant.dialogue.tracker import (
    added_items,
    adopted_edition,
    agreeing_numbers,
    bonding_jumpers,
    clamps,
    conductor_routes,
    denials,
    neutral_acts,
)
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.rules.contents import Yoke

WORST_CASE = {
    "clamps", "grounds", "device_size", "block_size", "gangs", "canopy", "jumper",
    "pull_rows", "pull_returns", "pull_walls", "pull_cover", "pull_conductor",
    "pull_insulation", "body_ends",
    "connectors", "device_depth", "space", "share", "named",
}  # fmt: skip
"""Slots that can be left at a worst case; a box's volume has none."""

OF_ITEM = {"device_size", "block_size", "gangs", "device_depth"}
"""Slots of a single item: the worst case is assumed for that item alone."""

CORRECTING = (
    acts.Restate, acts.RestateNumber, acts.Recount, acts.Replace, acts.Resize, acts.Remove,
    acts.SetVolume, acts.SetClamps, acts.Undo, acts.Land, acts.Deny, acts.SetSize, acts.PutBack,
    acts.Unground, acts.Keep, acts.SetEdition,
)  # fmt: skip


def number(turn: Turn, act: acts.Number) -> None:
    """A bare number that no open question took: it stands in for a doubtful value, or for none."""
    value = act.value or Decimal(0)
    if turn.asked == "confirm":
        whole = value == int(value)
        held_acts.replaced(turn, int(value) if whole else value, act)
    elif agreeing_numbers.agrees(turn, act) or agreeing_numbers.repeats_volume(turn, act):
        turn.understood.append(act.words)
    else:
        turn.unplaced.append(act.words)


def size(turn: Turn, act: acts.Size) -> None:
    """A bare wire size that no open question took."""
    held = turn.state.pending
    of_volume = turn.asked == "confirm" and bool(held) and held[0].slot == "volume"
    if turn.asked == "confirm" and not of_volume:  # "on the twelves" is no volume
        held_acts.replaced(turn, act.awg, act)
    elif _is_on_it(turn, act):
        turn.understood.append(act.words)
    else:
        turn.unplaced.append(act.words)


def _is_on_it(turn: Turn, act: acts.Size) -> bool:
    """ "Just a plain switch in there now, on the fourteens", which it is on already."""
    item = turn.state.item(turn.state.last)
    devices = [one.content for one in turn.state.items if isinstance(one.content, Yoke)]
    lone = item is None and len(devices) == 1
    content = item.content if item is not None else devices[0] if lone else None
    said = act.words.lower().startswith("on ")
    return said and isinstance(content, Yoke) and content.awg == act.awg is not None


def none(turn: Turn, act: Act) -> None:
    """ "none": no to the open question."""
    if turn.asked == "canopy":
        conductor_routes.canopy(turn, acts.SetCanopy(canopy=False, words=act.words))
    elif _of_one_thing(turn, False, act):
        return
    elif turn.asked == "confirm":
        held_acts.rejected(turn)
    elif turn.asked in ("unread", "mistaken"):
        skip(turn, act)
    elif turn.asked == "box":
        turn.answer(say("how_to.box"), act.words)
    elif turn.asked == "grounds":
        denials.deny(turn, acts.Deny(target=Reference("grounds"), words=act.words))
    elif turn.asked == "clamps":
        clamps.set_clamps(turn, "none")
    elif turn.asked == "connectors":
        denials.no_connectors(turn, act)
    elif turn.asked == "contents":
        denials.nothing_else(turn, acts.NothingElse(words=act.words))
    else:
        turn.understood.append(act.words)


def yes(turn: Turn, act: Act) -> None:
    """ "yes": it confirms, or is not enough."""
    if turn.asked == "confirm":
        if turn.next_is(acts.Restate, acts.RestateNumber, acts.Number):
            return
        held_acts.confirmed(turn, act)
    elif turn.asked == "clamps":
        if not turn.next_is(acts.SetClamps):  # "yes it has clamps" says it once
            clamps.clamps(turn, acts.SetClamps(where="present", words=act.words))
    elif turn.asked == "grounds":
        added_items.enter(turn, acts.AddGrounds(words=act.words))
    elif turn.asked == "canopy":
        conductor_routes.canopy(turn, acts.SetCanopy(canopy=True, words=act.words))
    elif (not turn.trail and _of_one_thing(turn, True, act)) or _of_enclosure(turn, True, act):
        return
    elif turn.ahead or turn.trail:
        return  # "yes" before or after what else is said in the same breath
    elif turn.state.proposed:
        from boxaloud.assistant.dialogue.tracker import what_if

        what_if.do_it(turn, acts.DoIt(words=act.words))
    elif _THERE_IS.search(turn.heard.lower()):
        turn.unplaced.append(turn.heard)  # "no dimmer", "yes there is": of what is yet to be said
    else:
        turn.social.append(say("fine"))
        turn.understood.append(act.words)


def _of_one_thing(turn: Turn, there: bool, act: Act) -> bool:
    """Yes or no to whether a bonding jumper comes in, or a device is in the box."""
    if turn.asked == "jumper":
        bonding_jumpers.answer(turn, there, act.words)
    elif turn.asked == "named":
        named_devices.answered(turn, there, act)
    else:
        return False
    return True


_THERE_IS = re.compile(r"\b(?:there (?:is|are|was|were)|it is there)\b(?! no)")


def no(turn: Turn, act: Act) -> None:
    """ "no": an answer, or the start of a correction ("no, three")."""
    if turn.asked == "confirm":
        if turn.next_is(acts.RestateNumber, acts.Number, acts.Size):
            return  # the value that follows stands in for the doubtful one
        held_acts.rejected(turn)
    elif turn.asked == "unread" and not turn.ahead:
        skip(turn, act)
    elif _of_enclosure(turn, False, act) or _corrects(turn, act):
        return
    elif turn.next_is(acts.DontKnow) or _NOT_LOOKED.search(turn.heard.lower()):
        turn.understood.append(act.words)  # "no, I can't see it" is no "none"
    elif (
        turn.asked in ("clamps", "grounds", "canopy", "connectors", "jumper", "named")
        and not turn.trail
    ):
        none(turn, act)
    elif turn.ahead or turn.trail:
        return
    elif turn.asks:
        turn.understood.append(act.words)
    elif turn.state.proposed:
        turn.state = altered(turn.state, proposed=())
        turn.answer(say("echo.kept"), act.words)
    else:
        neutral_acts.mistaken(turn, act)


#: "No, I haven't looked", "no, I'm not at the box": of the speaker, and of nothing in the box.
_NOT_LOOKED = re.compile(
    r"\b(?:no|nope|nah)\b\W+(?:i|we)(?:['’]?m| am|['’]?re| are| was| were)?\s*(?:can(?:no|['’])?t"
    r"|can not|could ?n['’]?t|have ?n['’]?t|have not|did ?n['’]?t|did not|not|don['’]?t)\b"
    r"(?!.*\b(?:any|clamps?|grounds?|one|ones|none|connectors?)\b)"
    r".*\b(?:look(?:ed|ing)?|see|seen|check(?:ed)?|open(?:ed)?|reach(?:ed)?|get|tell|told|know|sure"
    r"|remember|at|near|there|home|in front)\b"
)


def _of_enclosure(turn: Turn, yes: bool, act: Act) -> bool:
    """ "Yes" or "no" of a pull box or a conduit body that is asked about."""
    if not (turn.asked or "").startswith(("pull_", "body_")) or turn.trail:
        return False
    from boxaloud.assistant.dialogue.enclosures import conduit_body
    from boxaloud.assistant.dialogue.tracker import pull_box

    return pull_box.answered(turn, yes, act.words) or conduit_body.answered(turn, yes, act.words)


_THAT_IS = re.compile(r"(?i)(?:that|it|those|they|this)(?:['’]s|['’]re| is| are| was| were)\b")
_NO_WAIT = re.compile(r"(?i)\bno\b\W*(?:wait|hold on|hang on|sorry|scratch that)\b")


def _corrects(turn: Turn, said: Act) -> bool:
    """True where what follows "no" corrects what is there, so that no question is answered."""
    rest = [one for one in turn.ahead if not isinstance(one, acts.No)]  # "no, no, take it out"
    act = rest[0] if rest else None
    spoken = [said, *turn.done, *turn.ahead]
    twice = (
        sum(one.words.lower().split().count("no") for one in spoken if isinstance(one, acts.No)) > 1
    )
    if act is not None and _NO_WAIT.search(turn.heard):
        return True  # "no wait, GFCI it is"
    if is_thing(act) and twice:
        return True  # "no, no, there's a 14-3 as well": what was said before is meant
    if not isinstance(act, CORRECTING):
        return False
    if isinstance(act, acts.Restate):
        if _THAT_IS.match(act.words):
            return True  # "no, that's a plain duplex here"
        reference = references.to_thing(act.thing)
        found = references.find(turn.state, reference)
        return found is not None and act.thing.count is not None
    if isinstance(act, acts.SetClamps):
        return turn.asked != "clamps"
    return True


def skip(turn: Turn, act: Act) -> None:
    """Leave the open question: at its worst case where it has one, and marked so."""
    asked = turn.asked
    if turn.state.proposed and "leave" in act.words.lower():
        # "nah leave it": what was only supposed, and not the question that is open
        turn.state = altered(turn.state, proposed=())
        turn.answer(say("echo.kept"), act.words)
    elif asked is None and _of_the_last(turn, act):
        undo.undo(turn, acts.Undo(count=1, words=act.words, span=act.span))
    elif asked is None:
        turn.answer(say("nothing_to_skip"), act.words)
    elif asked == "confirm":
        held_acts.rejected(turn)
    elif asked == "unread":
        state = altered(turn.state, unread=(), unread_with=frozenset())
        turn.enter(state, say("echo.left_out"), act.words)
    elif asked == "mistaken":
        turn.enter(altered(turn.state, mistaken=False), say("echo.kept"), act.words)
    elif asked == "edition":
        adopted_edition.left(turn, act)
    elif asked == "ring_depth":
        state = altered(turn.state, partial_ring=None)
        turn.enter(state, say("put_off.ring_depth"), act.words)
    elif asked in WORST_CASE:
        _assume(turn, asked, act)
    else:
        state = altered(turn.state, put_off=turn.state.put_off | {asked})
        turn.enter(state, say(f"put_off.{asked}"), act.words)


#: "Never mind that one", of what came in last.
_THAT_ONE = re.compile(r"(?i)\b(?:never ?mind|skip|drop) (?:that|it)\b")


def _of_the_last(turn: Turn, act: Act) -> bool:
    """Whether one thing alone came in last, and is what the words point at."""
    last = turn.history.last if turn.history is not None else None
    lone = last is not None and last.told == 1 and turn.state.added
    return bool(lone) and _THAT_ONE.search(act.words) is not None


_OF_CLAMPS = re.compile(r"(?i)\b(?:whether|if|about|of|on)\b[^,.;:]*\bclamps?\b")


def dont_know(turn: Turn, act: Act) -> None:
    """How to find out; the worst case stands until then."""
    asked = turn.asked
    if asked != "clamps" and turn.state.clamps == "none" and _OF_CLAMPS.search(turn.heard):
        turn.unplaced.append(turn.heard)  # of what was said to be none: one of both is not so
        return
    if asked is None:
        turn.answer(say("nothing_asked"), act.words)
        return
    turn.answer(say(f"how_to.{asked}"), act.words)


def _assume(turn: Turn, slot: str, act: Act) -> None:
    """Leave a slot at its worst case; one of a single item leaves only that item so."""
    key = turn.subject if slot in OF_ITEM else None
    item = turn.state.item(key) if key is not None else None
    name = f"{slot} {item.key}" if item is not None else slot
    what = "" if item is None else item_names.bare(item.content)
    state = altered(turn.state, assumed=turn.state.assumed | {name})
    turn.enter(state, say(f"worst.{slot}", what=what), act.words)
