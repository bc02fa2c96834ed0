"""How many of the cables are of a size, told behind other words without a break, as an ear hears
it: "… look at the jackets two are twelve two and three are twelve three"."""

from __future__ import annotations

import re

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Reference, Unread
from boxaloud.grammar.clauses.text_before import just_before
from boxaloud.grammar.lazy_patterns import lazy_pattern

_WORTH = {
    "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
    "ten": 10,
}  # fmt: skip
_SO_MANY_ARE = lazy_pattern(
    r"(?i)(?:^|(?P<led>\S*)[\s,.;:]+)(?P<said>(?P<n>two|three|four|five|six|seven|eight|nine|ten"
    r"|[2-9]|10)(?: of (?:them|the cables))? (?:are|were)(?: all| just| both)? #?)\Z"
)
#: Behind these a number is a name, the second of a pair, or the rest of a size.
_NO_COUNT = frozenset({
    "and", "or", "to", "number", "no", "circuit", "circuits", "cable", "cables", "box", "boxes",
    "gang", "room", "breaker", "breakers", "zone", "zones", "all", "other", "others", "last",
    "first", "these", "those", "the", "my", "ten", "twelve", "fourteen", "than", "of", "only",
    "not",
})  # fmt: skip


def parts_counted(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "Look at the jackets two are twelve two and three are twelve three": so many of each."""
    kept: list[Act] = []
    for act in made:
        found = _counted(kept, act, heard, left) if isinstance(act, acts.AddCable) else None
        if found is None or not isinstance(act, acts.AddCable):
            kept.append(act)
            continue
        start = found.start("said")
        if kept and kept[-1].span[0] >= start:
            kept.pop()
        left[:] = [run for run in left if run.span[0] < start or run.span[0] > act.span[0]]
        words, span = heard[start : act.span[1]], (start, act.span[1])
        count = _WORTH.get(found["n"].lower()) or int(found["n"])
        target = Reference(count=count, words=found["n"])
        kept.append(
            acts.Replace(target=target, thing=act, words=words, span=span, function="correction")
        )
    return kept


def _counted(
    kept: list[Act], act: acts.AddCable, heard: str, left: list[Unread]
) -> re.Match[str] | None:
    """What says before a size how many are of it, where nothing was made of that number but a
    number."""
    if act.count is not None or act.doubts:
        return None
    before = just_before(heard, act.span[0])
    found = _SO_MANY_ARE.search(before)
    if found is None or len(before) < act.span[0]:
        return None
    start = found.start("said")
    alone = bool(kept) and isinstance(kept[-1], acts.Number) and kept[-1].span[0] == start
    last = next((one for one in reversed(kept) if one.span[1] <= start), None)
    behind = last is not None and heard[last.span[1] : start].strip(" ,").lower() == "and"
    if (found["led"] or "").lower() in _NO_COUNT and not behind:
        return None
    unread = any(run.span[0] == start for run in left)
    return found if alone or unread else None
