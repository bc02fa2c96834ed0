"""The training set on the GPU, and batches of it as log-mel frames."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

import numpy as np
import torch
from degradation import (
    DEVICE,
    RATE,
    NoiseMaker,
    happens,
    in_a_room,
    loudness,
    on_a_bad_line,
    other_mouths,
    over_a_telephone,
    uniform,
    with_gaps,
)  # fmt: skip
from model import LETTERS, codes
from torch import Tensor

PEAK = 16_000
NOISES = 320
#: How often each synthesiser is heard, whatever the size of its set.
SHARES = {"kokoro": 0.8, "flite": 0.2}
#: Shorter than this an utterance is a word or two: it is cut tightly and telephoned more often.
SHORT_SAMPLES = int(1.1 * RATE)
#: How much of a short one's beginning and end is cut away at most, of it and its quiet.
MOST_BEGUN_LATE, MOST_ENDED_SOON = int(0.07 * RATE), int(0.12 * RATE)
#: Letters a second beyond which no utterance can be written by CTC.
MOST_LETTERS_A_SECOND = 45


@dataclass(slots=True)
class Utterances:
    """Where the utterances lie in the sound, and what they say."""

    starts: list[int]
    lengths: list[int]
    letters: list[list[int]]
    engines: list[str]

    @classmethod
    def none(cls) -> Utterances:
        return cls([], [], [], [])

    def add(self, start: int, length: int, text: str, engine: str) -> None:
        self.starts.append(start)
        self.lengths.append(length)
        self.letters.append(codes(text))
        self.engines.append(engine)


class SpokenSet:
    """All sound of a folder, read again while it grows; held-out speakers apart."""

    def __init__(self, folder: Path) -> None:
        self._folder = folder
        self._read: set[Path] = set()
        self.sound = torch.zeros(0, dtype=torch.int16, device=DEVICE)
        self.trained, self.watched = Utterances.none(), Utterances.none()
        self.starts = self.lengths = torch.zeros(0, dtype=torch.long, device=DEVICE)
        self.weights = np.zeros(0)

    def refresh(self) -> int:
        """Take in the shards that are new; how many utterances there are now."""
        new: list[Tensor] = []
        at = len(self.sound)
        for path in sorted(self._folder.glob("*.npz")):
            if path in self._read or path.name.endswith(".draft.npz"):
                continue
            self._read.add(path)
            with np.load(path) as shard:
                rows = zip(shard["lengths"], shard["texts"], shard["engines"], strict=True)
                for length, text, engine in rows:
                    self._take(at, int(length), str(text), str(engine))
                    at += int(length)
                new.append(torch.from_numpy(shard["sound"]))
        if new:
            self.sound = torch.cat([self.sound, torch.cat(new).to(DEVICE)])
            self._weigh()
        return len(self.trained.starts)

    def _take(self, at: int, length: int, text: str, engine: str) -> None:
        if not text or len(text) > length / RATE * MOST_LETTERS_A_SECOND:
            return
        if set(text) <= set(LETTERS):
            (self.watched if engine == "held" else self.trained).add(at, length, text, engine)

    def _weigh(self) -> None:
        self.starts = torch.tensor(self.trained.starts, device=DEVICE)
        self.lengths = torch.tensor(self.trained.lengths, device=DEVICE)
        engines = np.array(self.trained.engines)
        weights = np.zeros(len(engines))
        for engine, share in SHARES.items():
            same = engines == engine
            weights[same] = share / max(1, same.sum())
        self.weights = weights / weights.sum()

    def cut(self, start: Tensor, length: Tensor, whole: int, lead: Tensor, pace: Tensor) -> Tensor:
        """Utterances at their places in rows of `whole` samples, played at a pace of their own."""
        time = (torch.arange(whole, device=DEVICE)[None] - lead[:, None]) * pace[:, None]
        place = time.floor().clamp(0).long()
        there = (time >= 0) & (place < (length - 1)[:, None])
        part = (time - place).clamp(0, 1)
        at = start[:, None] + torch.minimum(place, (length - 2)[:, None])
        one, next_ = self.sound[at].float(), self.sound[at + 1].float()
        return there * (one * (1 - part) + next_ * part) / PEAK


class Batches:
    """Batches of degraded utterances."""

    def __init__(self, spoken: SpokenSet, filters: np.ndarray, seed: int) -> None:
        self._spoken = spoken
        self._chance = np.random.default_rng(seed)
        self._noises = NoiseMaker(seed).bank(NOISES)
        self._filters = torch.from_numpy(filters).to(DEVICE)
        self._window = torch.hann_window(400, device=DEVICE)

    def draw(self, size: int, groups: int) -> list[np.ndarray]:
        """`groups` batches of `size` utterances of like length, in random order."""
        spoken = self._spoken
        lengths = np.array(spoken.trained.lengths)
        pool = self._chance.choice(len(lengths), size * groups, p=spoken.weights)
        order = np.argsort(lengths[pool] + self._chance.normal(0, 4000, len(pool)))
        return list(pool[order].reshape(groups, size)[self._chance.permutation(groups)])

    def make(self, chosen: np.ndarray) -> tuple[Tensor, Tensor]:
        """Frames, (batch, frames, bands), and each row's number of places."""
        index = torch.from_numpy(chosen).to(DEVICE)
        start, length = self._spoken.starts[index], self._spoken.lengths[index]
        many = len(chosen)
        short = length < SHORT_SAMPLES
        start, length = self._cut_short(start, length, short)
        # Faster means higher, and the mouth smaller: up to a child's.
        pace = torch.where(
            happens(many, 0.3)[:, 0], torch.ones(many, device=DEVICE), uniform(many, 0.8, 1.36)
        )
        tight = happens(many, torch.where(short, 0.7, 0.25)[:, None])[:, 0]
        lead = torch.where(tight, uniform(many, 0, 1600), uniform(many, 800, 12_000))
        tail = torch.where(tight, uniform(many, 0, 1600), uniform(many, 1600, 14_000))
        frames = ((lead + length / pace + tail) / 160).long() // 2 * 2
        whole = int(frames.max()) * 160
        x = self._spoken.cut(start, length, whole, lead, pace)
        telephoned = torch.where(short, 0.6, 0.3)[:, None]
        x = on_a_bad_line(over_a_telephone(self._among_noises(in_a_room(x)), telephoned))
        # Quiet is added where a recording begins or ends within the words.
        time = torch.arange(whole, device=DEVICE)[None]
        cut_off = happens(many, 0.2) & (
            (time < lead[:, None] - 800) | (time > (lead + length / pace + 800)[:, None])
        )
        x = torch.where(cut_off, torch.zeros_like(x), x)
        return with_gaps(self._levels(other_mouths(self._power(x)), frames)), frames // 2

    @staticmethod
    def _cut_short(start: Tensor, length: Tensor, short: Tensor) -> tuple[Tensor, Tensor]:
        """Some of the short ones begun late or ended too soon, as people's recordings are."""
        many = len(start)
        late = uniform(many, 0, MOST_BEGUN_LATE) * (short & happens(many, 0.5)[:, 0])
        soon = uniform(many, 0, MOST_ENDED_SOON) * (short & happens(many, 0.5)[:, 0])
        late, soon = (torch.minimum(each, length * 0.2).long() for each in (late, soon))
        return start + late, length - late - soon

    def _among_noises(self, x: Tensor) -> Tensor:
        many, whole = x.shape
        level = loudness(x)
        noise = self._noise(many, whole)
        noise = torch.where(happens(many, 0.25), noise + self._noise(many, whole), noise)
        noise = noise / noise.std(1, keepdim=True).clamp(1e-4)
        below = uniform(many, 0, 32)
        (talked,) = happens(many, 0.3)[:, 0].nonzero(as_tuple=True)
        if len(talked):
            voices = self._talkers(len(talked), whole)
            both = voices + noise[talked] * uniform(len(talked), 0.1, 1)[:, None]
            noise[talked] = torch.where(happens(len(talked), 0.6), voices, both)
            below[talked] = uniform(len(talked), 4, 25)
        return x + noise * level * 10 ** (-below / 20)[:, None] * happens(many, 0.75)

    def _noise(self, many: int, whole: int) -> Tensor:
        kind = torch.randint(0, len(self._noises), (many,), device=DEVICE)
        last = max(1, self._noises.shape[1] - whole)
        first = torch.randint(0, last, (many,), device=DEVICE)
        place = (first[:, None] + torch.arange(whole, device=DEVICE)) % self._noises.shape[1]
        return self._noises[kind[:, None], place].float()

    def _talkers(self, many: int, whole: int) -> Tensor:
        """One talker who goes on, or several, at unit level."""
        voices = torch.zeros(many, whole, device=DEVICE)
        crowd = torch.rand(many, 1, device=DEVICE)
        for number in range(6):
            said = torch.from_numpy(self._chance.integers(0, len(self._spoken.starts), many))
            said = said.to(DEVICE)
            starts, lengths = self._spoken.starts[said], self._spoken.lengths[said]
            lead = uniform(many, -8000, whole * 0.6 if number else 4000)
            pace = uniform(many, 0.85, 1.15)
            voice = self._spoken.cut(starts, lengths, whole, lead, pace)
            if number == 0:
                again = self._spoken.starts.roll(1)[said], self._spoken.lengths.roll(1)[said]
                later = lead + lengths / pace + uniform(many, 0, 8000)
                voice = voice + self._spoken.cut(*again, whole, later, pace)
            loud = uniform(many, 0.3, 1)[:, None] if number else 1.0
            voices = voices + voice * ((crowd > number / 6) | (number == 0)) * loud
        return voices / loudness(voices)

    def log_mel(self, x: Tensor, frames: Tensor) -> Tensor:
        """As `frontend/log_mel.spectrum` makes them, of each row's own frames alone."""
        return self._levels(self._power(x), frames)

    def _power(self, x: Tensor) -> Tensor:
        bins = torch.stft(
            x, 400, 160, window=self._window, center=True, pad_mode="reflect", return_complex=True
        )
        return bins.abs().square()[:, :, : x.shape[1] // 160]

    def _levels(self, power: Tensor, frames: Tensor) -> Tensor:
        levels = (self._filters @ power).clamp(1e-10).log10().transpose(1, 2)
        own = torch.arange(levels.shape[1], device=DEVICE)[None] < frames[:, None]
        top = levels.masked_fill(~own[..., None], -10).amax((1, 2), keepdim=True)
        levels = (torch.maximum(levels, top - 8) + 4) / 4
        return torch.where(own[..., None], levels, torch.zeros_like(levels))

    def watched(self, first: int, size: int, degraded: bool) -> tuple[Tensor, Tensor]:
        """Utterances of the held-out speakers, as they are or degraded."""
        held = self._spoken.watched
        start = torch.tensor(held.starts[first : first + size], device=DEVICE)
        length = torch.tensor(held.lengths[first : first + size], device=DEVICE)
        frames = ((length + 8000) / 160).long() // 2 * 2
        lead, pace = torch.full_like(start, 4000), torch.ones(len(start), device=DEVICE)
        x = self._spoken.cut(start, length, int(frames.max()) * 160, lead, pace)
        if degraded:
            x = on_a_bad_line(over_a_telephone(self._among_noises(in_a_room(x))))
        return self.log_mel(x, frames), frames // 2
