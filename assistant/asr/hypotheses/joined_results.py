"""What was heard in several stretches of a sound as one utterance; and what of none."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import chain

from boxaloud.assistant.asr.asr_types import UNKNOWN, RecognitionResult, Sound
from boxaloud.assistant.asr.audio.levels import rejection_reason
from boxaloud.grammar.lexer.heard_words import Word

#: Stands for a part of a statement that was not understood.
UNKNOWN_SEGMENT = ((Word(UNKNOWN, 0.0),),)


def joined(parts: Sequence[RecognitionResult]) -> RecognitionResult:
    """What was said with pauses in it as one utterance; a part not understood is unknown."""
    every = [part.readings or UNKNOWN_SEGMENT for part in parts]
    if not any(part.readings for part in parts):
        return parts[0]
    best = [one[0] for one in every]
    whole = [best]
    for place, others in enumerate(every):
        whole += [[*best[:place], other, *best[place + 1 :]] for other in others[1:]]
    return RecognitionResult(tuple(tuple(chain(*one)) for one in whole))


def nothing_said(sound: Sound) -> RecognitionResult:
    """What an ear gives of a sound in which nobody speaks."""
    trouble = rejection_reason(sound)
    return RecognitionResult((), "silence" if trouble == "unclear" else trouble)
