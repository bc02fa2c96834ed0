"""What if: the same box twice, as it stands and with a change. Nothing is entered."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from boxaloud.assistant.dialogue import Conversation, Reply
from boxaloud.assistant.dialogue.assessment import Assessment
from boxaloud.assistant.dialogue.box_dialogue import Talk
from boxaloud.assistant.dialogue.nlg.sentences import volume
from boxaloud.assistant.tui.presenters.list_rows import worksheet_rows
from boxaloud.assistant.tui.presenters.verdict_view import glance
from boxaloud.assistant.tui.tui_messages import text
from boxaloud.grammar.acts import Act, Suppose


@dataclass(frozen=True, slots=True)
class Supposed:
    """A change tried on a copy: its reply, and where both boxes stand."""

    reply: Reply
    now: Assessment
    then: Assessment


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
    return Supposed(reply, conversation.talk.assessment, copy.talk.assessment)


def supposed_in(talk: Talk) -> tuple[Act, ...]:
    """What was supposed in the last thing said ("what if …"), empty where nothing was.

    "Would an 18 do for two 14-2s" of an empty box describes it, and proposes nothing.
    """
    told = talk.journal[-1].acts if talk.journal else ()
    return talk.state.proposed if any(isinstance(act, Suppose) for act in told) else ()


def side(found: Assessment, other: Assessment | None) -> list[str]:
    """One side of the comparison; a line that the other side lacks is marked by a sign."""
    shown = glance(found)
    lacking = {row.left for row in worksheet_rows(other)} if other is not None else None
    lines = [shown.tiny, shown.caption, ""]
    for row in worksheet_rows(found):
        new = lacking is not None and row.left not in lacking
        mark = text("try.changed") if new else text("try.same")
        lines.append(f"{mark} {row.left}")
    return lines


def difference(now: Assessment, then: Assessment) -> list[str]:
    """The difference in words: fill, margin, verdict. Volumes are cubic inches."""
    by = then.sheet.total - now.sheet.total
    key = "none" if by == 0 else "more" if by > 0 else "less"
    lines = [text(f"try.difference_{key}", amount=volume(abs(by)))]
    if "incomplete" not in (now.verdict, then.verdict):
        old, new = _signed(now), _signed(then)
        lines.append(text("try.margin_from_to", old=old, new=new))
    old_word, new_word = (text(f"verdict.word.{found.verdict}") for found in (now, then))
    key = "same" if old_word == new_word else "from_to"
    lines.append(text(f"try.verdict_{key}", old=old_word, new=new_word))
    return lines


def _signed(found: Assessment) -> str:
    margin = found.sheet.margin
    assert margin is not None
    return ("−" if margin < 0 else "") + volume(abs(margin))
