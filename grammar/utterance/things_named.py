"""Things, and no names of boxes: "they go to an outlet", "two 14-2s go to the switch"."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Utterance
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.box_naming import shifted

_ITS_WAY = lazy_pattern(
    r"(?i)(?:,? (?:and )?(?:both|all|they|those|these|which|just|then|will|do))*[ ]*"
)
_GOES_THERE = lazy_pattern(
    r"(?i)(?:go|goes|going) (?:back |on |over |up |down |out |straight |right )*to (?=the )"
)
#: Behind its name, nothing that says where it is.
_NO_PLACE = lazy_pattern(
    r"(?i)\s*(?:$|[,.;:!?)–-]|\d|(?:and|plus|with|here|too|now|then|also|in (?:it|here|this|there)"
    r"|no|clamps?|box|four|six|seven|eight|nine|ten|eleven|twelve|[a-z]+teen|twenty|thirty|forty"
    r"|fifty|sixty)\b)"
)


def things_named(made: list[Act], heard: str, read: Callable[[str], Utterance]) -> list[Act]:
    """ "They go to an outlet", "two 14-2s go to the switch": a thing, and no name of a box."""
    kept: list[Act] = []
    for act in made:
        if isinstance(act, acts.OpenBox) and (device := _device_of(act, kept, heard, read)):
            kept.append(device)
            continue
        if isinstance(act, acts.OpenBox) and re.match(r"(?i)(?:a|an|one) ", act.name):
            kept += shifted(read(act.name).acts, act.span[1] - len(act.name))
            continue
        if isinstance(act, acts.OpenBox) and re.match(r"(?i)back to back ", act.words):
            # "back to back receptacles": how they stand; "back to the back hall" is a place
            kept += shifted(read(act.name[5:]).acts, act.span[1] - len(act.name) + 5)
            continue
        kept.append(act)
    return kept


def _device_of(
    act: acts.OpenBox, before: list[Act], heard: str, read: Callable[[str], Utterance]
) -> Act | None:
    """The device that the cables told right before go to. It may be at their other end, so that it
    is in the box at hand only where no other device is, 314.16(B)(4)."""
    last = before[-1] if before else None
    lead = _GOES_THERE.match(act.words)
    if lead is None or not is_thing(last) or last is None:
        return None
    if not _ITS_WAY.fullmatch(heard, last.span[1], act.span[0]):
        return None
    if not _NO_PLACE.match(heard, act.span[1]):
        return None  # "go to the switch down the hall"
    named = shifted(read(act.words[lead.end() :]).acts, act.span[0] + lead.end())
    if (
        len(named) != 1
        or not isinstance(named[0], acts.AddDevice)
        or named[0].span[1] < act.span[1]
    ):
        return None
    if isinstance(last, acts.AddUncounted):
        return named[0]  # pigtails stay in the box, and so does what they go to
    return replace(named[0], doubts=(*named[0].doubts, acts.Doubt("count", "elsewhere")))
