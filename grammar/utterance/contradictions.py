"""What one breath tells and denies: which of both is meant is open."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_CORRECTING = lazy_pattern(r"(?i)\b(?:wait|sorry|actually|mean|no,|scratch|oops|correction|not)\b")


def denied_at_once(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "A switch, no devices": the switch stays, and the denial is asked about."""
    kept: list[Act] = []
    for act in made:
        before = next((one for one in kept if isinstance(one, acts.AddDevice)), None)
        every = (
            isinstance(act, acts.Deny) and act.target.kind == "device" and act.target.name is None
        )
        if before is not None and every:
            between = heard[before.span[1] : act.span[0]]
            if not _CORRECTING.search(between):
                left.append(Unread(act.words, act.span, True))
                continue
        kept.append(act)
    return kept
