"""Speak the jobs of a training folder: many processes on one GPU, shards of 16 kHz sound.

    python synthesise.py FOLDER SOUND SECONDS [--workers 12] [--flite ROOT]

It ends after `SECONDS`, or when everything is said. Shards are written whole or not at all, so
that a training run may read them while others are still being made.
"""

from __future__ import annotations

import argparse
import json
import os
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import numpy as np
import torch
import torch.multiprocessing as processes
from degradation import DEVICE
from onnx_graph import Graph

RATE, MADE_AT = 16_000, 24_000
SHARD = 200
SHORTEST_SAMPLES, LONGEST_SAMPLES = 1_600, 9 * RATE
#: The level at which every utterance is kept, of 16 bits.
PEAK = 16_000
FLITE_WORKERS = 3
Job = dict[str, Any]
Sound = Any
Speaker = Callable[[Job], Sound]


def resampled(values: torch.Tensor, rate: int) -> torch.Tensor:
    """The sound at 16 kHz, by its spectrum."""
    whole = round(len(values) * RATE / rate)
    bins = torch.fft.rfft(values)[: whole // 2 + 1]
    return torch.fft.irfft(bins, whole) * (whole / len(values))


def neural(folder: Path) -> Speaker:
    """A voice of the neural synthesiser: timbre and manner are mixed apart, as they are stored."""
    graph = Graph(str(folder / "kokoro.onnx"), DEVICE)
    with np.load(folder / "styles.npz") as stored:
        styles = {name: torch.from_numpy(stored[name]).float() for name in stored.files}
    middle = torch.stack(list(styles.values())).mean(0)

    def mixed(shares: dict[str, float], place: int) -> torch.Tensor:
        return torch.stack([styles[each][place] * part for each, part in shares.items()]).sum(0)

    def speak(job: Job) -> Sound:
        place = (job["as_long_as"] or len(job["tokens"])) - 1
        timbre, manner = mixed(job["voice"], place), mixed(job["manner"], place)
        timbre = middle[place] + (timbre - middle[place]) * job["spread"]
        style = torch.cat([timbre[:128], manner[128:]])[None].to(DEVICE)
        tokens = torch.tensor([[0, *job["tokens"], 0]]).to(DEVICE)
        speed = torch.tensor([job["speed"]]).to(DEVICE)
        made = graph(tokens=tokens, style=style, speed=speed).reshape(-1)
        return resampled(made, MADE_AT).cpu().numpy()

    return speak


def joined(root: Path) -> Speaker:
    """A voice of the Debian package `flite`, unpacked under `root`."""
    library = root / "usr/lib/x86_64-linux-gnu"
    environment = {**os.environ, "LD_LIBRARY_PATH": str(library)}
    made = Path(f"/tmp/spoken-{os.getpid()}.wav")

    def speak(job: Job) -> Sound:
        (voice,) = job["voice"]
        settings = [f"duration_stretch={job['speed']}", f"int_f0_target_mean={job['pitch']}"]
        command = [str(root / "usr/bin/flite"), "-voice", voice]
        command += [part for each in settings for part in ("--setf", each)]
        command += ["-t", job["text"] + ".", "-o", str(made)]
        subprocess.run(command, env=environment, check=True, capture_output=True, timeout=20)
        content = made.read_bytes()
        rate = int.from_bytes(content[24:28], "little")
        values = np.frombuffer(content[44 : len(content) // 2 * 2], "<i2").astype(np.float32)
        return resampled(torch.from_numpy(values), rate).numpy()

    return speak


def trimmed(values: Sound) -> Sound:
    """The sound without the quiet at its ends."""
    blocks = np.abs(values[: len(values) // 160 * 160].reshape(-1, 160)).max(1)
    (loud,) = np.nonzero(blocks > blocks.max(initial=0) * 0.01)
    if not len(loud):
        return values
    return values[max(0, loud[0] * 160 - 320) : loud[-1] * 160 + 800]


def _spoken(jobs: list[Job], speak: Speaker, until: float) -> Iterator[tuple[Job, Sound]]:
    for job in jobs:
        if time.time() > until:
            return
        try:
            values = trimmed(np.nan_to_num(speak(job)))
        except (RuntimeError, OSError, subprocess.SubprocessError, IndexError, KeyError) as error:
            sys.stdout.write(f"not spoken: {job['text']}: {error!r:.200}\n")
            continue
        if SHORTEST_SAMPLES < len(values) < LONGEST_SAMPLES and np.abs(values).max() > 1e-3:
            yield job, (values / np.abs(values).max() * PEAK).astype(np.int16)


def _write(shard: list[tuple[Job, Sound]], path: Path) -> None:
    draft = path.with_suffix(".draft.npz")
    np.savez(
        draft,
        sound=np.concatenate([values for _, values in shard]),
        lengths=np.array([len(values) for _, values in shard]),
        texts=np.array([job["text"] for job, _ in shard]),
        engines=np.array(["held" if job["held"] else job["engine"] for job, _ in shard]),
        speakers=np.array(["+".join(job["voice"]) for job, _ in shard]),
    )
    draft.rename(path)


def work(place: int, given: argparse.Namespace) -> None:
    """One process: its share of the jobs of one engine."""
    torch.set_num_threads(1)
    if (cards := torch.cuda.device_count()) > 1:
        # The first is left to a training run that reads what is made here.
        torch.cuda.set_device(1 + place % (cards - 1))
    engine = "flite" if place >= given.workers else "kokoro"
    first, step = (
        (place - given.workers, FLITE_WORKERS) if engine == "flite" else (place, given.workers)
    )
    lines = (given.folder / "jobs.jsonl").read_text().splitlines()
    mine = [job for job in map(json.loads, lines) if job["engine"] == engine][first::step]
    mine.sort(key=lambda job: not job["held"])
    speak = joined(given.flite) if engine == "flite" else neural(given.folder)
    began, shard, number, seconds = time.time(), [], 0, 0.0
    for job, values in _spoken(mine, speak, given.until):
        shard.append((job, values))
        seconds += len(values) / RATE
        if len(shard) == SHARD:
            _write(shard, given.sound / f"{engine}-{place}-{number}.npz")
            shard, number = [], number + 1
    if shard:
        _write(shard, given.sound / f"{engine}-{place}-{number}.npz")
    spent = time.time() - began
    sys.stdout.write(f"{engine} {place}: {seconds / 3600:.2f} h in {spent:.0f} s\n")


def main() -> None:
    """Start the processes and wait for them."""
    reader = argparse.ArgumentParser(description=__doc__)
    reader.add_argument("folder", type=Path)
    reader.add_argument("sound", type=Path)
    reader.add_argument("seconds", type=float)
    reader.add_argument("--workers", type=int, default=12)
    reader.add_argument("--flite", type=Path, default=Path("/"))
    given = reader.parse_args()
    given.until = time.time() + given.seconds
    given.sound.mkdir(parents=True, exist_ok=True)
    processes.spawn(work, (given,), nprocs=given.workers + FLITE_WORKERS)


if __name__ == "__main__":
    main()
