"""Train the ear on a folder of spoken shards, on one GPU.

    python train.py FOLDER SOUND OUT.pt SECONDS [--start BEFORE] [--rate 5e-4] [--seed 1]

`BEFORE` is what another run wrote, or the product's own file. The learning rate rises, stays for a
third of the time and falls to nothing. Weights are averaged over the last steps; every minute the
averaged ones are written, so that a run that is stopped leaves something sound.
"""

from __future__ import annotations

import argparse
import math
import sys
import time
from pathlib import Path

import numpy as np
import torch
import torch.nn.functional as F
from batches import Batches, SpokenSet
from degradation import DEVICE
from model import (
    LETTERS,
    SECOND_HEAD,
    Ear,
    has_second_head,
    start_from,
    start_from_whisper,
    stored_state,
)
from torch import Tensor

GROUPS = 8
WARM_UP_STEPS = 400
LEVEL_SHARE = 0.35
MIDDLE_WEIGHT = 0.3
FEWEST_TO_START = 3000
WATCH_SECONDS = 60


def rate_at(step: int, elapsed: float, highest: float) -> float:
    """The learning rate: `elapsed` is the part of the time that is spent, 0 to 1."""
    risen = min(1.0, (step + 1) / WARM_UP_STEPS)
    if elapsed < LEVEL_SHARE:
        return highest * risen
    fallen = 0.5 * (1 + math.cos(math.pi * (elapsed - LEVEL_SHARE) / (1 - LEVEL_SHARE)))
    return highest * risen * max(0.005, fallen)


def written(scores: Tensor, places: Tensor) -> list[str]:
    """The likeliest letters of each row."""
    found = []
    for row, many in zip(scores.argmax(-1).cpu().numpy(), places.tolist(), strict=True):
        own = row[:many]
        own = own[np.r_[True, own[1:] != own[:-1]]]
        found.append("".join(LETTERS[each] for each in own if each))
    return found


def word_errors(said: str, heard: str) -> int:
    """How many words must be exchanged, put in or taken out."""
    one, other = said.split(), heard.split()
    before = list(range(len(other) + 1))
    for row, word in enumerate(one, 1):
        line = [row]
        for column, there in enumerate(other, 1):
            changed = before[column - 1] + (word != there)
            line.append(min(before[column] + 1, line[-1] + 1, changed))
        before = line
    return before[-1]


class Trainer:
    """The network, its optimiser and its averaged weights."""

    def __init__(self, given: argparse.Namespace, batches: Batches, spoken: SpokenSet) -> None:
        self._given, self._batches, self._spoken = given, batches, spoken
        self._ear = Ear(dropout=0.1)
        self._middle_weight = MIDDLE_WEIGHT
        if given.start:
            state = stored_state(given.start)
            start_from(self._ear, state)
            # a second head that nobody has taught would unteach the layers below it
            self._middle_weight = MIDDLE_WEIGHT if has_second_head(state) else 0.0
        else:
            start_from_whisper(self._ear, dict(np.load(given.folder / "encoder.npz")))
        self._ear.to(DEVICE)
        parameters = list(self._ear.parameters())
        groups = [
            {"params": [each for each in parameters if each.ndim > 1], "weight_decay": 0.03},
            {"params": [each for each in parameters if each.ndim < 2], "weight_decay": 0.0},
        ]
        self._optimiser = torch.optim.AdamW(
            groups, given.rate, betas=(0.9, 0.98), fused=DEVICE == "cuda"
        )
        self._average = {name: each.clone() for name, each in self._ear.state_dict().items()}
        self._step = 0
        self._losses: list[Tensor] = []

    def _scores(self, frames: Tensor, places: Tensor) -> tuple[Tensor, Tensor]:
        own = torch.arange(frames.shape[1] // 2, device=DEVICE)[None] < places[:, None]
        with torch.autocast(DEVICE, torch.bfloat16):
            return self._ear(frames, own)

    def _learn(self, chosen: np.ndarray, elapsed: float) -> None:
        with torch.no_grad():
            frames, places = self._batches.make(chosen)
        letters = [self._spoken.trained.letters[each] for each in chosen]
        lengths = torch.tensor([len(each) for each in letters], device=DEVICE)
        targets = torch.tensor([one for each in letters for one in each], device=DEVICE)
        scores, middle = self._scores(frames, places)

        def loss(of: Tensor) -> Tensor:
            likely = of.float().log_softmax(-1).transpose(0, 1)
            return F.ctc_loss(likely, targets, places, lengths, zero_infinity=True)

        whole = loss(scores) + self._middle_weight * loss(middle)
        for group in self._optimiser.param_groups:
            group["lr"] = rate_at(self._step, elapsed, self._given.rate)
        self._optimiser.zero_grad(set_to_none=True)
        whole.backward()
        torch.nn.utils.clip_grad_norm_(self._ear.parameters(), 1.0)
        self._optimiser.step()
        self._losses.append(whole.detach())
        self._step += 1
        self._take_average()

    @torch.no_grad()
    def _take_average(self) -> None:
        kept = min(0.9995, 1 - 1 / (self._step + 1) ** 0.7)
        now = self._ear.state_dict()
        torch._foreach_lerp_([self._average[name] for name in now], list(now.values()), 1 - kept)

    @torch.no_grad()
    def _watch(self) -> str:
        """Word errors of a hundred on speakers that are not trained on, by letters alone."""
        now = {name: each.clone() for name, each in self._ear.state_dict().items()}
        self._ear.load_state_dict(self._average)
        self._ear.eval()
        parts = []
        for degraded in (False, True):
            wrong = whole = 0
            texts = ["".join(LETTERS[c] for c in row) for row in self._spoken.watched.letters]
            for first in range(0, len(texts), 64):
                frames, places = self._batches.watched(first, 64, degraded)
                heard = written(self._scores(frames, places)[0], places)
                for said, found in zip(texts[first : first + 64], heard, strict=True):
                    wrong += word_errors(said, found)
                    whole += len(said.split())
            parts.append(f"{100 * wrong / max(1, whole):.1f}")
        self._ear.load_state_dict(now)
        self._ear.train()
        return " clean, ".join(parts) + " degraded"

    def run(self) -> None:
        """Train until the time that is given is over, and write the averaged weights."""
        given, began, told = self._given, self._given.began, time.time()
        while (elapsed := (time.time() - began) / given.seconds) < 1:
            for chosen in self._batches.draw(given.batch, GROUPS):
                self._learn(chosen, (time.time() - began) / given.seconds)
            if time.time() - told > WATCH_SECONDS:
                told = time.time()
                self._tell(elapsed)
                self._spoken.refresh()
        self._tell(1.0)

    def _tell(self, elapsed: float) -> None:
        mean = float(torch.stack(self._losses).mean()) if self._losses else float("nan")
        self._losses = []
        hours = sum(self._spoken.trained.lengths) / 57.6e6
        sys.stdout.write(
            f"{elapsed:.0%} step {self._step} loss {mean:.3f} hours {hours:.1f}"
            f" word errors {self._watch()}\n"
        )
        kept = {
            name: each.half().cpu()
            for name, each in self._average.items()
            if self._middle_weight or not name.startswith(SECOND_HEAD)
        }
        torch.save(kept, self._given.out)


def main() -> None:
    """Wait for enough sound, then train."""
    reader = argparse.ArgumentParser(description=__doc__)
    reader.add_argument("folder", type=Path)
    reader.add_argument("sound", type=Path)
    reader.add_argument("out", type=Path)
    reader.add_argument("seconds", type=float)
    reader.add_argument("--start", type=Path)
    reader.add_argument("--rate", type=float, default=5e-4)
    reader.add_argument("--batch", type=int, default=192)
    reader.add_argument("--seed", type=int, default=1)
    given = reader.parse_args()
    given.began = time.time()
    torch.manual_seed(given.seed)
    torch.set_float32_matmul_precision("high")
    spoken = SpokenSet(given.sound)
    batches = Batches(spoken, np.load(given.folder / "mel.npy"), given.seed)
    while spoken.refresh() < FEWEST_TO_START:
        time.sleep(3)
    Trainer(given, batches, spoken).run()


if __name__ == "__main__":
    main()
