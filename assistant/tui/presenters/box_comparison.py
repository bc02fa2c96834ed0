"""What if: the same box twice, as it stands and with a change. Nothing is entered."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

from boxaloud.assistant.dialogue import Conversation, Reply
from boxaloud.assistant.dialogue.act_handlers import QUESTIONS
from boxaloud.assistant.dialogue.assessment import Assessment
from boxaloud.assistant.dialogue.belief.held_figures import is_held
from boxaloud.assistant.dialogue.box_dialogue import Talk
from boxaloud.assistant.dialogue.nlg.sentences import in_unit, marked, volume
from boxaloud.assistant.dialogue.tracker.supposed_outcome import total_of
from boxaloud.assistant.tui.presenters.verdict_view import glance
from boxaloud.assistant.tui.tui_messages import text
from boxaloud.grammar.acts import Act, RoomFor, Suppose


@dataclass(frozen=True, slots=True)
class Supposed:
    """A change tried on a copy: its reply, and where both boxes stand."""

    reply: Reply
    now: Assessment
    then: Assessment
    tried: bool
    """Whether a change was told, and wholly understood: a question is none."""


def copy_of(conversation: Conversation) -> Conversation:
    """A conversation about a copy of the box at hand, folded from its own journal."""
    name = conversation.talk.name
    return Conversation(
        conversation.boxes.began_under(name),
        conversation.aliases,
        {name: tuple(conversation.talk.journal)},
        name,
    )


def suppose(conversation: Conversation, change: str | Sequence[Act]) -> Supposed:
    """Try a change, in words or as acts, on a copy of the box at hand."""
    copy = copy_of(conversation)
    reply = copy.hear(change) if isinstance(change, str) else copy.enter(change, "")
    if isinstance(change, str) and (told := supposed_in(copy.talk)):
        # "what if I add a 14-2": here what is supposed is tried as if it had been told
        reply = copy.enter(told, change)
    then = copy.talk.assessment
    if then.verdict == "fits" and is_held(conversation.talk.state):
        then = replace(then, verdict="incomplete")  # the change did not explain what is open
    told = copy.talk.journal[-1].acts if copy.talk.journal else ()
    changes = any(not isinstance(act, QUESTIONS) for act in told)
    tried = changes and reply.changed and not (reply.refused or reply.left_over or reply.fault)
    return Supposed(reply, conversation.talk.assessment, then, tried)


def supposed_in(talk: Talk) -> tuple[Act, ...]:
    """What was supposed in the last thing said ("what if …", "will a 14-2 still fit"), empty
    where nothing was.

    "Would an 18 do for two 14-2s" of an empty box describes it, and proposes nothing.
    """
    told = talk.journal[-1].acts if talk.journal else ()
    return talk.state.proposed if any(isinstance(act, Suppose | RoomFor) for act in told) else ()


@dataclass(frozen=True, slots=True)
class Compared:
    """One line of the comparison: what it is, and its figure on either side."""

    what: str
    now: str
    then: str

    @property
    def differs(self) -> bool:
        """True where the two sides are not alike."""
        return bool(self.then) and self.now != self.then


def compared(now: Assessment, then: Assessment | None) -> list[Compared]:
    """Both worksheets line by line, what differs first. Without `then` its side is empty."""
    lines = [
        Compared(text(f"try.{key}"), a, _head(then)[key] if then else "")
        for key, a in _head(now).items()
    ]
    ours, theirs = _figures(now), _figures(then) if then else {}
    for key in dict.fromkeys((*ours, *theirs)):
        what = (ours.get(key) or theirs[key])[0]
        if key in ours and key in theirs and theirs[key][0] != what:
            what = text("try.becomes", old=what, new=theirs[key][0])
        there = theirs[key][1] if key in theirs else text("try.absent")
        mine = ours[key][1] if key in ours else text("try.absent")
        lines.append(Compared(what, mine, there if then else ""))
    return sorted(lines, key=lambda line: not line.differs)


def _head(found: Assessment) -> dict[str, str]:
    """The verdict, the margin and the two figures that it comes from."""
    shown, sheet = glance(found), found.sheet
    margin = shown.figure if found.verdict == "fits" else ""
    if found.verdict == "over":
        margin = text("boxes.over", margin=shown.figure)
    return {
        "verdict": shown.word,
        "margin": margin or text("try.absent"),
        "total": total_of(found),
        "capacity": text("try.absent") if sheet.capacity is None else marked(sheet.capacity),
    }


def _figures(found: Assessment) -> dict[tuple[str, int | None, str], tuple[str, str]]:
    """Each worksheet line by what it counts: its words and its volume."""
    return {
        (line.item, line.awg, line.rule): (line.what, volume(line.subtotal))
        for line in found.sheet.lines
    }


def table_rows(lines: Sequence[Compared], width: int) -> list[str]:
    """The lines in three columns; a line that differs is marked by a sign."""
    # only a terminal breaks lines by its cells, and what measures them is not there on a phone
    from boxaloud.assistant.tui.presenters.fitted_text import wrapped

    heads = (text("try.now"), text("try.then"))
    column = max(len(head) for head in heads) + 2
    room = max(width - 2 * column - 2, 8)
    rows = [" " * (room + 2) + "".join(head.rjust(column) for head in heads)]
    for line in lines:
        mark = text("try.changed") if line.differs else text("try.same")
        first, *others = wrapped(line.what, room)
        figures = f"{line.now.rjust(column)}{line.then.rjust(column)}"
        rows.append(f"{mark} {first.ljust(room)}{figures}".rstrip())
        rows += [f"  {other}" for other in others]
    return rows


def difference(now: Assessment, then: Assessment) -> list[str]:
    """The difference in words: fill, margin, verdict. Volumes are cubic inches."""
    lines = [_fill_difference(now, then)]
    before, after = _margin(now), _margin(then)
    if before is not None and after is not None:
        old, new = _signed(before), _signed(after)
        lines.append(text("try.margin_from_to", old=old, new=new))
    old_word, new_word = (text(f"verdict.word.{found.verdict}") for found in (now, then))
    key = "same" if old_word == new_word else "from_to"
    lines.append(text(f"try.verdict_{key}", old=old_word, new=new_word))
    return lines


def _fill_difference(now: Assessment, then: Assessment) -> str:
    unit = in_unit(now.sheet.unit)
    if now.low != now.high or then.low != then.high:
        return text("try.difference_open", old=total_of(now), new=total_of(then), unit=unit)
    by = then.low - now.low
    key = "none" if by == 0 else "more" if by > 0 else "less"
    return text(f"try.difference_{key}", amount=volume(abs(by)), unit=unit)


def _margin(found: Assessment) -> Decimal | None:
    """The least margin of what fits, and by how much at least the rest is over, below zero."""
    capacity = found.sheet.capacity
    if capacity is None or found.verdict == "incomplete":
        return None
    return capacity - (found.high if found.verdict == "fits" else found.low)


def _signed(margin: Decimal) -> str:
    return ("−" if margin < 0 else "") + volume(abs(margin))
