"""What was heard in several stretches of a sound as one utterance; and what of none."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import chain

from boxaloud.assistant.asr.asr_types import UNKNOWN, Evidence, RecognitionResult, Sound
from boxaloud.assistant.asr.audio.levels import rejection_reason
from boxaloud.grammar.lexer.heard_words import Word

#: Stands for a part of a statement that was not understood.
UNKNOWN_SEGMENT = ((Word(UNKNOWN, 0.0),),)


def joined(parts: Sequence[RecognitionResult]) -> RecognitionResult:
    """What was said with pauses in it as one utterance; a part not understood is unknown."""
    if len(parts) == 1 or not any(part.readings for part in parts):
        return parts[0]
    every = [part.readings or UNKNOWN_SEGMENT for part in parts]
    shares = [
        part.shares or (1.0,) * len(readings) for part, readings in zip(parts, every, strict=True)
    ]
    best = [one[0] for one in every]
    likely = math.prod(one[0] for one in shares)
    whole, whole_shares = [best], [likely]
    for place, others in enumerate(every):
        for other, share in list(zip(others, shares[place], strict=True))[1:]:
            whole.append([*best[:place], other, *best[place + 1 :]])
            whole_shares.append(likely / max(shares[place][0], 1e-9) * share)
    known = all(part.shares for part in parts if part.readings)
    return RecognitionResult(
        tuple(tuple(chain(*one)) for one in whole),
        trouble=next((part.trouble for part in parts if part.trouble), None),
        shares=tuple(whole_shares) if known else (),
        evidence=_together([part.evidence for part in parts]),
        second=_seconds(parts),
    )


def _seconds(parts: Sequence[RecognitionResult]) -> RecognitionResult | None:
    """What the second ear heard, and the first in parts where that was sure."""
    if not any(part.second for part in parts):
        return None
    return joined([part.second or part for part in parts])


def _together(parts: Sequence[Evidence | None]) -> Evidence | None:
    """The evidence of all parts; a part that gave none was speech that no word accounts for."""
    known = [part for part in parts if part is not None]
    if not known:
        return None
    seconds = sum(part.seconds for part in known)
    shares = [part.seconds / max(seconds, 1e-9) for part in known]
    return Evidence(
        engine=known[0].engine,
        strange=sum(part.strange * share for part, share in zip(known, shares, strict=True)),
        worst=max(part.worst for part in known),
        unread=sum(part.unread for part in known),
        snr_db=sum(part.snr_db * share for part, share in zip(known, shares, strict=True)),
        seconds=seconds,
        lost=sum(part.lost for part in known),
        edge=max(part.edge for part in known),
        whole=sum(part.whole for part in known),
    )


def nothing_said(sound: Sound) -> RecognitionResult:
    """What an ear gives of a sound in which nobody speaks."""
    trouble = rejection_reason(sound)
    return RecognitionResult((), "silence" if trouble == "unclear" else trouble)
