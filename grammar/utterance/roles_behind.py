"""What a cable does, said behind it: "another 14-2, the feed" is one cable, and no two."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.cable_roles import is_role

_BEHIND = lazy_pattern(
    r"(?i)(?: (?:coming|going|running|in|out|up|down|over|back|from|to|for) ?[a-z ]{0,24})?"
    r"\s*[,(-]+\s*"
    r"(?:(?:it|that|this|which)(?:['’]s| is| will be) (?:just |really |actually )*)?"
)
_NAMES = lazy_pattern(r"(?i)(?:the|that|my|our|this)\b")
_FURTHER = lazy_pattern(r"(?i)\b(?:another|more|additional|extra|second|third|fourth|fifth)\b")
_LISTED = lazy_pattern(r"(?i)\s*(?:,|,? and|&|\+)\s*")


def named_behind(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """ "And another 14-2, the feed": what the cable is, which counts once, 314.16(B)(1).

    Where more than one is named so, they may be a list of further cables: it is left as read.
    """
    kept: list[Act] = []
    for place, act in enumerate(made):
        following = made[place + 1] if place + 1 < len(made) else None
        if kept and _names(kept[-1], act, heard) and not _goes_on(act, following, heard):
            continue
        kept.append(act)
    _without_runs(kept, heard, left)
    return kept


def _names(cable: Act, role: Act, heard: str) -> bool:
    if not isinstance(cable, acts.AddCable) or not isinstance(role, acts.AddCable):
        return False
    if is_role(cable) or not is_role(role) or cable.awg is None or cable.count not in (None, 1):
        return False
    if role.count not in (None, 1) or _FURTHER.search(role.words):
        return False
    if not _BEHIND.fullmatch(heard, cable.span[1], role.span[0]):
        # an ear gives no comma: "and another 14-2 the feed"
        apart = heard[cable.span[1] : role.span[0]].strip()
        return not apart and _is_further(cable, role)
    return _NAMES.match(role.words) is not None or _FURTHER.search(cable.words) is not None


def _is_further(cable: acts.AddCable, role: acts.AddCable) -> bool:
    return bool(_FURTHER.search(cable.words) and _NAMES.match(role.words))


def _goes_on(role: Act, following: Act | None, heard: str) -> bool:
    """Whether one more is named by what it does, in a list with the first."""
    if following is None or not is_role(following):
        return False
    return _LISTED.fullmatch(heard, role.span[1], following.span[0]) is not None


_RUN = lazy_pattern(r"(?i)(?:home ?runs?|feeds?|switch legs?|switched legs?|switch loops?)")
_ONE = lazy_pattern(r"(?i)\s*,\s*(?:(?:it|that)(?:['’]s| is) )?(?:a|an|the|my|one) ")


def _without_runs(made: list[Act], heard: str, left: list[Unread]) -> None:
    """Let pass what a further cable is called: "one more 12-2, a home run"."""
    for act in made:
        if not isinstance(act, acts.AddCable) or not _FURTHER.search(act.words):
            continue
        left[:] = [
            run
            for run in left
            if not (_RUN.fullmatch(run.words) and _ONE.fullmatch(heard, act.span[1], run.span[0]))
        ]
