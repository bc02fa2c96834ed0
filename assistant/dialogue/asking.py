"""How the open question is put: worded anew on each retry, with an example, then a way out."""

from __future__ import annotations

from contextlib import suppress
from dataclasses import replace
from decimal import Decimal

from assistant.dialogue import boxing, entering, naming
from assistant.dialogue.assessing import Assessment, Question
from assistant.dialogue.correcting import CONTENT_KINDS
from assistant.dialogue.saying import attempts, listed, marked, plain, say, volume
from assistant.dialogue.state import State, sizes_present
from grammar.statements import Statement
from rules import RulesError


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
    wordings = attempts(key)
    text = wordings[min(tries, len(wordings) - 1)]
    return text.format_map(_values(question, state))


def _key(question: Question, state: State) -> str:
    if question.slot == "clamps" and state.clamps_mentioned:
        return "clamps_place"
    if question.slot == "device_size" and len(sizes_present(state)) == 0:
        return "device_size_alone"
    return question.slot


def _values(question: Question, state: State) -> dict[str, str]:
    item = state.item(question.subject) if question.subject is not None else None
    values = {"what": "", "sizes": "", "choices": "", "words": ""}
    if state.unused:
        values["words"] = "”, “".join(state.unused)
    if item is not None:
        values["what"] = naming.bare(item.content)
    if question.slot in ("device_size", "block_size"):
        values["sizes"] = listed([str(size) for size in sizes_present(state)]).replace(
            " and ", " or "
        )
    if question.slot == "box_depth" and state.partial is not None:
        values["choices"] = boxing.describe_rows(boxing.rows_of(state.partial))
    return values


def _disputed(found: Assessment) -> str:
    return say("disputed.moulded", low=volume(found.low), high=volume(found.high))


def _confirm(state: State, tries: int) -> str:
    """What is held back, in our own words where it is something simple."""
    pending = state.pending[0]
    statement = pending.statement
    wordings = attempts(f"confirm_{pending.reason}")
    what = _described(statement, state) or f"“{statement.words}”"
    if pending.verb is not None:
        what = _with_verb(pending.verb, statement, what, state)
    text = wordings[min(tries, len(wordings) - 1)].format(what=what, words=statement.words)
    first = 1 if text.startswith("“") else 0
    return text[:first] + text[first : first + 1].upper() + text[first + 1 :]


def _with_verb(verb: Statement, statement: Statement, what: str, state: State) -> str:
    """What was said under an operator: "take off one cable of 14-2"."""
    if statement.kind == "number" and verb.kind == "no":
        return say("confirm_no", what=plain(Decimal(str(statement.get("value")))))
    if statement.kind not in CONTENT_KINDS:
        return f"“{verb.words} {statement.words}”"
    if (count := verb.get("count")) is not None:
        counted = replace(statement, slots={**statement.slots, "count": count})
        what = _described(counted, state) or what
    return say(f"confirm_{verb.kind}", what=what, of=verb.get("of") or "")


def _described(statement: Statement, state: State) -> str:
    if statement.kind in CONTENT_KINDS and statement.get("count") != 0:
        with suppress(RulesError):
            contents = entering.content_of(statement, state)
            return naming.heard(contents[0]).replace(say("ground.same"), "")
    if statement.kind == "box_volume":
        return say("confirm_volume", volume=marked(boxing.volume_of(statement)))
    if statement.kind == "clamps" and statement.get("where") != "present":
        return say(f"clamps.{statement.get('where')}")
    if statement.kind == "lands_on":
        item = state.item(int(statement.get("item") or 0))
        name = naming.bare(item.content) if item else str(statement.get("name") or "")
        return say("confirm_landed", what=name, awg=statement.get("awg"))
    return ""
