"""Reading back where the box stands: total, capacity, margin, in that order, verdict last."""

from __future__ import annotations

from assistant.conversation.assessing import Assessment, exact
from assistant.conversation.saying import counted, listed, marked, plain, say, volume
from assistant.conversation.state import State
from rules.worksheet import Line

BREATH = 3
"""Items said before a pause."""


def status(state: State, found: Assessment) -> str:
    """One or two sentences on the total, and the verdict as soon as nothing can change it."""
    sheet = found.sheet
    if sheet.capacity is None or found.verdict == "incomplete":
        return _so_far(found)
    if not exact(found):
        return _early(found)
    key = "brief" if state.form == "brief" else "normal"
    over = sheet.capacity < sheet.total
    return say(
        f"verdict.{'over' if over else 'fits'}.{key}",
        total=volume(sheet.total),
        capacity=marked(sheet.capacity),
        margin=volume(abs(sheet.capacity - sheet.total)),
        edition=sheet.edition,
    )


def _so_far(found: Assessment) -> str:
    sheet = found.sheet
    if not sheet.lines:
        return ""
    total, without = volume(sheet.total), _without(found)
    if sheet.capacity is None:
        return say("so_far.no_box", total=total, without=without)
    return say("so_far.box", total=total, capacity=marked(sheet.capacity), without=without)


def _without(found: Assessment) -> str:
    """The devices that are not in the total yet, because their size is not known."""
    sized = ("device_size", "block_size")
    names = dict.fromkeys(slot.subject for slot in found.sheet.open if slot.slot in sized)
    return say("so_far.without", what=listed(list(names))) if names else ""


def _early(found: Assessment) -> str:
    """The verdict stands, the exact margin does not yet."""
    sheet = found.sheet
    assert sheet.capacity is not None
    about = say(f"open.{found.question.slot}") if found.question else say("open.rest")
    if found.verdict == "over":
        return say(
            "verdict.over.early",
            low=volume(found.low),
            capacity=marked(sheet.capacity),
            least=volume(found.low - sheet.capacity),
            about=about,
            edition=sheet.edition,
        )
    return say(
        "verdict.fits.early",
        high=volume(found.high),
        capacity=marked(sheet.capacity),
        least=volume(sheet.capacity - found.high),
        about=about,
        edition=sheet.edition,
    )


def read_back(state: State, found: Assessment) -> str:
    """Every line that counts, at most three items a breath, then where the box stands."""
    lines = [_line(line, state) for line in found.sheet.lines]
    breaths = [
        listed(lines[start : start + BREATH]) + "." for start in range(0, len(lines), BREATH)
    ]
    breaths = [breath[0].upper() + breath[1:] for breath in breaths]
    if not any(line.item == "yokes" for line in found.sheet.lines) and found.sheet.lines:
        breaths.append(say("no_device_counted"))
    return " ".join([*breaths, status(state, found)]).strip()


def _line(line: Line, state: State) -> str:
    if line.allowances == 0:
        return say("line.nothing", what=line.what)
    key = "line.full" if state.form == "full" else "line.normal"
    number = plain(line.allowances)
    count = counted(int(line.allowances)) if line.allowances == int(line.allowances) else number
    return say(
        key,
        what=line.what,
        allowances=count,
        noun="allowance" if line.allowances == 1 else "allowances",
        awg=line.awg,
        subtotal=volume(line.subtotal),
        section=line.section,
    )
