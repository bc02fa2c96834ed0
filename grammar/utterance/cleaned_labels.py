"""Wiping a box to read it: "let me wipe it off, twenty cubic inches" empties nothing."""

from __future__ import annotations

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

_WIPES = lazy_pattern(r"(?i).*\b(?:wip|clear|clean|scrap|brush|rub|dust|scrub)[a-z]*\b")
_OF_IT = lazy_pattern(r"(?i).*\b(?:it|that|this)\b")
_OFF = lazy_pattern(
    r"(?i)\s*(?:off|down|up|clean|dry|first|(?:real )?quick|a (?:bit|little)|with (?:my|a|the)"
    r"|so (?:i|we|that)|to (?:read|see)|and (?:read|see|look))\b"
)
_ENDS_OFF = lazy_pattern(r"(?i).*\b(?:off|down|up)(?: here| first| so)?$")
_LET_ME = lazy_pattern(
    r"(?i)(?:.*[\s,.])?(?:let me|lemme|let us|let's|i will|i'll|i|got to|gotta|have to|need to"
    r"|had to|going to|gonna|just)\s*(?:just |first )*$"
)
#: The same within what was taken for an order: "let me wipe that... seventeen cubic inches".
_LET_ME_OR = lazy_pattern(r"(?i)(?:let me|lemme|let us|let's|i will|i'll|gotta|i have to)\b")
_READING = lazy_pattern(
    r"(?i)\s*(?:on|with|at|from) (?:the|that|my|this) (?:reading|number|stamp|label|marking|volume"
    r"|tape|measur[a-z]+|counting|count)\b"
)
_VALUES = (acts.SetVolume, acts.SetSize, acts.Number, acts.RestateNumber, acts.NameBoxKind)


def wiped_to_read(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts without the one that the words of wiping a label were taken for."""
    value = any(isinstance(act, _VALUES) for act in made)
    return [act for act in made if not _wipes(act, heard, value)]


def _wipes(act: Act, heard: str, value: bool) -> bool:
    if not isinstance(act, (acts.StartOver, acts.Remove, acts.Undo)):
        return False
    if isinstance(act, acts.StartOver) and any(doubt.reason == "repaired" for doubt in act.doubts):
        return True  # "looks clean": a word that is only like "clear" empties no box
    behind = act.span[1]
    if isinstance(act, acts.StartOver) and _READING.match(heard, behind):
        return True
    if not _WIPES.match(act.words) or not _OF_IT.match(act.words):
        return False
    if isinstance(act, acts.Remove) and act.target.kind != "anything":
        return False
    let_me = _LET_ME.match(heard[: act.span[0]]) or _LET_ME_OR.match(act.words)
    if _OFF.match(heard, behind) or _ENDS_OFF.match(act.words):
        return value or bool(let_me) or "clean" not in heard[behind:].lower()
    return value and bool(let_me)
