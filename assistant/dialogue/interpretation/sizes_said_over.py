"""The sizes and counts that are told over behind one put right: "they're all 14s, nine number 14
and a 14 ground", "the other two are 12-2 like I said". What the box will hold then is
nothing new."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TypeAlias

from boxaloud.assistant.dialogue.state import State
from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.rewriting.spoken_values import spoken_value
from boxaloud.grammar.utterance.size_claims import SizeClaim, gauge
from boxaloud.rules.contents import Cable, Conductors, Grounds

Sized: TypeAlias = tuple[int, int | None, int]
"""A size, the conductors of a cable, and how many there are."""
_GAUGE = r"(?:14|12|10|8|6|fourteen|twelve|ten|eight|six)"
_FEW = r"(?:\d{1,2}|an?|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve)"
_SIZE = (
    rf"(?:number |no\. |# ?)?(?P<awg>{_GAUGE})"
    r"(?:[-/ ](?P<inside>[234]|two|three|four)(?P<two>[-/ ](?:2|two))?)?(?:'?s)?"
    r"(?: (?:gauge|cables?|wires?|thhn|conductors?))?(?![\w/-])"
)
_GROUND = lazy_pattern(
    rf"\b(?:and |with |plus )?(?:an? |the |one )(?:number |no\. |# ?)?(?P<awg>{_GAUGE})(?: gauge)?"
    r" (?:ground|green|bare)\b"
)
_OTHERS = lazy_pattern(
    rf"\b(?:and |but )?(?:the )?(?:others?|rest(?: of (?:them|'em))?)"
    rf"(?: (?P<count>{_FEW}))?(?: ones?)? ?(?:are|is|stay|'s|were)"
    rf"(?: (?:still|all|both|a|an))* {_SIZE}"
    r"(?: (?:like|as|the way) (?:i|we) (?:said|told you|had|gave you)(?: (?:it|them))?)?"
)
_COUNTED = lazy_pattern(
    rf"(?<!not )\b(?:and |so |that's |with )*(?P<count>{_FEW}) (?!ground|green|bare){_SIZE}"
    r"(?! ground)"
)

_SAME = lazy_pattern(rf"\b(?:the )?same (?P<count>{_FEW})\b(?: of (?:them|'em))?")


def without_sizes_said_over(
    words: str, claim: SizeClaim, lines: Sequence[Cable | Conductors], state: State
) -> tuple[str, bool, bool]:
    """The words without what will be so; whether a count was told over, and the ground's size."""
    then = list(_then(claim, lines, state))
    counted = ground = False
    for pattern in (_GROUND, _OTHERS, _COUNTED):
        for found in reversed(list(pattern.finditer(words))):
            of_ground = pattern is _GROUND
            if not (_has_ground(found, claim, state) if of_ground else _agrees(found, then)):
                continue
            ground, counted = ground or of_ground, counted or not of_ground
            words = words[: found.start()] + " " + words[found.end() :]
    for found in reversed(list(_SAME.finditer(words))):
        if len(lines) == 1 and spoken_value(found["count"]) == lines[0].count:
            counted = True
            words = words[: found.start()] + " " + words[found.end() :]
    return words, counted, ground


def _then(claim: SizeClaim, lines: Sequence[Cable | Conductors], state: State) -> Sequence[Sized]:
    """What the box will hold."""
    there: dict[tuple[int, int | None], int] = {}
    for item in state.items:
        line = item.content
        if not isinstance(line, Cable | Conductors):
            continue
        inside = line.conductors if isinstance(line, Cable) else None
        moved = (claim.of_so_many(line.count) or 0) if line in lines else 0
        now = (claim.now.awg or line.awg, (claim.now.conductors or inside) if inside else None)
        there[line.awg, inside] = there.get((line.awg, inside), 0) + line.count - moved
        there[now] = there.get(now, 0) + moved
    return [(awg, inside, count) for (awg, inside), count in there.items() if count]


def _agrees(found: re.Match[str], then: Sequence[Sized]) -> bool:
    said = found["count"]
    count = 1 if said in ("a", "an") else int(spoken_value(said)) if said else None
    inside = int(spoken_value(found["inside"])) if found["inside"] else None
    inside = inside * 2 if inside and found["two"] else inside
    return any(
        awg == gauge(found["awg"]) and there in (inside, there if inside is None else inside)
        and (count is None or count == many)
        for awg, there, many in then
    )  # fmt: skip


def _has_ground(found: re.Match[str], claim: SizeClaim, state: State) -> bool:
    """Whether there is a ground, and it is of the size that is told now."""
    grounds = any(isinstance(item.content, Grounds) for item in state.items)
    return grounds and gauge(found["awg"]) == claim.now.awg
