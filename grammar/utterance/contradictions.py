"""What one breath tells and denies: which of both is meant is open."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.building.plain_things import just_like
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.neighbours import joining

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


_IT_IS = lazy_pattern(r"(?i)(?:no,? )?(?:it|that|this|they|those|these)(?:['’](?:s|re)| is| are)\b")


@joining
def is_another(last: Act, act: Act, heard: str) -> Act | None:
    """ "It isn't a 12-2, it's a 14-2": one of those that are there is another, and none of the
    others is denied."""
    if (
        isinstance(last, acts.Deny)
        and isinstance(act, acts.Restate)
        and act.instead_of is None
        and just_like(act.thing).kind == last.target.kind
        and _IT_IS.match(act.words)
    ):
        return replace(act, instead_of=last.target, span=(last.span[0], act.span[1]))
    return None
