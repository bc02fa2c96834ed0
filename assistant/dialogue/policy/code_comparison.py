"""What another edition, or the code of another country, makes of the same box."""

from __future__ import annotations

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.assessment import assess
from boxaloud.assistant.dialogue.nlg.sentences import listed, say, volume
from boxaloud.assistant.dialogue.policy.volume_questions import with_unit
from boxaloud.assistant.dialogue.state import to_box
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.rules import (
    Difference,
    RulesError,
    check_edition,
    counted_under,
    differences,
    is_canadian,
)


def what_changes(turn: Turn, act: acts.AskEdition) -> None:
    """ "what changes under 2017?"."""
    try:
        year = check_edition(act.year)
    except RulesError as refusal:
        turn.refused.append(str(refusal))
        return
    box = to_box(turn.state)
    if is_canadian(year) or is_canadian(box.edition):
        _other_code(turn, year, act)
        return
    found = differences(box, year)
    if not found:
        turn.answer(say("changes.none", year=year), act.words)
        return
    now = assess(turn.state).sheet.total
    then = assess(altered(turn.state, edition=year)).sheet.total
    things = listed([_change(item) for item in found])
    text = say("changes.some", year=year, things=things, total=volume(then), now=volume(now))
    turn.answer(text, act.words)


def _other_code(turn: Turn, edition: str, act: Act) -> None:
    """What the same box comes to under another code, which is no edition of this one."""
    then = assess(altered(turn.state, edition=edition)).sheet
    now = assess(turn.state).sheet
    text = say(
        "changes.code",
        under=counted_under(edition),
        total=with_unit(then.total, then.unit),
        now=with_unit(now.total, now.unit),
    )
    turn.answer(text, act.words)


def _change(item: Difference) -> str:
    key = "more" if item.change > 0 else "less"
    what = item.there_what or item.here_what
    return say(f"changes.{key}", what=what, by=volume(abs(item.change)), section=item.section)
