"""What an ear gives, whichever engine it is."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, Protocol, TypeAlias

from boxaloud.grammar.lexer.heard_words import Word

#: Stands in a reading for words that are not of the trade: heard, and not understood.
UNKNOWN = "[unk]"

RejectionReason: TypeAlias = Literal["silence", "quiet", "clipped", "unclear"]


@dataclass(frozen=True, slots=True)
class Sound:
    """Mono 16-bit signed little-endian samples at `rate` per second."""

    samples: bytes
    rate: int = 16000

    @property
    def seconds(self) -> float:
        """How long it lasts."""
        return len(self.samples) / 2 / self.rate


@dataclass(frozen=True, slots=True)
class RecognitionResult:
    """One utterance heard: the likeliest words first, other readings after it."""

    readings: tuple[tuple[Word, ...], ...]
    trouble: RejectionReason | None = None

    @property
    def words(self) -> tuple[Word, ...]:
        """The likeliest reading, empty when nothing was heard."""
        return self.readings[0] if self.readings else ()


class Recogniser(Protocol):
    """An engine that turns sound into words."""

    def hear(self, sound: Sound, expect: str | None = None) -> tuple[RecognitionResult, ...]:
        """The utterances in `sound`, in order. `expect` names the open question."""
        ...
