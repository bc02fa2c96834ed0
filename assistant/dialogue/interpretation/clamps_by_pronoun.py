"""Clamps that were asked about right before, told by a pronoun: "do clamps count each?", "well,
there are two of them inside". Some inside count once, 314.16(B)(2)."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from boxaloud.assistant.dialogue.journal import Entry
from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar import acts
from boxaloud.grammar.acts import Utterance
from boxaloud.grammar.lazy_patterns import lazy_pattern

_THEM = lazy_pattern(
    r"(?i)\W*(?:(?:well|oh|ok|okay|so|and|yeah|yes|hello|hi|um|uh|then|because)\b\W*)*"
    r"(?:there(?:['’]s| is| are)|(?:i|we) (?:see|have|got|count)|i['’]ve got|it has|it['’]s got"
    r"|this one has) (?:two|three|four|[1-4]|one|both|some|a couple|a pair)"
    r"(?: of (?:them|those|these))?"
    r" (?:inside|in (?:there|here|it|this one|this box)|in the box)(?:,? (?:now|too|please))*"
    r"[\s.!]*"
)


def clamps_by_pronoun(read: Utterance, journal: Sequence[Entry], state: State) -> Utterance:
    """The utterance as clamps that are inside; else `read` as it is."""
    before = journal[-1]
    asked = "clamp" in before.heard.lower() and any(
        isinstance(act, acts.Ask | acts.AskMeaning | acts.AskUnknown) for act in before.acts
    )
    if not asked or state.pending or state.clamps == "inside":
        return read
    if _THEM.fullmatch(read.heard) is None:
        return read
    told = acts.SetClamps(where="inside", words=read.heard.strip(), span=(0, len(read.heard)))
    return replace(read, acts=(told,), unread=())
