"""Entries of the form that held flat statements: their words are folded anew.

What was picked by a key or a click had no words that say it; its statements are read instead.
What was said of the boxes of the job is not of this box: records of their own tell that.
"""

from __future__ import annotations

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from boxaloud.assistant.dialogue.job_acts import EVENTS
from boxaloud.assistant.dialogue.journal import Entry
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference
from boxaloud.grammar.clauses.act_fields import act_of
from boxaloud.grammar.phrases.statements import Statement
from boxaloud.grammar.utterance.act_recognizer import recognise


def entry_of(data: Mapping[str, Any]) -> Entry:
    """The entry of an object that was kept, of today's form or of the earlier one.

    Raises KeyError for an object that is neither.
    """
    if "acts" not in data and "statements" in data:
        return _folded_anew(data)
    return Entry.from_json(data)


def _folded_anew(data: Mapping[str, Any]) -> Entry:
    heard = data["heard"]
    confidence = data["confidence"]
    picked = [item for item in data["statements"] if _picked(item)]
    if picked:
        made = tuple(act for act in map(_act, data["statements"]) if act is not None)
        told = tuple(act for act in _joined(made) if not isinstance(act, EVENTS))
        return Entry(heard, told, (), confidence, data.get("refusal", ""))
    if data.get("refusal"):
        return Entry(heard, (), (), confidence, data["refusal"])
    read = recognise(heard, _expected(data))
    stepped = any(item["kind"] == "undo" for item in data["statements"])
    made = tuple(_undo(act) if stepped else act for act in read.acts)
    told = tuple(act for act in made if not isinstance(act, EVENTS))
    return Entry(heard, told, read.unread, confidence)


def _undo(act: Act) -> Act:
    """ "Go back" where there was no earlier box stepped back within this one."""
    if isinstance(act, acts.OpenBox) and act.which == "previous":
        return acts.Undo(words=act.words, span=act.span)
    return act


def _picked(item: Mapping[str, Any]) -> bool:
    """A statement made by a key: it carries what is never said."""
    slots = item["slots"]
    return "item" in slots or "row" in slots or tuple(item["span"]) == (0, 0)


def _expected(data: Mapping[str, Any]) -> str | None:
    """The open question that a bare answer of one statement must have been given to."""
    kinds = [item["kind"] for item in data["statements"]]
    if kinds == ["size"]:
        return "device_size"
    if kinds and kinds[0] in ("yes", "no"):
        return "confirm"
    return None


def _value(value: Any) -> Any:
    return Decimal(value["decimal"]) if isinstance(value, dict) else value


def _act(item: Mapping[str, Any]) -> Act | None:
    slots = {slot: _value(value) for slot, value in item["slots"].items()}
    if item["kind"] == "change" and "item" in slots:
        return acts.Recount(target=Reference(item=slots["item"]), words=item["words"])
    return act_of(Statement(item["kind"], slots, item["words"]))


def _joined(made: tuple[Act, ...]) -> tuple[Act, ...]:
    """ "change item 3" and the number behind it are one act."""
    if len(made) == 2 and isinstance(made[0], acts.Recount) and isinstance(made[1], acts.Number):
        count = int(made[1].value or 0)
        return (acts.Recount(target=made[0].target, count=count, words=made[0].words),)
    return made
