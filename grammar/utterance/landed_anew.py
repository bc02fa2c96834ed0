"""A device that is put right as on other conductors: "my mistake, receptacle's on the 14"."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.clauses.act_kinds import pointed_at
from boxaloud.grammar.lazy_patterns import lazy_pattern

_IS_ON = lazy_pattern(
    r"(?i)(?:(?:the|that|my|this) )?[a-z -]+(?:['’]s| is| was) (?:\w+ )?(?:on|off)\b"
)


def landed_anew(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """Behind a mark of correction a device that is on a size, and is not counted, is one that is
    there."""
    corrected = any(act.function == "correction" for act in made)
    return [_landed(act) for act in made] if corrected else made


def _landed(act: Act) -> Act:
    restated = isinstance(act, acts.Restate) and act.instead_of is None
    device = act.thing if isinstance(act, acts.Restate) and restated else act
    if not isinstance(device, acts.AddDevice) or device.count is not None or device.awg is None:
        return act
    if not _IS_ON.match(device.words):
        return act
    target = replace(pointed_at(device, device.words), awg=None)
    return acts.Land(
        target=target, awg=device.awg, words=act.words, span=act.span, function="correction"
    )
