"""Sound made worse on the GPU, anew for every batch: rooms, microphones, noises, other talkers,
telephones, clipping, losses. No noise is a recording of any machine."""

from __future__ import annotations

import math

import numpy as np
import torch
import torch.nn.functional as F
from torch import Tensor

RATE = 16_000
NOISE_SECONDS = 12
#: Part of the band up to which a stretched mouth's frequencies are stretched evenly.
HIGHEST_STRETCHED = 0.7
DEVICE = "cuda" if torch.cuda.is_available() else "cpu"


def uniform(many: int, low: float, high: float) -> Tensor:
    """`many` numbers from `low` to `high`."""
    return torch.rand(many, device=DEVICE) * (high - low) + low


def happens(many: int, share: float | Tensor) -> Tensor:
    """True in a `share` of `many` cases, (many, 1); a share each where it is (many, 1)."""
    return torch.rand(many, 1, device=DEVICE) < share


def loudness(x: Tensor) -> Tensor:
    """The level of the speech in each row, (batch, 1): of the blocks within 30 dB of the top."""
    blocks = x[:, : x.shape[1] // 320 * 320].view(x.shape[0], -1, 320).square().mean(2)
    heard = blocks > blocks.amax(1, keepdim=True) / 1000
    mean = (blocks * heard).sum(1, keepdim=True) / heard.sum(1, keepdim=True).clamp(1)
    return mean.sqrt().clamp(1e-5)


class NoiseMaker:
    """Noises of no particular machine: coloured, in bands, swelling, humming, whining, hammering,
    and a sort of music."""

    def __init__(self, seed: int) -> None:
        self._chance = np.random.default_rng(seed)
        self._length = RATE * NOISE_SECONDS
        self._hertz = torch.fft.rfftfreq(self._length, 1 / RATE, device=DEVICE)
        self._time = torch.arange(self._length, device=DEVICE) / RATE

    def bank(self, many: int) -> Tensor:
        """(many, samples), each of unit level, half precision."""
        return torch.stack([self._one().half() for _ in range(many)])

    def _between(self, low: float, high: float) -> float:
        return float(self._chance.uniform(low, high))

    def _by_ratio(self, low: float, high: float) -> float:
        return math.exp(self._between(math.log(low), math.log(high)))

    def _one(self) -> Tensor:
        x = self._coloured()
        for share, make in (
            (0.5, self._swelling), (0.55, self._humming), (0.4, self._hammering), (0.2, self._music)
        ):  # fmt: skip
            if self._chance.random() < share:
                x = make(x)
        return x / x.std()

    def _coloured(self) -> Tensor:
        tilt, low, high = self._between(0, 2.2), self._between(10, 400), self._between(1500, 8000)
        bins = torch.fft.rfft(torch.randn(self._length, device=DEVICE))
        bins = bins * (self._hertz + 20) ** (-tilt / 2)
        bins = bins / (1 + (low / (self._hertz + 1)) ** 6) ** 0.5
        x = torch.fft.irfft(bins / (1 + (self._hertz / high) ** 6) ** 0.5, self._length)
        return x / x.std()

    def _swelling(self, x: Tensor) -> Tensor:
        slow = torch.sin(2 * math.pi * self._between(0.2, 3) * self._time + self._between(0, 6))
        fast = torch.sin(2 * math.pi * self._between(4, 40) * self._time)
        fast = fast.sign() if self._chance.random() < 0.4 else fast
        return x * (1 + self._between(0, 1) * slow) * (1 + self._between(0, 0.9) * fast)

    def _humming(self, x: Tensor) -> Tensor:
        pitch, fall = self._by_ratio(35, 900), self._between(0.1, 1.3)
        drift = F.interpolate(torch.randn(1, 1, 40, device=DEVICE), self._length, mode="linear")[
            0, 0
        ]
        phase = torch.cumsum(pitch * (1 + self._between(0, 0.08) * drift), 0) * 2 * math.pi / RATE
        hum = torch.zeros_like(x)
        for overtone in range(1, min(30, int(7000 / pitch)) + 1):
            hum += torch.sin(overtone * phase + self._between(0, 6)) * overtone**-fall
        return x * self._between(0.1, 1) + hum / hum.std() * self._between(0.3, 1.5)

    def _hammering(self, x: Tensor) -> Tensor:
        gap = self._by_ratio(0.02, 0.8)
        times = np.cumsum(self._chance.gamma(8, gap / 8, int(NOISE_SECONDS / gap) + 4))
        places = (times[times < NOISE_SECONDS - 0.2] * RATE).astype(np.int64)
        blows = torch.zeros_like(x)
        force = self._chance.uniform(0.3, 1, len(places)).astype(np.float32)
        blows[torch.from_numpy(places).to(DEVICE)] = torch.from_numpy(force).to(DEVICE)
        time = self._time[:4000]
        tone = torch.sin(2 * math.pi * self._between(300, 5000) * time)
        ring = tone + self._between(0, 1) * torch.randn_like(time)
        ring = ring * torch.exp(-time / self._between(0.002, 0.04))
        whole = 2 * self._length
        rung = torch.fft.irfft(torch.fft.rfft(blows, whole) * torch.fft.rfft(ring, whole), whole)
        rung = rung[: self._length]
        return x * self._between(0.05, 0.8) + rung / (rung.std() + 1e-6) * self._between(0.5, 1.5)

    def _music(self, x: Tensor) -> Tensor:
        played = torch.zeros_like(x)
        for start in range(0, self._length, int(self._between(0.25, 0.7) * RATE)):
            time = self._time[: min(int(0.9 * RATE), self._length - start)]
            root = self._by_ratio(90, 350)
            for ratio in (1, self._between(1.18, 1.27), 1.5, 2):
                for overtone in (1, 2, 3, 4):
                    tone = torch.sin(2 * math.pi * root * ratio * overtone * time)
                    fall = torch.exp(-time * self._between(0.5, 4))
                    played[start : start + len(time)] += tone / overtone * fall
        return x * self._between(0.05, 0.5) + played / (played.std() + 1e-6)


def in_a_room(x: Tensor) -> Tensor:
    """Half of the rows with the echo of a room, more than half through an uneven microphone."""
    batch, length = x.shape
    level = loudness(x)
    whole = (length + RATE + 4095) // 4096 * 4096
    time = torch.arange(RATE, device=DEVICE) / RATE
    decay = uniform(batch, 0.1, 1.2)[:, None]
    echo = torch.randn(batch, RATE, device=DEVICE) * 10 ** (-3 * time / decay)
    echo = echo * (time > uniform(batch, 0.001, 0.01)[:, None])
    for _ in range(6):
        place = (uniform(batch, 0.002, 0.04) * RATE).long()[:, None]
        echo.scatter_add_(1, place, torch.randn(batch, 1, device=DEVICE) * 3)
    echo = echo / echo.square().sum(1, keepdim=True).sqrt()
    echo = echo * 10 ** (-uniform(batch, -4, 14) / 20)[:, None] * happens(batch, 0.5)
    echo[:, 0] = 1
    hertz = torch.fft.rfftfreq(whole, 1 / RATE, device=DEVICE)
    uneven = F.interpolate(
        torch.randn(batch, 1, 7, device=DEVICE) * 4, 256, mode="linear", align_corners=True
    )[:, 0]
    octave = ((hertz.clamp(50) / 50).log2() / 7.33 * 255).clamp(0, 255).long()
    response = 10 ** (uneven[:, octave] * happens(batch, 0.6) / 20)
    bins = torch.fft.rfft(x, whole) * torch.fft.rfft(echo, whole) * response
    x = torch.fft.irfft(bins, whole)[:, :length]
    return x * (level / loudness(x))


def over_a_telephone(x: Tensor, share: float | Tensor = 0.3) -> Tensor:
    """A share of the rows in a narrow band, most of those in few bits by the mu law."""
    batch, length = x.shape
    narrow = happens(batch, share)
    hertz = torch.fft.rfftfreq(length, 1 / RATE, device=DEVICE)[None]
    low, high = uniform(batch, 20, 380)[:, None], uniform(batch, 2900, 5000)[:, None]
    high = torch.where(happens(batch, 0.4), torch.full_like(high, 3900.0), high)
    band = 1 / (1 + (low / (hertz + 1)) ** 8) ** 0.5 / (1 + (hertz / high) ** 40) ** 0.5
    bins = torch.fft.rfft(x, n=length) * torch.where(narrow, band, torch.ones_like(band))
    x = torch.fft.irfft(bins, length)
    peak = x.abs().amax(1, keepdim=True).clamp(1e-5)
    bent = (x / peak).sign() * torch.log1p(255 * (x / peak).abs()) / math.log(256)
    steps = 2 ** torch.randint(4, 8, (batch, 1), device=DEVICE).float()
    bent = (bent * steps).round() / steps
    coarse = bent.sign() * (256 ** bent.abs() - 1) / 255 * peak
    return torch.where(narrow & happens(batch, 0.6), coarse, x)


def on_a_bad_line(x: Tensor) -> Tensor:
    """Some rows clipped, some with packets lost, all at a level of their own with a faint hiss."""
    batch, length = x.shape
    limit = x.abs().amax(1, keepdim=True) * uniform(batch, 0.08, 0.6)[:, None]
    x = torch.where(happens(batch, 0.12), x.clamp(-limit, limit), x)
    lost = torch.rand(batch, length // 320 + 1, device=DEVICE) < uniform(batch, 0.02, 0.1)[:, None]
    lost = lost | (torch.roll(lost, 1, 1) & (torch.rand(lost.shape, device=DEVICE) < 0.5))
    x = x * ~(lost.repeat_interleave(320, 1)[:, :length] & happens(batch, 0.1))
    x = x / x.abs().amax(1, keepdim=True).clamp(1e-5) * 10 ** uniform(batch, -1.5, 0)[:, None]
    return x + torch.randn_like(x) * 10 ** uniform(batch, -6, -4)[:, None]


def other_mouths(power: Tensor) -> Tensor:
    """Spectra, (batch, bins, frames), of mouths longer or shorter: most rows with their frequencies
    stretched, up to where the highest stay in place (Jaitly and Hinton, 2013, vocal tract length
    perturbation)."""
    batch, bins, frames = power.shape
    stretch = torch.where(
        happens(batch, 0.6), uniform(batch, 0.85, 1.18)[:, None], torch.ones(batch, 1).to(power)
    )
    bend = HIGHEST_STRETCHED * (bins - 1) / stretch.clamp(1)
    bin_ = torch.arange(bins, device=power.device)[None].float()
    above = bins - 1 - (bins - 1 - bin_) * (bins - 1 - stretch * bend) / (bins - 1 - bend)
    source = torch.where(bin_ < bend, bin_ * stretch, above).clamp(0, bins - 1.001)
    low = source.floor().long()[:, :, None].expand(batch, bins, frames)
    part = (source - source.floor())[:, :, None]
    return power.gather(1, low) * (1 - part) + power.gather(1, low + 1) * part


def with_gaps(mel: Tensor) -> Tensor:
    """Log-mel frames with bands and stretches of time left out."""
    batch, frames, bands = mel.shape
    fill = mel.amin((1, 2), keepdim=True)

    def gap(length: int, widest: int, share: float) -> Tensor:
        width = torch.randint(0, widest, (batch, 1), device=DEVICE)
        first = (torch.rand(batch, 1, device=DEVICE) * length).long()
        place = torch.arange(length, device=DEVICE)
        return (place >= first) & (place < first + width) & happens(batch, share)

    for _ in range(2):
        mel = torch.where(gap(bands, 16, 0.6)[:, None], fill, mel)
    for _ in range(3):
        mel = torch.where(gap(frames, 12, 0.5)[:, :, None], fill, mel)
    return mel
