"""What a box is said to be for, before it is described: its device is in it, and it is no further
one where it is told by itself, 314.16(B)(4)."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.act_kinds import is_thing
from boxaloud.grammar.lazy_patterns import lazy_pattern

_IT_IS = lazy_pattern(
    r"(?i)\W*(?:(?:ok|okay|so|well|um|uh|now|then|now then|hello|hi|hey|right|next|and),? )*"
    r"(?:this(?: one)? is|this one['’]s|it['’]s|it is)"
    r" (?:(?:an?|the|my|our) )?(?:[a-z]+ ){0,3}"
)
#: An ear gives no marks; a comma may be that of a list.
_BREAK = lazy_pattern(r"\s*(?:[:;.–—-]\s*)?(?:an?\s+)?")
_MEASURES = (acts.SetSize, acts.SetVolume, acts.NameBoxKind)


def defined_by_device(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "This is an office outlet: a 4-inch square, …, a duplex on the front": one device."""
    first = made[0]
    device = first.thing if isinstance(first, acts.Restate) else first
    if isinstance(first, acts.Restate) and first.instead_of is not None:
        return made
    if not isinstance(device, acts.AddDevice) or device.doubts or device.count not in (None, 1):
        return made
    if _IT_IS.fullmatch(heard[: device.span[0]]) is None or not isinstance(made[1], _MEASURES):
        return made
    between = _BREAK.fullmatch(heard[device.span[1] : made[1].span[0]])
    if between is None or not any(is_thing(act) for act in made[2:]):
        return made
    named = replace(device, function="inform", doubts=(acts.Doubt("count", "named"),))
    return [named, *made[1:]]
