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
class FreeOdds:
    """How much likelier a short answer is than any other word to an engine that is asked freely, a
    natural logarithm."""

    word: str
    odds: float


@dataclass(frozen=True, slots=True)
class Evidence:
    """What tells how far an utterance that was heard can be believed, besides its readings.

    Attributes:
        engine: whose measures these are; each engine's are weighed by weights of their own.
        strange: by how much the engine would rather have heard something else, a natural
            logarithm for each letter or piece; 0 at best.
        worst: the same in all over the 0.3 s where that is greatest.
        unread: seconds of speech between the words that none of them accounts for.
        snr_db: decibels from the background up to the words.
        seconds: how long the speech lasts.
        lost: seconds of speech before or behind the words, as loud as they are, that no word
            accounts for: somebody said more than was heard.
        edge: as `strange`, but in all, right before the first word and right behind the last:
            letters that go on are another word's.
        whole: as `strange`, but in all, over the sound around the words as well, but for other
            talk there.
        freely: of each short answer, where the sound is as short as one.
    """

    engine: str
    strange: float
    worst: float
    unread: float
    snr_db: float
    seconds: float
    lost: float = 0.0
    edge: float = 0.0
    whole: float = 0.0
    freely: tuple[FreeOdds, ...] = ()


@dataclass(frozen=True, slots=True)
class RecognitionResult:
    """One utterance heard: the likeliest words first, other readings after it.

    `shares` are the readings' shares of all likelihood, and `evidence` what else is known; an
    engine that knows neither leaves them out. `second` is what a second ear heard in the same
    sound, where one was asked.
    """

    readings: tuple[tuple[Word, ...], ...]
    trouble: RejectionReason | None = None
    shares: tuple[float, ...] = ()
    evidence: Evidence | None = None
    second: RecognitionResult | None = None

    @property
    def words(self) -> tuple[Word, ...]:
        """The likeliest reading, empty when nothing was heard."""
        return self.readings[0] if self.readings else ()


class Recogniser(Protocol):
    """An engine that turns sound into words."""

    def hear(self, sound: Sound, expect: str | None = None) -> tuple[RecognitionResult, ...]:
        """The utterances in `sound`, in order. `expect` names the open question."""
        ...
