"""A size of wires that is there and is to stay: "stay with 12", after another was weighed."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.assistant.dialogue.state import State, sizes_present
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Utterance
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer import numbers

_STAYS = lazy_pattern(
    r"(?i)\W*(?:(?:ok|okay|so|and|no|nah|nope|well|alright|um|uh|hello|hi|please|then|just|let['’]?s"
    r"|i['’]?ll|we['’]?ll|i['’]?m|we['’]?re|we|i)\b\W*)*"
    r"(?:stay(?:ing)?|stick(?:ing)?|keep(?:ing)?(?: it)?|leav(?:e|ing) it|go(?:ing)?|stuck)"
    r" (?:(?:with|at|on)\b|w/) ?(?:the |number |no\.? ?|# ?)*"
    r"(?P<size>fourteen|twelve|ten|eight|six|1[024]|[68])(?:s|['’]s)?"
    r"(?: (?:gauge|awg|wire))?(?:,? (?:then|please|after all|thanks))*[\s.!]*"
)


def size_kept(read: Utterance, state: State) -> Utterance:
    """The utterance as nothing to be changed, where it says that a size stays that the wires have;
    while the box is not known it may be its volume."""
    found = _STAYS.fullmatch(read.heard)
    if found is None or not state.box or state.pending:
        return read
    size = numbers.value((found["size"].lower(),))
    if size is None or int(size) not in sizes_present(state):
        return read
    span = (0, len(read.heard))
    return replace(read, acts=(acts.Keep(words=read.heard.strip(), span=span),), unread=())
