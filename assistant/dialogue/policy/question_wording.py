"""How the open question is put: worded anew on each retry, with an example, then a way out."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace
from decimal import Decimal

from boxaloud.assistant.dialogue.assessment import Assessment, Question
from boxaloud.assistant.dialogue.interpretation import act_volumes, reference_ambiguity, references
from boxaloud.assistant.dialogue.nlg import item_names
from boxaloud.assistant.dialogue.nlg.sentences import (
    Told,
    attempt,
    attempts,
    counted,
    listed,
    marked,
    plain,
    quoted,
    say,
    volume,
)
from boxaloud.assistant.dialogue.nlg.spoken_form import number
from boxaloud.assistant.dialogue.state import State, sizes_present
from boxaloud.assistant.dialogue.tracker import (
    added_items,
    neutral_acts,
    restated_items,
    table_box,
)
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act
from boxaloud.grammar.clauses.act_fields import KIND_OF
from boxaloud.rules import RulesError


def ask(question: Question, state: State, found: Assessment, tries: int, again: bool) -> str:
    """The words of a question; `tries` counts how often it was put in vain.

    `again`: it was open before, and something else was entered meanwhile.
    """
    if question.slot == "confirm":
        return _confirm(state, tries)
    if question.slot == "clamps" and state.clamps == "moulded":
        return _disputed(found)
    key = _key(question, state)
    if again and not tries:
        return say(f"ask_short.{key}", **_values(question, state))
    return attempt(key, tries, _values(question, state))


def _key(question: Question, state: State) -> str:
    if question.slot == "clamps" and state.clamps_mentioned:
        return "clamps_place"
    if question.slot == "device_size" and len(sizes_present(state)) == 0:
        return "device_size_alone"
    if question.slot == "pull_size" and state.pulls is not None and state.pulls.with_cable:
        return "pull_size_cable"
    return question.slot


def _values(question: Question, state: State) -> dict[str, str]:
    item = state.item(question.subject) if question.subject is not None else None
    values = {"what": "", "sizes": "", "choices": "", "words": "", "edition": state.edition}
    if state.unread:
        values["words"] = quoted(state.unread)
    if item is not None:
        values["what"] = item_names.bare(item.content)
    if question.slot in ("device_size", "block_size"):
        values["sizes"] = _sizes(sizes_present(state))
    if question.slot == "space" and item is not None:
        values["what"] = item_names.brief(item.content)
    if question.slot == "edition":
        values["choices"] = _or(list(state.edition_choices))
    if question.slot == "ring_depth" and state.partial_ring is not None:
        values["what"] = state.partial_ring.label
    if question.slot == "box_depth" and state.partial is not None:
        values["choices"] = table_box.describe_rows(table_box.rows_of(state.partial))
    return values


def _sizes(sizes: tuple[int, ...]) -> str:
    """The sizes to choose from. No size sounds like another, so each is said once."""
    shown, heard = ([str(size) for size in sizes], [number(size) for size in sizes])
    return Told(_or(shown), _or(heard))


def _or(things: list[str]) -> str:
    return listed(things).replace(" and ", " or ")


def _disputed(found: Assessment) -> str:
    return say("disputed.moulded", low=volume(found.low), high=volume(found.high))


def _confirm(state: State, tries: int) -> str:
    """What is held back, in our own words where it is something simple."""
    pending = state.pending[0]
    act = pending.act
    if isinstance(act, acts.UnknownOperator):
        text = attempts("confirm_operator")[min(tries, 2)]
        return text.format(what=_bare(act, state), verb=act.verb)
    if reference_ambiguity.is_open(state):
        text = attempts("confirm_which")[min(tries, 2)]
        return text.format(what=reference_ambiguity.choices(state, pending), words=act.words)
    rival = _rival(pending.act, state)
    wordings = attempts("confirm_either" if rival else f"confirm_{pending.reason}")
    what = described(act, state) or f"“{act.words}”"
    said = {"what": what, "words": act.words, "was": rival or _was(act, state)}
    text = wordings[min(tries, len(wordings) - 1)].format(**said)
    first = 1 if text.startswith("“") else 0
    return text[:first] + text[first : first + 1].upper() + text[first + 1 :]


def _rival(act: Act, state: State) -> str:
    """The other of two values that were said of one slot, neither of which was entered."""
    if not isinstance(act, acts.SetVolume):
        return ""
    others = [doubt.instead for doubt in act.doubts if doubt.reason == "conflict"]
    rival = others[0] if others else None
    return described(replace(act, volume=rival), state) if isinstance(rival, Decimal) else ""


def _was(act: Act, state: State) -> str:
    """How the slot stands that two values were given for."""
    match act:
        case acts.SetClamps():
            return say(f"clamps.{state.clamps}")
        case acts.SetEdition():
            return state.edition
        case acts.Restate():
            item = restated_items.last_of_type(state, act.thing)
            return item_names.heard(item.content) if item is not None else say("what_was_told")
    return item_names.part(state.box[0]) if state.box else ""


def _bare(act: acts.UnknownOperator, state: State) -> str:
    from boxaloud.assistant.dialogue.turn import Turn

    return neutral_acts.described(act, Turn(state, None))


def described(act: Act, state: State) -> str:
    """What an act would enter or change, in our own words where it is something simple."""
    if type(act) in KIND_OF:
        with suppress(RulesError):
            return item_names.heard(added_items.content_of(act, state)[0])  # type: ignore[arg-type]
    match act:
        case acts.SetVolume() if act.volume is not None:
            return say("confirm_volume", volume=marked(act_volumes.volume_of(act)))
        case acts.SetClamps() if act.where != "present":
            return say(f"clamps.{act.where}")
        case acts.SetEdition():
            return act.year
        case acts.Land():
            item = state.item(act.target.item) if act.target.item else None
            name = item_names.bare(item.content) if item else act.target.name or "device"
            return say("confirm_landed", what=name, awg=act.awg)
        case acts.Restate():
            what = described(act.thing, state)
            return say("confirm_make_that", what=what) if what else ""
        case acts.RestateNumber():
            return say("confirm_no", what=plain(act.value))
        case acts.Remove():
            return say("confirm_take_off", what=_meant(act.target, state))
        case acts.Replace():
            what = described(act.thing, state)
            return say("confirm_change", of=_meant(act.target, state), what=what) if what else ""
        case acts.More():
            return say("confirm_more", count=counted(act.count or 1))
    return ""


def _meant(target: acts.Reference, state: State) -> str:
    item = references.find(state, target)
    if item is None:
        return target.words
    return item_names.heard(replace(item.content, count=references.meant(item, target)))
