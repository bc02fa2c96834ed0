"""Which edition it is counted by: a year, a code, or a place, asked where that is not sure."""

from __future__ import annotations

from boxaloud.assistant.dialogue.altering import altered
from boxaloud.assistant.dialogue.nlg.sentences import Told, joined, say
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.turn import Turn
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.rules import (
    EditionReading,
    EditionUnsure,
    NoSuchEdition,
    editions,
    explain,
    is_canadian,
    provisional,
    read_edition,
)
from boxaloud.rules.contents import Marked


def edition(turn: Turn, act: acts.SetEdition) -> None:
    """ "Use 2020", "the Canadian code", "I'm in Chicago": an edition that is held, or a question.

    A name that may mean several, and one that is not held, leave open which edition it is: no
    verdict stands until that is said.
    """
    try:
        reading = _read(turn, act)
    except EditionUnsure as unsure:
        _ask(turn, act, str(unsure), unsure.choices)
        return
    except NoSuchEdition as refusal:
        _ask(turn, act, str(refusal), editions())
        return
    old, year = turn.state.edition, reading.edition
    key = "echo.edition" if old == year else "echo.edition_changed"
    state = altered(turn.state, edition=year, edition_choices=(), edition_of="", last="edition")
    said = [say(key, year=year, old=old), _noted(reading)]
    unmarked = any(not isinstance(part, Marked) for part in turn.state.box)
    if is_canadian(year) and (unmarked or turn.state.partial is not None):
        said.append(explain("ca-unmarked").says)
    named = any(isinstance(done, acts.SetEdition) and done is not act for done in turn.done)
    again = named and old == year  # "Canadian code, Rule 12-3034" names one edition
    turn.enter(state, "" if again else joined(said), say("echo.edition", year=year))


def canada_first(told: tuple[Act, ...]) -> tuple[Act, ...]:
    """The acts of an utterance with the Canadian code before what is counted by it: "four wire
    connectors under the Canadian code" count in pairs."""
    for place, act in enumerate(told):
        if isinstance(act, acts.SetEdition) and act.code == "Canadian code":
            return (act, *told[:place], *told[place + 1 :])
    return told


def adopted(state: State, act: acts.SetEdition) -> str:
    """ "Which code does Oregon use": the edition that a place leads to, which is not entered."""
    try:
        reading = read_edition(act.code or act.year)
    except (EditionUnsure, NoSuchEdition) as unsure:
        return str(unsure)
    return joined([reading.says, say("edition.counted", year=state.edition)])


def _noted(reading: EditionReading) -> str:
    """What is to be known of an edition; to the ear in a word where every verdict repeats it."""
    if is_canadian(reading.edition):
        return Told(reading.says, say("echo.canadian"))
    if provisional(reading.edition) is not None:
        return Told(reading.says, say("echo.provisional"))
    return reading.says


def _read(turn: Turn, act: acts.SetEdition) -> EditionReading:
    """What was named; a year alone is first looked for among those of the place asked about."""
    said = f"{act.code or ''} {act.year}".strip()
    of = turn.state.edition_of
    if of and act.year and not act.code and act.year not in turn.state.edition_choices:
        try:
            return read_edition(f"{act.year} {of}")
        except NoSuchEdition:
            return read_edition(said)
    return read_edition(said)


def _ask(turn: Turn, act: acts.SetEdition, why: str, choices: tuple[str, ...]) -> None:
    state = altered(turn.state, edition_choices=choices, edition_of=act.code or "", last="edition")
    turn.trail.append(turn.state)
    turn.state = state
    turn.refused.append(why)
    turn.understood.append(act.words)


def left(turn: Turn, act: Act) -> None:
    """ "Skip" which edition it is: the one at hand stays, and is named with every verdict."""
    state = altered(turn.state, edition_choices=(), edition_of="")
    turn.enter(state, say("put_off.edition", edition=state.edition), act.words)
