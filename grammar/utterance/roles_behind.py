"""What a cable does, said behind it: "another 14-2, the feed" is one cable, and no two."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.utterance.cable_roles import OF_WHAT, ROLE_PATTERN, is_role

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
            span = (kept[-1].span[0], act.span[1])
            kept[-1] = replace(kept[-1], words=heard[slice(*span)], span=span)
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
    if _in_apposition(cable, role, heard):
        return True
    if not _BEHIND.fullmatch(heard, cable.span[1], role.span[0]):
        # an ear gives no comma: "and another 14-2 the feed"
        apart = heard[cable.span[1] : role.span[0]].strip()
        return not apart and _is_further(cable, role)
    return _NAMES.match(role.words) is not None or _FURTHER.search(cable.words) is not None


#: A break, and of what it is: ", porch light ".
_OF_WHAT = lazy_pattern(rf"(?i)\s*(?:,|\(|:|-{{1,2}}|–|—)\s*{OF_WHAT}")
_CLOSED = lazy_pattern(r"\s*(?:[.,;:)!]|$)")


def _in_apposition(cable: acts.AddCable, role: acts.AddCable, heard: str) -> bool:
    """ "A 14-3, fan feed.": a single cable whose size was said, and what it does between breaks.
    A cable that was told by what it does before has another behind it: "14-2 feed, switch leg"."""
    told = cable.role is not None and not _ROLE_AHEAD.match(cable.words)
    return (
        cable.count == 1
        and role.count is None
        and not told
        and _OF_WHAT.fullmatch(heard, cable.span[1], role.span[0]) is not None
        and _CLOSED.match(heard, role.span[1]) is not None
    )


_ROLE_AHEAD = lazy_pattern(rf"(?i){ROLE_PATTERN}\s*,")


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
