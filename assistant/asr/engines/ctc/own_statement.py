"""What of a stretch of sound is the speaker's own statement, and what was said around it.

Words of other talk and speech that no word accounts for, before the first word of the trade and
behind the last, are no part of the statement. As loud as its words they are something that was
said and not heard; softer, they are somebody else, and are left alone.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

from boxaloud.assistant.asr.asr_types import UNKNOWN
from boxaloud.assistant.asr.audio.percentiles import percentile
from boxaloud.assistant.asr.engines.ctc.forced_alignment import Alignment

#: Speech that no word accounts for: so many places, of a margin (a logarithm) as great.
UNREAD_PLACES = 15
UNREAD_MARGIN = 6.0
#: A word of so great a margin was another one.
STRANGE_WORD = 5.0
#: Somebody else is softer by so many decibels, mostly: two arms' lengths against one hand's.
NEARER_DB = 8.0
#: Of frames this share is as loud as the loud ones, which is how loud a stretch is.
LOUD_PERCENTILE = 80
#: What sounds within so many places (0.16 s) of a statement may be part of its words.
EDGE_PLACES = 8


@dataclass(frozen=True, slots=True)
class Segment:
    """A word or `UNKNOWN`, from a place to the one behind its last."""

    text: str
    start: int
    end: int


@dataclass(frozen=True, slots=True)
class OwnStatement:
    """The statement itself.

    Attributes:
        segments: from its first word to its last, `UNKNOWN` only between them; empty where there
            is none of the trade's.
        around: what was said before and behind it that is as loud.
        apart: all that was said before and behind it.
    """

    segments: tuple[Segment, ...]
    around: tuple[Segment, ...]
    apart: tuple[Segment, ...] = ()

    @property
    def unread(self) -> int:
        """Places between its words that hold speech which none of them accounts for."""
        return sum(one.end - one.start for one in self.segments if one.text == UNKNOWN)

    @property
    def lost(self) -> int:
        """Places of `around`."""
        return sum(one.end - one.start for one in self.around)

    def of(self, where: Alignment) -> Alignment:
        """The path over the statement alone."""
        start, end = self.segments[0].start, self.segments[-1].end
        return replace(where, margins=where.margins[start:end])

    def edge(self, where: Alignment) -> float:
        """How strange the path is right before the statement and right behind it, in all."""
        start, end = self.segments[0].start, self.segments[-1].end
        before = where.margins[max(0, start - EDGE_PLACES) : start]
        return sum(before) + sum(where.margins[end : end + EDGE_PLACES])

    def whole(self, where: Alignment) -> float:
        """How strange the path is in all, but for what is apart from the statement."""
        return sum(where.margins) - sum(
            sum(where.margins[one.start : one.end]) for one in self.apart
        )


def own_statement(
    words: Sequence[str], known: frozenset[str], where: Alignment, levels: Sequence[float]
) -> OwnStatement:
    """The statement in a stretch.

    Args:
        words: all words of the best path.
        known: those of the trade.
        where: the path.
        levels: how loud each place is, in decibels.
    """
    every = _segments(words, known, where)
    read = [at for at, one in enumerate(every) if one.text != UNKNOWN]
    if not read:
        return OwnStatement((), ())
    first, last = read[0], read[-1] + 1
    loud = max(_level(levels, every[at]) for at in read)
    edges = (*every[:first], *every[last:])
    near = tuple(one for one in edges if _level(levels, one) > loud - NEARER_DB)
    return OwnStatement(tuple(every[first:last]), near, edges)


def _segments(words: Sequence[str], known: frozenset[str], where: Alignment) -> list[Segment]:
    """The words and the speech between them that no word accounts for, in order."""
    found: list[Segment] = []
    for number in range(len(words) + 1):
        start = where.spans[number - 1][1] if number else 0
        end = where.spans[number][0] if number < len(words) else len(where.margins)
        strange = sum(where.margins[start:end])
        if end - start >= UNREAD_PLACES and strange >= UNREAD_MARGIN:
            found.append(Segment(UNKNOWN, start, end))
        for word in words[number : number + 1]:
            taken = word in known and where.own(number) <= STRANGE_WORD
            found.append(Segment(word if taken else UNKNOWN, *where.spans[number]))
    return found


def _level(levels: Sequence[float], one: Segment) -> float:
    inside = levels[one.start : one.end]
    return percentile(inside, LOUD_PERCENTILE) if inside else -math.inf
