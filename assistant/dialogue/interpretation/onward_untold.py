"""A further cable that goes on to a device elsewhere, of which only that device was read: "another
one goes on to the outlet in the den". Each conductor that enters counts, 314.16(B)(1): one more of
the cable that was told last, or it weighs; and the device beyond is none of this box."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Unread, Utterance
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.rules.contents import Cable

_WIRES = (acts.AddCable, acts.AddConductors, acts.More, acts.AddRaceways, acts.Suppose)
_ONWARD = lazy_pattern(
    r"(?i)\b(?P<new>another(?: one)?) (?:goes|runs|heads|continues|carries|is going) on to "
    r"(?:the|an?|that) "
)


def onward_untold(read: Utterance, state: State) -> Utterance:
    """The utterance with the further cable told or unread, where no act tells of one."""
    found = _ONWARD.search(read.heard)
    if found is None or not state.items or "?" in read.heard:
        return read
    if any(isinstance(getattr(act, "thing", act), _WIRES) for act in read.acts):
        return read
    kept = [
        act
        for act in read.acts
        if not (isinstance(act, acts.AddDevice) and act.span[0] >= found.start())
    ]
    if any(run.span[0] <= found.start("new") < run.span[1] for run in read.unread):
        return read
    span = found.span("new")
    last = state.item(state.last)
    if last is not None and isinstance(last.content, Cable):
        target = acts.Reference("wire", which="last", words=found["new"])
        more = acts.More(target=target, count=1, words=found["new"], span=span, function="request")
        return replace(read, acts=(*kept, more))
    untold = Unread(found["new"], span, True)
    return replace(read, acts=tuple(kept), unread=(*read.unread, untold))
