""" "The 12-2 passes straight through": of wires that are there, how they meet the box."""

from __future__ import annotations

import re
from dataclasses import replace

from boxaloud.assistant.dialogue.interpretation import references
from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act

_POINTING = re.compile(r"(?:the|that|those|these|this|my|both|all)\b")
_FURTHER = re.compile(r"\b(?:another|more|other|extra)\b")


def routed(state: State, act: Act) -> acts.Route | None:
    """The way of the wires that words point at; None where they tell of further ones."""
    if not isinstance(act, (acts.AddCable, acts.AddConductors)) or act.path is None:
        return None
    low = act.words.lower()
    target = replace(references.to_thing(act), count=None, words="")
    if not _POINTING.match(low) or _FURTHER.search(low):
        return None
    if target.awg is None or references.find(state, target) is None:
        return None
    return acts.Route(
        target=target, path=act.path, words=act.words, span=act.span, function="correction"
    )
