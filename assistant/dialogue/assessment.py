"""Where the box stands: the worksheet, the verdict, and the question that comes next."""

from __future__ import annotations

from collections import deque
from dataclasses import replace
from decimal import Decimal
from functools import cache, lru_cache

from boxaloud.assistant.dialogue import named_devices
from boxaloud.assistant.dialogue.divided_box import Split, Standing, split
from boxaloud.assistant.dialogue.enclosures import conduit_body, pull_open, pull_standing
from boxaloud.assistant.dialogue.enclosures.conduit_body import BodyStanding
from boxaloud.assistant.dialogue.enclosures.pull_standing import PullStanding
from boxaloud.assistant.dialogue.question_slots import QuestionSlot
from boxaloud.assistant.dialogue.state import State, beginning, to_box
from boxaloud.grammar import acts
from boxaloud.grammar.quick_dataclass import dataclass
from boxaloud.rules import is_canadian, work_out
from boxaloud.rules.contents import Box
from boxaloud.rules.worksheet import Verdict, Worksheet


@dataclass(frozen=True, slots=True)
class Question:
    """The open question: its slot, and the item it is about where it is about one."""

    slot: QuestionSlot
    subject: int | None = None
    decides: bool = True


@dataclass(frozen=True, slots=True)
class Assessment:
    """A state worked out. `low` and `high` are cubic inches over everything still open."""

    sheet: Worksheet
    verdict: Verdict
    low: Decimal
    high: Decimal
    question: Question | None
    spaces: tuple[Standing, ...] = ()
    """The spaces of a divided box, of which `sheet` is the one that governs."""
    pull: PullStanding | None = None
    """Where it stands by 314.28, if it is a pull box."""
    body: BodyStanding | None = None
    """Where it stands by 314.16(C), if it is a conduit body that no volume is counted of: the
    verdict is then this one, and the sheet governs nothing."""

    @property
    def pull_alone(self) -> bool:
        """True for a pull box with nothing in it that counts by volume."""
        return self.pull is not None and not self.sheet.lines

    @property
    def small_alone(self) -> bool:
        """True where a box is over by its dimensions and not by the volume of what is in it."""
        room = self.sheet.capacity
        small = self.pull is not None and self.pull.verdict == "over"
        return small and not (room is not None and self.low > room)

    @property
    def by_volume(self) -> bool:
        """True where its volume counts, and not dimensions or a raceway alone."""
        return self.body is None and not self.pull_alone


_recent: deque[tuple[State, Assessment]] = deque(maxlen=8)
"""The states worked out last: a turn looks at the same one several times."""


def assess(state: State) -> Assessment:
    """Work out a state, with what is open of its items, and choose the next question.

    A held-back act makes the verdict incomplete: no verdict rests on a doubt. So do weighty
    words that nothing could be made of; but a box that is over whatever they mean is over. Of a
    box of which something is said to be wrong nothing is known until it is said what.
    """
    for known, found in _recent:
        if known is state:
            return found
    found = _begun(state.edition) if state is beginning(state.edition) else _assessed(state)
    _recent.append((state, found))
    return found


@cache
def _begun(edition: str) -> Assessment:
    """Every box begins so, so that it is worked out once."""
    return _assessed(beginning(edition))


def _assessed(state: State) -> Assessment:
    without = named_devices.counted(state)
    found = _worked(without)
    return found if without is state else _either_way(state, found, _worked(state))


def _either_way(state: State, without: Assessment, whole: Assessment) -> Assessment:
    """A box of which it is open whether the device that it is called by is in it: its total is
    that without it, and a verdict stands that is the same with it."""
    high = max(without.high, whole.high)
    if without.verdict in ("incomplete", whole.verdict):
        asked = without.question or Question("named", state.name_open, decides=False)
        return replace(without, high=high, question=asked)
    asked = Question("named", state.name_open)
    return replace(without, verdict="incomplete", high=high, question=asked)


def _worked(state: State) -> Assessment:
    box = to_box(state)
    sheet = _worked_out(box, tuple([str(getattr(part, "volume", "")) for part in box.parts]))
    low, high = sheet.low, sheet.high
    if conduit_body.ends_open(state) or _any_item_open(state):
        low = min(low, work_out(to_box(state, "least")).low)
        high = max(high, work_out(to_box(state, "most")).high)
    divided = split(state, sheet)
    if divided is not None and not divided.spaces:
        found = _unshared(state, sheet, low, high)
    elif divided is not None and (divided.governing.over or low <= (sheet.capacity or low)):
        found = _divided(state, divided)
    else:
        verdict = _verdict(state, sheet, low, high)
        found = Assessment(sheet, verdict, low, high, _question(state, sheet, low, high))
    return _of_enclosure(state, found)


def _of_enclosure(state: State, found: Assessment) -> Assessment:
    """What goes by dimensions or by a raceway, and not by volume."""
    if state.pulls is not None:
        pull = pull_standing.standing(state)
        found = replace(found, pull=pull)
        verdict = pull.verdict if found.pull_alone else _of_both(found.verdict, pull.verdict)
        found = replace(found, verdict=verdict)
    if (body := conduit_body.standing(state)) is not None:
        found = replace(found, body=body, verdict=body.verdict)
    return found


def _of_both(one: Verdict, other: Verdict) -> Verdict:
    """What a box comes to by its volume and by its dimensions: it fits only by both."""
    if "over" in (one, other):
        return "over"
    return "fits" if one == other == "fits" else "incomplete"


def _unshared(state: State, sheet: Worksheet, low: Decimal, high: Decimal) -> Assessment:
    """A divided box of which nobody knows how much is on which side: it is over where all of it
    is more than the whole, and never fits."""
    verdict = _verdict(state, sheet, low, high)
    question = _question(state, sheet, low, high)
    if not (state.pending or state.mistaken or state.edition_choices or state.unread):
        question = Question("share") if verdict != "over" else question
    held = "incomplete" if verdict == "fits" else verdict
    return Assessment(sheet, held, low, high, question)


def _divided(state: State, divided: Split) -> Assessment:
    """A divided box stands as the space does that governs it."""
    first = divided.governing
    verdict = _verdict(state, first.sheet, first.low, first.high)
    question = None
    if state.pending or state.mistaken or state.edition_choices:
        question = _question(state, first.sheet, first.low, first.high)
    elif divided.unplaced is not None:
        decides = not first.over and first.room < 0
        question = Question("space", divided.unplaced.key, decides)
    else:
        rest = [one for one in divided.spaces if one is not first and one.state.items]
        asked = (_question(one.state, one.sheet, one.low, one.high) for one in (first, *rest))
        # a side with nothing in it may stay so: something is in the box
        known = (one for one in asked if one is not None and one.slot != "contents")
        question = next(known, None)
    return Assessment(first.sheet, verdict, first.low, first.high, question, divided.spaces)


def _any_item_open(state: State) -> bool:
    """Whether something of a single item is open that its edition counts by."""
    return not is_canadian(state.edition) and any(
        item.open and not state.takes_worst(item.open, item.key) for item in state.items
    )


@lru_cache(maxsize=256)
def _worked_out(box: Box, written: tuple[str, ...]) -> Worksheet:
    """What a turn changes beside the box (a doubt, words not read) leaves its worksheet, and many
    boxes of a job are alike. `written` tells a box of 18 from one of 18.0, which is equal to it."""
    return work_out(box)


def _verdict(state: State, sheet: Worksheet, low: Decimal, high: Decimal) -> Verdict:
    if sheet.capacity is None:
        return "incomplete"
    if state.mistaken or state.edition_choices:
        return "incomplete"
    if state.pending or state.unread:
        over = low > sheet.capacity and not _could_relieve(state)
        return "over" if over and not state.unread else "incomplete"
    if any(slot.slot == "contents" for slot in sheet.open):
        return "incomplete"  # nothing is in it, whoever said so: there is nothing to hold by it
    if low > sheet.capacity:
        return "incomplete" if state.partial_ring is not None else "over"
    return "fits" if high <= sheet.capacity else "incomplete"


_ADDING = (
    acts.AddCable, acts.AddConductors, acts.AddGrounds, acts.AddJumper, acts.AddFixtureWires,
    acts.AddDevice, acts.AddFitting, acts.AddTerminalBlock, acts.AddUncounted, acts.More,
)  # fmt: skip
"""Acts that can only fill a box further: while one waits, an over box is over."""


def _could_relieve(state: State) -> bool:
    """Whether something held back could make an over box fit."""
    return any(not isinstance(pending.act, _ADDING) for pending in state.pending)


def _contents_open(state: State, sheet: Worksheet) -> bool:
    """True while nothing was said to come into the box, and nobody said that nothing does."""
    return not state.empty and any(slot.slot == "contents" for slot in sheet.open)


def _question(state: State, sheet: Worksheet, low: Decimal, high: Decimal) -> Question | None:
    """Confirmations first, then what decides the verdict, then what the exact margin needs.

    Unread words come before what only the margin needs.
    """
    if state.pending:
        return Question("confirm")
    if state.mistaken:
        return Question("mistaken")
    if state.edition_choices:
        return Question("edition")
    if state.pulls is not None:
        if state.unread:
            return Question("unread")
        if (slot := pull_open.asked(state)) is not None:
            return Question(slot)
        if not state.items:
            return Question("pull_inside") if pull_standing.side_open(state) else None
    found = _open_slot(state, sheet, low, high)
    if found is None and pull_standing.side_open(state):
        return Question("pull_inside")
    if (of_body := conduit_body.asked(state)) is not None:
        found = Question(of_body)
    elif conduit_body.filled(state) and (
        conduit_body.passing(state) or conduit_body.refused(state)
    ):
        found = None
    if state.unread and (found is None or not found.decides):
        return Question("unread")
    return found


def _open_slot(state: State, sheet: Worksheet, low: Decimal, high: Decimal) -> Question | None:
    if _contents_open(state, sheet):
        return Question("contents") if "contents" not in state.put_off else _box(state)
    if sheet.capacity is None:
        first = _box(state)
        if first is not None:
            return first
    if state.partial_ring is not None and "ring_depth" not in state.put_off:
        return Question("ring_depth")
    for slot in sheet.open:
        if slot.slot in ("box", "contents") or slot.slot in state.put_off:
            continue
        subject = state.items[slot.index].key if slot.index >= 0 else None
        if state.takes_worst(slot.slot, subject):
            continue
        return Question(slot.slot, subject, slot.decides)
    return _of_item(state, sheet, low, high)


def _box(state: State) -> Question | None:
    by_depth = state.partial is not None and not is_canadian(state.edition)
    slot: QuestionSlot = "box_depth" if by_depth else "box"
    if slot in state.put_off or (state.box and conduit_body.named(state)):
        return None
    return Question(slot)


def _of_item(state: State, sheet: Worksheet, low: Decimal, high: Decimal) -> Question | None:
    """What is open of a single item: a device's width, a canopy. Canada asks for neither."""
    for item in state.items if not is_canadian(state.edition) else ():
        if item.open and not state.takes_worst(item.open, item.key):
            decides = sheet.capacity is None or low <= sheet.capacity < high
            return Question(item.open, item.key, decides)
    return None


def exact(found: Assessment) -> bool:
    """True where no open answer can change the total any more."""
    return found.low == found.high == found.sheet.total
