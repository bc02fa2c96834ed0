"""Reading back where the box stands: total, capacity, margin, in that order, verdict last."""

from __future__ import annotations

from boxaloud.assistant.dialogue.assessment import Assessment, exact
from boxaloud.assistant.dialogue.enclosures import body_telling, conduit_body, pull_telling
from boxaloud.assistant.dialogue.nlg import item_names
from boxaloud.assistant.dialogue.nlg.sentences import (
    counted,
    joined,
    listed,
    marked,
    plain,
    say,
    sentence,
    volume,
)
from boxaloud.assistant.dialogue.state import State, grounds_known
from boxaloud.rules.contents import Yoke
from boxaloud.rules.worksheet import Line

BREATH = 3
"""Items said before a pause."""


def status(state: State, found: Assessment) -> str:
    """One or two sentences on the total, and the verdict as soon as nothing can change it."""
    sheet = found.sheet
    if (text := body_telling.told(state)) or conduit_body.passing(state):
        return text  # no volume counts in what only passes through
    if sheet.capacity is None or found.verdict == "incomplete":
        return _so_far(found, state)
    if not exact(found):
        return _early(found, state)
    key = "brief" if state.form == "brief" else "normal"
    over = sheet.capacity < sheet.total
    return say(
        f"verdict.{'over' if over else 'fits'}.{key}",
        total=volume(sheet.total),
        capacity=marked(sheet.capacity),
        margin=volume(abs(sheet.capacity - sheet.total)),
        edition=sheet.edition,
    )


def _so_far(found: Assessment, state: State) -> str:
    sheet = found.sheet
    if not sheet.total:
        return ""
    total, without = volume(sheet.total), _without(found, state)
    if sheet.capacity is None:
        return say("so_far.no_box", total=total, without=without)
    return say("so_far.box", total=total, capacity=marked(sheet.capacity), without=without)


def _without(found: Assessment, state: State) -> str:
    """The devices that are not in the total yet, because their size is not known."""
    sized = ("device_size", "block_size")
    open_ = [slot for slot in found.sheet.open if slot.slot in sized]
    names = dict.fromkeys(item_names.bare(state.items[slot.index].content) for slot in open_)
    return say("so_far.without", what=listed(list(names))) if names else ""


def _early(found: Assessment, state: State) -> str:
    """The verdict stands, the exact margin does not yet."""
    sheet = found.sheet
    assert sheet.capacity is not None
    about = say(f"open.{found.question.slot}") if found.question else say("open.rest")
    form = "brief_early" if state.form == "brief" else "early"
    if found.verdict == "over":
        return say(
            f"verdict.over.{form}",
            low=volume(found.low),
            capacity=marked(sheet.capacity),
            least=volume(found.low - sheet.capacity),
            about=about,
            edition=sheet.edition,
        )
    return say(
        f"verdict.fits.{form}",
        high=volume(found.high),
        capacity=marked(sheet.capacity),
        least=volume(sheet.capacity - found.high),
        about=about,
        edition=sheet.edition,
    )


def read_back(state: State, found: Assessment) -> str:
    """Everything entered, at most three items a breath, then where the box stands.

    In the full form every worksheet line with its section; else the things as they were said,
    since those are what a listener can check.
    """
    full = state.form == "full"
    things = [_line(line) for line in found.sheet.lines] if full else _things(state)
    ending = [] if full or not state.items else [_inputs(state)]
    if not any(isinstance(item.content, Yoke) for item in state.items) and state.items:
        ending.append(say("no_device_counted"))
    if worst := assumed(state):
        ending.append(say("assumed_list", what=listed(list(worst))))
    held = [pending.act.words for pending in state.pending]
    if held:
        ending.append(say("held_back", words="”, “".join(held)))
    said = [sentence(line) for line in things] if full else _breaths(things)
    if state.pulls:
        said.append(pull_telling.told(state))
    return joined([*said, *ending, status(state, found)]) or say("nothing_yet")


def _things(state: State) -> list[str]:
    return [item_names.heard(item.content) for item in state.items]


def _inputs(state: State) -> str:
    """The clamps and the box: what the total and the capacity hang on besides the contents."""
    clamps = say("clamps_open" if state.clamps == "unknown" else f"clamps.{state.clamps}")
    said = [] if state.takes_worst("clamps") else [clamps]
    grounds = [say("no_grounds")] if state.grounds == "none" else []
    parts = [item_names.part(part) for part in (*state.box, *state.extras)]
    return sentence(listed([*grounds, *said, *parts]))


def assumed(state: State) -> tuple[str, ...]:
    """What was left at its worst case, in words."""
    if not state.assumed:
        return ()
    return tuple(_assumed(name, state) for name in sorted(state.assumed) if _stands(name, state))


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
    if slot == "canopy":
        return any(item.open == "canopy" for item in state.items)
    item = state.item(int(key)) if key else None
    if item is None:
        return False
    return item.open == "gangs" if slot == "gangs" else getattr(item.content, "awg", 0) is None


def _assumed(name: str, state: State) -> str:
    slot, _, key = name.partition(" ")
    item = state.item(int(key)) if key else None
    return say(f"assumed.{slot}", what="" if item is None else item_names.bare(item.content))


def _breaths(things: list[str]) -> list[str]:
    return [
        sentence(listed(things[start : start + BREATH])) for start in range(0, len(things), BREATH)
    ]


def _line(line: Line) -> str:
    if line.allowances == 0:
        return say("line.nothing", what=line.what)
    number = plain(line.allowances)
    count = counted(int(line.allowances)) if line.allowances == int(line.allowances) else number
    return say(
        "line.full",
        what=line.what,
        allowances=count,
        noun="allowance" if line.allowances == 1 else "allowances",
        awg=line.awg,
        subtotal=volume(line.subtotal),
        section=line.section,
    )
