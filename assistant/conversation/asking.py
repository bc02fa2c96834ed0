"""How the open question is put: worded anew on each retry, with an example, then a way out."""

from __future__ import annotations

from assistant.conversation import boxing, naming
from assistant.conversation.assessing import Assessment, Question
from assistant.conversation.saying import attempts, listed, say, volume
from assistant.conversation.state import State, sizes_present
from rules.contents import Cable, Conductors


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
    values = {"what": "", "sizes": "", "choices": "", "it": "it"}
    if item is not None:
        name = str(getattr(item.content, "name", "terminal block"))
        count = item.content.count
        values["what"] = naming.plural(name, count)
        values["it"] = "it" if count == 1 else "them"
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
    pending = state.pending[0]
    statement = pending.statement
    what = _described(pending.statement.kind, dict(statement.slots)) or statement.words
    wordings = attempts(f"confirm_{pending.reason}")
    return wordings[min(tries, len(wordings) - 1)].format(what=what, words=statement.words)


def _described(kind: str, slots: dict[str, object]) -> str:
    """The held statement in our own words, where it is a quantity of something simple."""
    count = int(str(slots.get("count") or 1))
    if kind == "cable" and "awg" in slots:
        ground = None if slots.get("ground") is False else int(str(slots["awg"]))
        cable = Cable(int(str(slots["awg"])), int(str(slots.get("conductors", 2))), ground, count)
        return naming.heard(cable).replace(say("ground.same"), "")
    if kind == "conductors" and "awg" in slots:
        return naming.heard(Conductors(int(str(slots["awg"])), count))
    if kind == "box_volume":
        return say("confirm_volume", volume=str(slots["volume"]))
    return ""
