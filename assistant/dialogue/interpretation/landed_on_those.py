""" "Plug on those": a device that lands on the wires told before it, by their size, which it keeps
when wires of another size come in."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.assistant.dialogue.journal import Entry
from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Utterance
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.rules.contents import Cable, Conductors

_ON_THOSE = lazy_pattern(
    r"(?i)(?: (?:is|goes|lands|sits|going|landed|hooked up|tied in|wired))* on"
    r" (?:both (?:of )?)?(?:those|them|these|that one)(?: (?:two|ones))?"
    r"(?= *(?:$|[.,;!]))"
)
_WIRES = (acts.AddCable, acts.AddConductors)


def landed_on_those(read: Utterance, journal: Sequence[Entry], state: State) -> Utterance:
    """The utterance with devices on the wires that they are said to be on; else `read`."""
    if any(isinstance(act, _WIRES) or not _is_plain(act) for act in read.acts):
        return read
    size = _size_meant(journal, state)
    if size is None:
        return read
    told = tuple(_landed(act, read.heard, size) for act in read.acts)
    return replace(read, acts=told)


def _is_plain(act: Act) -> bool:
    return isinstance(act, acts.AddDevice | acts.Social | acts.Yes | acts.No | acts.SetClamps)


def _landed(act: Act, heard: str, size: int) -> Act:
    if not isinstance(act, acts.AddDevice) or act.awg is not None:
        return act
    return replace(act, awg=size) if _ON_THOSE.match(heard[act.span[1] :]) else act


def _size_meant(journal: Sequence[Entry], state: State) -> int | None:
    """The only size of wires in the box, or that of the wires told right before."""
    there = {
        item.content.awg for item in state.items if isinstance(item.content, Cable | Conductors)
    }
    if len(there) == 1:
        return there.pop()
    before = [act for act in journal[-1].acts if not isinstance(act, acts.Social)]
    wires = {act.awg for act in before if isinstance(act, _WIRES)}
    only = all(isinstance(act, _WIRES) for act in before)
    size = wires.pop() if only and len(wires) == 1 else None
    return size if size in there else None
