"""Answers about the words of the code, from the rules, each with its section."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

from boxaloud.assistant.dialogue.answer_figures import Figure
from boxaloud.assistant.dialogue.nlg import item_names
from boxaloud.assistant.dialogue.nlg.sentences import joined, say, sentence, sentences, volume
from boxaloud.assistant.dialogue.policy.volume_questions import needed_text
from boxaloud.assistant.dialogue.state import State
from boxaloud.assistant.dialogue.tracker import added_items
from boxaloud.grammar import acts
from boxaloud.rules import RulesError, allowance, explain, is_canadian, work_out
from boxaloud.rules.contents import Box, Content, Yoke


def answer(act: acts.AskMeaning, state: State) -> str:
    """What a term means and what it counts, in a sentence or two."""
    if act.thing is not None and not isinstance(act.thing, acts.AddUncounted):
        worth = _worth(act.thing, state)
        if worth:
            return worth
    if act.awg is not None and act.term in ("size", ""):
        return _size(act.awg, state)
    if not act.term and isinstance(act.thing, acts.AddFixtureWires):
        return say("glossary.canopy")
    if not act.term:
        return say("answer.unknown")
    if act.term == "splice_in_body" and state.body.short_radius:
        return say("glossary.splice_short_radius")
    if "isolated" in act.words.lower() and (added := _isolated(state)):
        return added
    if is_canadian(state.edition) and act.term in sentences()["glossary_canada"]:
        told = say(f"glossary_canada.{act.term}")
        if act.term == "capacity" and state.items and not state.box:
            return joined([needed_text(state), told])  # "what volume": of what is to go in it
        return told
    return say(f"glossary.{act.term}")


def _isolated(state: State) -> str:
    """ "What does the isolated ground add": its own line before 2020, where one was told."""
    from boxaloud.assistant.dialogue.assessment import assess

    sheet = assess(state).sheet
    lines = [line for line in sheet.lines if line.item == "isolated_grounds"]
    told = [
        say("answer.line", what=line.what, volume=volume(line.subtotal, sheet.unit),
            section=line.section)
        for line in lines
    ]  # fmt: skip
    return joined([sentence(joined(told, by="; ")), say("glossary.isolated")]) if told else ""


_COUNTS: dict[str, int] = {
    "loop": 2, "pass_through": 1, "device": 2, "yoke": 2, "clamps": 1,
    "wire_connector": 0, "pigtail": 0, "locknut": 0,
}  # fmt: skip
"""Allowances that one of them takes, 314.16(B)(1) to (4)."""


def figures(act: acts.AskMeaning, state: State) -> tuple[Figure, ...]:
    """The allowances that the thing of a term takes, where it is a number."""
    term = "device" if isinstance(act.thing, acts.AddDevice) else act.term
    if is_canadian(state.edition) or term not in _COUNTS:
        return ()
    if getattr(act.thing, "awg", None) is not None or (getattr(act.thing, "gangs", None) or 1) > 1:
        return ()  # it is told in cubic inches, or by its gangs
    count = Decimal(_COUNTS[term])
    return (Figure("takes", count, count, "count"),)


def spoken_of(act: acts.AskMeaning, state: State) -> acts.AskMeaning:
    """ "For how many do I count that wire": a loop, or a wire straight through, that was told."""
    wire = act.thing
    if not isinstance(wire, acts.AddConductors) or wire.awg is not None or act.term not in _WIRE:
        return act
    paths = [getattr(held.act, "path", None) for held in state.pending]
    paths += [getattr(item.content, "path", None) for item in state.items]
    if wire.path is not None:
        paths.append(wire.path)
    told = [_PATHS[path] for path in paths if path in _PATHS]
    return replace(act, term=told[-1], thing=None) if told else act


_WIRE = ("", "size")
_PATHS = {"loop": "loop", "through": "pass_through", "short_loop": "pass_through"}


def _size(awg: int, state: State) -> str:
    if is_canadian(state.edition):
        return _canadian_size(awg)
    try:
        each = allowance(awg).in3
    except RulesError as refusal:
        return str(refusal)
    return say("answer.size", awg=awg, each=volume(each))


def _canadian_size(awg: int) -> str:
    try:
        return explain(f"ca-allowance-{awg}").says
    except RulesError:
        return say("glossary_canada.no_row", awg=awg)


def _worth(thing: acts.Thing, state: State) -> str:
    """How much a thing takes by itself, worked out by the rules."""
    if isinstance(thing, acts.AddConductors) and thing.awg is not None:
        return _size(thing.awg, state)
    if getattr(thing, "awg", None) is None and not isinstance(
        thing, (acts.AddDevice, acts.AddFitting)
    ):
        return ""
    try:
        content: Content = added_items.content_of(replace(thing, count=thing.count or 1), state)[0]
    except RulesError as refusal:
        return str(refusal)
    if isinstance(content, Yoke) and content.awg is None:
        return say("glossary.device")
    if isinstance(thing, acts.AddFitting):
        return say("glossary.fitting")
    sheet = work_out(Box(contents=(content,), clamps="none", edition=state.edition))
    lines = joined(
        (
            say(
                "answer.line",
                what=line.what,
                volume=volume(line.subtotal, sheet.unit),
                section=line.section,
            )
            for line in sheet.lines
        ),
        by="; ",
    )
    told = say(
        "answer.worth",
        what=item_names.heard(content),
        total=volume(sheet.total, sheet.unit),
        lines=lines,
    )
    return sentence(told)
