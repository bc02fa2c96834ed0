"""What a list of cables has no ground in, said once behind the last of them: "two 14-2s and a 14-3,
no grounds in those"."""

from __future__ import annotations

from dataclasses import replace

from boxaloud.grammar import acts
from boxaloud.grammar.acts import Act, Unread
from boxaloud.grammar.lazy_patterns import lazy_pattern

PIECES = ("ground", "green", "bare", "egc")
"""Of which an utterance holds one where a ground is denied."""
_WIRE = r"(?:grounds?|greens?|bares?|egcs?)"
#: Of several: "no grounds", "none of them has a ground", "no ground wire in either one".
_OF_ALL = lazy_pattern(
    r"(?i)[^,.;:?!]*[,.;]\s*(?:and |with |but )?(?:(?:there['’]?s|there are|i see|they have) )?"
    r"(?:(?:none|neither|not one)(?: (?:of|with|has|have|got|having)\b)[^.;?!]*"
    rf"|no (?:bare |green |equipment )?(?:{_WIRE}(?<=s)\b|{_WIRE} (?:wires|conductors)\b"
    rf"|{_WIRE}(?: (?:wire|conductor)s?)? (?:in|on|with|to|for|at)"
    r" (?:either|any|all|both|those|these|them|none)\b))"
)
_NEITHER = lazy_pattern(r"(?i)(?:neither|none|not one)\b")
_LISTED = lazy_pattern(r"(?i)\s*(?:[,.;]\s*)?(?:(?:and|plus|with|&)\s+)?(?:also |then )?")


def none_grounded(made: list[Act], heard: str, left: list[Unread]) -> list[Act]:
    """The acts, each cable of a list without a ground where the denial behind it is of them all:
    no ground enters with any, 314.16(B)(5)."""
    kept: list[Act] = []
    denied: Act | None = None
    for act in reversed(made):
        if isinstance(act, acts.Unground) and _NEITHER.match(act.words) and act.ground is False:
            denied = act
        elif not isinstance(act, acts.AddCable) or act.awg is None:
            denied = None
        elif act.ground is False and _OF_ALL.match(heard, act.span[0]):
            denied = act
        elif denied is not None and _listed(act, denied, heard) and act.ground is None:
            act = replace(act, ground=False, ground_awg=None)
            if isinstance(denied, acts.Unground):
                kept.remove(denied)
            denied = act
        else:
            denied = None
        kept.append(act)
    return kept[::-1]


def _listed(one: Act, other: Act, heard: str) -> bool:
    """Whether a thing stands right before another in a list."""
    return _LISTED.fullmatch(heard, one.span[1], other.span[0]) is not None
