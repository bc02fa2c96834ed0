"""So many of those that are there, where their number is also a size: "four of those ten"."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Utterance
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.rules.contents import Cable, Conductors

_OF_THOSE = lazy_pattern(
    r"(?i)\bof (?:the|those|these|my) (?:six|eight|ten|twelve|fourteen|6|8|10|12|14)(?![\w-])"
)


def counts_not_sizes(read: Utterance, state: State) -> Utterance:
    """The utterance with "those ten" as the only ten that there are, where nothing is of number
    ten; else as it is."""
    found = [_counted(act, state) for act in read.acts]
    return read if found == list(read.acts) else replace(read, acts=tuple(found))


def _counted(act: Act, state: State) -> Act:
    if not isinstance(act, acts.Remove) or not _OF_THOSE.search(act.target.words.strip()):
        return act
    target = act.target
    lines = [item for item in state.items if isinstance(item.content, Cable | Conductors)]
    sizes = {item.content.awg for item in lines}  # type: ignore[union-attr]
    if target.awg is None or target.awg in sizes or target.conductors is not None:
        return act
    as_many = [item for item in lines if getattr(item.content, "count", 0) == target.awg]
    if len(as_many) != 1:
        return act
    return replace(act, target=replace(target, awg=None, item=as_many[0].key))
