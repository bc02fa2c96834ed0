"""Interpretation in context: a bare answer becomes the full act that it stands for.

It happens before any doubt is decided, for typed and heard words alike, so that an answer held
back keeps its meaning when something else is asked meanwhile. A type that an answer cannot have
makes nothing of it: "on the 14" is a size and never a volume, "two" no volume at all.
"""

from __future__ import annotations

import re
from decimal import Decimal
from typing import cast

from boxaloud.assistant.dialogue.interpretation import (
    bare_measures,
    box_measures,
    cables_by_role,
    canadian_connectors,
    none_of_them,
    offered_boxes,
    open_cables,
    pointed_devices,
    pointed_wires,
    reference_ambiguity,
    said_sizes,
)
from boxaloud.assistant.dialogue.interpretation.full_acts import corrected, full
from boxaloud.assistant.dialogue.table_volume import is_its_volume, said_of_box
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference, Thing
from boxaloud.grammar.clauses.act_fields import KIND_OF
from boxaloud.rules import is_canadian
from boxaloud.rules.contents import Cable, FixtureWires, Yoke

SIZED = ("device_size", "block_size")
BOXLESS = (None, "contents", "clamps", "unread", *SIZED)
"""Questions under which a bare number is the volume of a box that is not known yet."""


def interpreted(turn: Turn, act: Act) -> Act:
    """The full act that a bare answer is under the open question; any other act as it is."""
    if turn.state.offered and (box := offered_boxes.chosen(turn.state, act)) is not None:
        return full(act, box, "row")
    act = pointed_devices.widened(turn.state, act) or act
    act = pointed_devices.landed(turn.state, act) or pointed_wires.routed(turn.state, act) or act
    act = cables_by_role.further(turn, open_cables.sized(turn, act))
    act = cables_by_role.resized(turn, act)
    if type(act) in KIND_OF:
        return _thing(turn, act)
    match act:
        case acts.Place():
            return _placed(turn, act)
        case acts.NoneOfThem():
            return none_of_them.answer(turn, act)
        case acts.Number() | acts.RestateNumber() if _is_year(act.value):
            return full(act, acts.SetEdition(year=str(act.value)), "year")
        case acts.RestateNumber() | acts.Size() if anew := said_sizes.landed_anew(turn, act):
            return anew
        case acts.Number() | acts.RestateNumber() if box_measures.is_depth(turn, act.value):
            return full(act, acts.SetSize(depth=act.value), "depth")
        case acts.RestateNumber():
            return _restated(turn, act)
        case acts.Number() if act.value is not None:
            return _number(turn, act, act.value)
        case acts.Size() if act.awg is not None:
            return _size(turn, act, act.awg)
        case acts.NameBoxKind() if act.gangs and not act.family:
            return _gangs(turn, act, act.gangs)
    return _of_the_box(turn, act)


def _of_the_box(turn: Turn, act: Act) -> Act:
    """What is said of the box itself, its clamps and connectors."""
    match act:
        case acts.SetClamps() if is_canadian(turn.state.edition):
            return canadian_connectors.which(act)
        case acts.SetVolume():
            return box_measures.said_volume(turn, act)
        case acts.SetSize():
            return box_measures.said_size(turn, act)
    return act


def _placed(turn: Turn, act: acts.Place) -> Act:
    """ "Inside": the clamps, or the bonding jumper that is asked about."""
    if turn.asked == "jumper" and act.where in ("inside", "outside"):
        return full(act, acts.AddJumper(enters=act.where == "outside"), "enters")
    return full(act, acts.SetClamps(where=act.where), "where")


def _thing(turn: Turn, act: Act) -> Act:
    """A thing named where it is asked which one is meant, or what it should be."""
    if act.function != "inform":
        return act
    if isinstance(act, acts.AddConductors) and act.awg is None:
        act = said_sizes.of_all(turn, act)
    if turn.asked == "confirm" and reference_ambiguity.is_open(turn.state):
        return reference_ambiguity.answered(turn, cast(Thing, act)) or act
    if turn.asked == "mistaken" and not _MORE.search(act.words.lower()):
        return corrected(act, acts.Restate(thing=cast(Thing, act)))
    return act


#: "One more 14-2" comes on top, also where what was said is in dispute.
_MORE = re.compile(r"\b(?:more|another|extra|additional|second|third)\b")


def _gangs(turn: Turn, act: Act, gangs: int) -> Act:
    """So many gangs, where it is open how many a device takes."""
    if turn.asked == "gangs":
        return full(act, _widened(turn, gangs), "gangs")
    key = _open_width(turn)
    if key is None:
        return act
    return full(act, acts.Widen(target=Reference("device", item=key), gangs=gangs), "gangs")


def _is_year(value: Decimal | None) -> bool:
    """A number that can only be an edition of the code."""
    return value is not None and value == int(value) and 1990 <= value <= 2040


def _open_width(turn: Turn) -> int | None:
    """The device said last, where it is open how wide it is."""
    item = turn.state.item(turn.state.last)
    return item.key if item is not None and item.open == "gangs" else None


def _widened(turn: Turn, gangs: int) -> Act:
    return acts.Widen(target=Reference("device", item=turn.subject, which="last"), gangs=gangs)


def _restated(turn: Turn, act: acts.RestateNumber) -> Act:
    """ "Make that twelve-two" of a cable: a size and a count of wires, not twelve point two."""
    item = turn.state.item(turn.state.last)
    if item is not None and isinstance(item.content, Cable):
        awg, _, conductors = str(act.value).partition(".")
        if awg in ("14", "12", "10", "8", "6") and conductors in ("2", "3", "4"):
            cable = acts.AddCable(
                awg=int(awg), conductors=int(conductors), words=act.words, span=act.span
            )
            return acts.Restate(thing=cable, words=act.words, span=act.span, function="correction")
    return act


def _number(turn: Turn, act: acts.Number, value: Decimal) -> Act:
    """A bare number: what it is of the open question, else a volume if it can be one."""
    whole = value == int(value)
    asked = turn.asked
    if (counted := _canadian_connectors(turn, act, value)) is not None:
        return counted
    if asked == "mistaken":
        return corrected(act, acts.RestateNumber(value=value))
    if value == 1 and _there_is_a_clamp(turn, act):
        return full(act, acts.SetClamps(where="present", count=1), "count")
    if whole and value in (14, 12, 10, 8, 6) and turn.done and asked not in SIZED:
        return act  # "six 12s and a ground, that's 12": behind things said, a size is no volume
    if not whole and value >= 6 and _of_known_box(turn):
        return full(act, acts.SetVolume(volume=value), "volume")
    if said_of_box(turn, act, value) and is_its_volume(turn, value):
        return full(act, acts.SetVolume(volume=value), "volume")
    answer = _answer(turn, act, value)
    if answer is not None:
        return answer
    if not whole and value >= 3 and (turn.supposed or not turn.state.box):
        return full(act, acts.SetVolume(volume=value), "volume")  # nothing else is a fraction
    if (
        asked in BOXLESS
        and not turn.state.box
        and box_measures.LEAST_BOX <= value <= box_measures.LARGEST_BOX
    ):
        return box_measures.as_volume(turn, act, value)
    return act


def _canadian_connectors(turn: Turn, act: acts.Number, value: Decimal) -> Act | None:
    """ "Two connectors" under Rule 12-3034: those of wires, a pair of which counts; what clamps a
    cable counts nothing there."""
    named = turn.upcoming
    if not is_canadian(turn.state.edition) or value != int(value) or not 1 <= value <= 40:
        return None
    if not isinstance(named, acts.SetClamps) or named.words.lower() != "connectors":
        return None
    turn.take()
    words = f"{act.words} {named.words}"
    return acts.AddUncounted(name="wire connector", count=int(value), words=words, span=act.span)


def _there_is_a_clamp(turn: Turn, act: acts.Number) -> bool:
    """ "There is one", of the clamps that were just said not to be there."""
    state = turn.state
    return state.last == "clamps" and state.clamps == "none" and "there" in act.words.lower()


def _of_known_box(turn: Turn) -> bool:
    """True where a fraction said by itself can only be another volume of the box at hand."""
    alone = all(isinstance(one, (acts.DoIt, acts.Yes, acts.Social)) for one in turn.done)
    return bool(turn.state.box) and alone and turn.asked in (None, "clamps")


def _answer(turn: Turn, act: acts.Number, value: Decimal) -> Act | None:
    """The number as the answer to the open question; None where it cannot be one."""
    whole = value == int(value)
    made = bare_measures.answer(turn, value)
    if made is not None:
        return full(act, *made)
    match turn.asked:
        case "box":
            return box_measures.as_volume(turn, act, value)
        case "box_depth" if value > 6:
            return box_measures.as_volume(turn, act, value)
        case "box_depth":
            return full(act, acts.SetSize(depth=value), "depth")
        case "clamps":
            return _clamps(turn, act, value)
        case "grounds" if any(type(one) in KIND_OF for one in turn.done):
            return act  # "six 12s, plus two spliced": no answer to what was not yet asked
        case "grounds" if value == 0:
            return full(act, acts.Deny(target=Reference("grounds")), "target")
        case "grounds" if whole:
            return full(act, acts.AddGrounds(count=int(value)), "count")
        case "device_size" | "block_size" if whole:
            return _landed(turn, act, int(value))
        case "gangs" if value in (1, 2, 3):
            return full(act, _widened(turn, int(value)), "gangs")
    return None


def _clamps(turn: Turn, act: acts.Number, value: Decimal) -> Act | None:
    if any(type(one) in KIND_OF for one in turn.done):
        return act  # behind things said, a number left alone may have counted any of them
    if value == 0:
        return full(act, acts.SetClamps(where="none"), "where")
    if value == int(value) and value <= 4:
        return full(act, acts.SetClamps(where="present", count=int(value)), "count")
    return None


def _size(turn: Turn, act: acts.Size, awg: int) -> Act:
    """A bare wire size: where a device lands, or how large wires just said are. No volume."""
    if turn.asked in SIZED:
        return _landed(turn, act, awg)
    if turn.asked == "grounds":
        return act
    item = turn.state.item(turn.state.last)
    fixture = [i for i in turn.state.items if isinstance(i.content, FixtureWires)]
    if awg >= 16 and fixture and turn.asked != "confirm":
        return full(
            act,
            acts.Resize(target=Reference("fixture_wires", item=fixture[-1].key), awg=awg),
            "awg",
        )
    if item is not None and isinstance(item.content, Yoke) and item.content.awg is None:
        return full(act, acts.Land(target=Reference("device", item=item.key), awg=awg), "awg")
    if (
        item is not None
        and isinstance(item.content, Yoke)
        and _ON.search(turn.heard[: act.span[0]])
    ):
        return full(act, acts.Land(target=Reference("device", item=item.key), awg=awg), "awg")
    if (agreed := said_sizes.of_all_there(turn, act, awg)) is not None:
        return agreed
    if turn.asked == "box" and not _plural(act.words) and not _SIZED.search(act.words):
        return box_measures.as_volume(
            turn,
            acts.Number(value=Decimal(awg), words=act.words, span=act.span, doubts=act.doubts),
            Decimal(awg),
        )
    return said_sizes.open_count(turn, act, awg) or act


_ON = re.compile(r"(?i)\bon (?:the )?$")
#: "On the 12", "number eight": a size, and no volume.
_SIZED = re.compile(r"(?i)\b(?:on|number|no\.|awg|gauge)\b|#")


def _plural(words: str) -> bool:
    return words.lower().rstrip(" .").endswith("s")


def _landed(turn: Turn, act: Act, awg: int) -> Act:
    made = acts.Land(target=Reference("device", item=turn.subject), awg=awg)
    return full(act, made, "awg")


def tells_nothing(turn: Turn, act: Act) -> bool:
    """True for the "there is" of "there is no dimmer", which begins a denial and answers nothing,
    and for the one of "box 20 cu in (1)", of which there is but one."""
    if isinstance(act, acts.Yes) and act.words.lower().startswith("they are"):
        return turn.next_is(acts.AddCable, acts.Restate)  # "they are 12-2"
    if isinstance(act, (acts.Yes, acts.NoneOfThem)):
        begins = turn.heard[act.span[1] : act.span[1] + 1] == " "  # "there is one 12-2 leaving"
        told = turn.next_is(acts.Deny) or (begins and type(turn.upcoming) in KIND_OF)
        return act.words.lower().startswith("there") and told
    before = turn.done[-1] if turn.done else None
    if not (isinstance(act, acts.Number) and isinstance(before, (acts.SetVolume, acts.SetSize))):
        return False
    start = act.span[0]
    return act.value == 1 and start > 0 and turn.heard[start - 1 : start] == "("
