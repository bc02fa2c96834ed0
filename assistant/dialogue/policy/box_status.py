"""Reading back where the box stands: total, capacity, margin, in that order, verdict last."""

from __future__ import annotations

from decimal import Decimal
from functools import cache

from boxaloud.assistant.dialogue import named_devices
from boxaloud.assistant.dialogue.assessment import Assessment, exact
from boxaloud.assistant.dialogue.divided_box import ordinal, spaces_in
from boxaloud.assistant.dialogue.enclosures import body_telling, conduit_body, pull_telling
from boxaloud.assistant.dialogue.nlg import item_names
from boxaloud.assistant.dialogue.nlg.sentences import (
    Told,
    counted,
    for_ear,
    joined,
    listed,
    marked,
    plain,
    quoted,
    say,
    sentence,
    volume,
)
from boxaloud.assistant.dialogue.nlg.spoken_form import once, spoken
from boxaloud.assistant.dialogue.policy.code_naming import left_to_caution, section_aloud
from boxaloud.assistant.dialogue.state import State, grounds_known
from boxaloud.rules import counted_under, is_canadian, provisional
from boxaloud.rules.canadian_tally import CONNECTORS
from boxaloud.rules.contents import BondingJumper, Uncounted, Yoke
from boxaloud.rules.worksheet import Line, Unit

BREATH = 3
"""Items said before a pause."""


def status(state: State, found: Assessment) -> str:
    """One or two sentences on the total, and the verdict as soon as nothing can change it."""
    if (text := body_telling.told(state)) or conduit_body.passing(state):
        return text  # no volume counts in what only passes through
    text = _volumes(state, found)
    return text if left_to_caution(found.sheet.edition) else section_aloud(str(text))


def _volumes(state: State, found: Assessment) -> str:
    """A verdict with its total, capacity and margin. One wrongly heard would not add up with the
    others, so that no number is said twice to the ear."""
    sheet = found.sheet
    if found.spaces:
        return _by_side(found)
    if sheet.capacity is None or found.verdict == "incomplete" or found.small_alone:
        return _so_far(found, state)
    if not exact(found):
        return _early(found, state)
    verdict = "verdict.over" if sheet.capacity < sheet.total else "verdict.fits"
    text = say(f"{verdict}.{'brief' if state.form == 'brief' else 'normal'}", **_values(found))
    return Told(text, lambda: once(for_ear(text)))


def _values(found: Assessment) -> dict[str, str]:
    sheet, capacity = found.sheet, found.sheet.capacity
    return {
        "total": volume(sheet.total),
        "capacity": "" if capacity is None else marked(capacity, sheet.unit),
        "margin": "" if capacity is None else volume(abs(capacity - sheet.total), sheet.unit),
        "under": counted_under(sheet.edition),
        "edition": _year(sheet.edition),
    }


def eased(state: State, found: Assessment) -> str:
    """A verdict for the ear with fewer numbers: those are left out that the others give. Empty
    where it is said as it is."""
    plain = found.body is None and not found.spaces and state.form == "normal"
    if not plain or found.sheet.capacity is None or not left_to_caution(found.sheet.edition):
        return ""
    if exact(found):
        return say(f"eased.{found.verdict}", **_values(found))
    about = say(f"open.{found.question.slot}") if found.question else say("open.rest")
    return say(f"eased.early_{found.verdict}", **_values(found), about=for_ear(about))


def _by_side(found: Assessment) -> str:
    """A divided box: every side with its total and its share, the one that is over named."""
    sides = [
        say(
            "space.side",
            which=ordinal(space.number),
            total=volume(space.sheet.total),
            capacity=marked(space.sheet.capacity or space.low),
        )
        for space in found.spaces
    ]
    key = {"fits": "fits", "over": "over", "incomplete": "so_far"}[found.verdict]
    over = next((space.number for space in found.spaces if space.over), 1)
    return say(
        f"verdict.spaces.{key}",
        sides=listed(sides),
        which=ordinal(over),
        under=counted_under(found.sheet.edition),
    )


@cache
def _year(edition: str) -> str:
    """The edition for a short verdict; a provisional one says so there too."""
    return f"{edition} provisional" if provisional(edition) else edition


def _so_far(found: Assessment, state: State) -> str:
    sheet = found.sheet
    if not sheet.total:
        return ""
    without = _without(found, state)
    if sheet.capacity is None:
        total = volume(sheet.total, sheet.unit)
        return say("so_far.no_box", total=total, without=without)
    room = _unproved(sheet.capacity, sheet.unit)
    return say("so_far.box", total=volume(sheet.total), capacity=room, without=without)


def _unproved(capacity: Decimal, unit: Unit) -> str:
    """A capacity beside which no margin stands: nothing would tell a fifteen from a fifty."""
    text = marked(capacity, unit)
    return Told(text, lambda: spoken(text))


def _without(found: Assessment, state: State) -> str:
    """The devices that are not in the total yet, because their size is not known."""
    sized = ("device_size", "block_size")
    open_ = [slot for slot in found.sheet.open if slot.slot in sized]
    items = named_devices.counted(state).items
    names = dict.fromkeys(item_names.bare(items[slot.index].content) for slot in open_)
    return say("so_far.without", what=listed(list(names))) if names else ""


def _early(found: Assessment, state: State) -> str:
    """The verdict stands, the exact margin does not yet."""
    sheet = found.sheet
    capacity = sheet.capacity
    if capacity is None:
        raise ValueError("no verdict stands without a capacity")
    about = say(f"open.{found.question.slot}") if found.question else say("open.rest")
    form = "brief_early" if state.form == "brief" else "early"
    if found.verdict == "over":
        return say(
            f"verdict.over.{form}",
            low=volume(found.low),
            capacity=_unproved(capacity, sheet.unit),
            least=volume(found.low - capacity, sheet.unit),
            about=about,
            under=counted_under(sheet.edition),
            edition=_year(sheet.edition),
        )
    return say(
        f"verdict.fits.{form}",
        high=volume(found.high),
        capacity=_unproved(capacity, sheet.unit),
        least=volume(capacity - found.high, sheet.unit),
        about=about,
        under=counted_under(sheet.edition),
        edition=_year(sheet.edition),
    )


def read_back(state: State, found: Assessment) -> str:
    """Everything entered, at most three items a breath, then where the box stands.

    In the full form every worksheet line with its section; else the things as they were said,
    since those are what a listener can check.
    """
    full = state.form == "full"
    unit = found.sheet.unit
    things = [_line(line, unit) for line in found.sheet.lines] if full else _things(state)
    ending = [] if full or not state.items else [_inputs(state)]
    if not any(isinstance(item.content, Yoke) for item in state.items) and state.items:
        ending.append(say("no_device_counted"))
    if (item := named_devices.open_device(state)) is not None:
        ending.append(say("echo.called_by", what=item_names.bare(item.content)))
    if worst := assumed(state):
        ending.append(say("assumed_list", what=listed(list(worst))))
    held = [pending.act.words for pending in state.pending]
    if held:
        ending.append(say("held_back", words=quoted(held)))
    said = [sentence(line) for line in things] if full else _breaths(things)
    if state.pulls:
        said.append(pull_telling.told(state))
    return joined([*said, *ending, status(state, found)]) or say("nothing_yet")


def _things(state: State) -> list[str]:
    return [item_names.heard(item.content) for item in named_devices.counted(state).items]


def _inputs(state: State) -> str:
    """The clamps and the box: what the total and the capacity hang on besides the contents."""
    clamps = say("clamps_open" if state.clamps == "unknown" else f"clamps.{state.clamps}")
    counted_here = not is_canadian(state.edition)
    said = [] if state.takes_worst("clamps") or not counted_here else [clamps]
    grounds = [say("no_grounds")] if state.grounds == "none" else []
    parts = [item_names.part(part) for part in (*state.box, *state.extras)]
    return sentence(listed([*grounds, *said, *parts]))


def assumed(state: State) -> tuple[str, ...]:
    """What was left at its worst case, in words."""
    named = sorted(state.assumed)
    return tuple(_assumed(name, state) for name in named if _stands(name, state))


def _stands(name: str, state: State) -> bool:
    """False for a worst case that was replaced by what was said since."""
    slot, _, key = name.partition(" ")
    if slot == "body_ends":
        return state.body.both_sides is None
    if slot.startswith("pull_"):
        return state.pulls is not None
    if slot == "clamps":
        return state.clamps in ("unknown", "moulded")
    if slot == "grounds":
        return not grounds_known(state)
    if slot == "share":
        return spaces_in(state) > 1 and not state.equal_spaces
    if slot == "space":
        return spaces_in(state) > 1 and any(item.space == 0 for item in state.items)
    if slot == "connectors":
        return not any(
            isinstance(item.content, Uncounted) and item.content.kind in CONNECTORS
            for item in state.items
        )
    if slot == "jumper":
        jumpers = [i.content for i in state.items if isinstance(i.content, BondingJumper)]
        return any(jumper.enters is None for jumper in jumpers)
    if slot in ("canopy", "named"):
        return bool(state.name_open) if slot == "named" else _any_open(state, slot)
    item = state.item(int(key)) if key else None
    if item is None:
        return False
    if slot == "device_depth":
        return isinstance(item.content, Yoke) and item.content.depth is None
    return item.open == "gangs" if slot == "gangs" else getattr(item.content, "awg", 0) is None


def _any_open(state: State, slot: str) -> bool:
    return any(item.open == slot for item in state.items)


def _assumed(name: str, state: State) -> str:
    slot, _, key = name.partition(" ")
    item = state.item(int(key)) if key else None
    return say(f"assumed.{slot}", what="" if item is None else item_names.bare(item.content))


def _breaths(things: list[str]) -> list[str]:
    return [
        sentence(listed(things[start : start + BREATH])) for start in range(0, len(things), BREATH)
    ]


def _line(line: Line, unit: Unit) -> str:
    if line.allowances == 0:
        return say("line.nothing", what=line.what)
    number = plain(line.allowances)
    count = counted(int(line.allowances)) if line.allowances == int(line.allowances) else number
    if line.awg is None:
        return say("line.itself", what=line.what, subtotal=volume(line.subtotal, unit),
                   section=line.section)  # fmt: skip
    return say(
        "line.full",
        what=line.what,
        allowances=count,
        noun="allowance" if line.allowances == 1 else "allowances",
        awg=line.awg,
        subtotal=volume(line.subtotal, unit),
        section=line.section,
    )
