"""Speak, train and export by one command on a machine with one GPU or several.

    python run.py FOLDER OUT --speak 480 --train 1300 [--start WEIGHTS] [--flite ROOT]

`FOLDER` is what `prepare.py` wrote, with the synthesiser's parts joined to `kokoro.onnx` in it.
Voices are spoken while the training has already begun on the first GPU; the others speak, and
train with other seeds when all is said. Every minute the weights of the moment are written to
`OUT`, so that a machine that is taken away leaves something. At the end the mean of all runs is
exported, and, where they began at a file of the product, the mean of that and of them.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
import time
from pathlib import Path

import torch

HERE = Path(__file__).parent
NEEDED = ("jobs.jsonl", "kokoro.onnx", "styles.npz", "mel.npy")
SOUND = Path("/tmp/boxaloud-spoken-for-training")
#: What is being spoken when the time is over may still be said.
LAST_WORDS_SECONDS = 30
#: Runs on the GPUs that spoke see less of the sound for the time, and so take more of it at once.
LATER_BATCH = 320


def missing(given: argparse.Namespace) -> list[str]:
    """What is not there, or empty."""
    paths = [given.folder / name for name in NEEDED] + [given.flite / "usr/bin/flite"]
    paths.append(given.start or given.folder / "encoder.npz")
    return [str(path) for path in paths if not path.exists() or not path.stat().st_size]


def begun(script: str, *arguments: object, card: int | None = None) -> subprocess.Popen[bytes]:
    """A script of this folder at work, on one GPU alone if `card` names one."""
    only = {} if card is None else {"CUDA_VISIBLE_DEVICES": str(card)}
    command = [sys.executable, "-u", str(HERE / script), *map(str, arguments)]
    return subprocess.Popen(command, env={**os.environ, **only})


def training(given: argparse.Namespace, card: int, seconds: float) -> subprocess.Popen[bytes]:
    """A run on a GPU."""
    arguments = [given.folder, SOUND, given.out / f"ear{card}.pt", seconds, "--rate", given.rate]
    arguments += ["--seed", given.seed + card]
    arguments += ["--start", given.start] if given.start else []
    arguments += ["--batch", LATER_BATCH] if card else []
    return begun("train.py", *arguments, card=card)


def exported(given: argparse.Namespace, runs: list[Path]) -> None:
    """The mean of the runs, and that with what they began at, as files of the product."""
    begun("average.py", given.out / "mean.pt", *runs).wait()
    begun("export.py", given.out / "mean.pt", given.out / "letters.npz").wait()
    if given.start and given.start.suffix == ".npz":
        begun("average.py", given.out / "both.pt", given.out / "mean.pt", given.start).wait()
        begun("export.py", given.out / "both.pt", given.out / "letters-both.npz").wait()


def main() -> None:
    """Run the three steps."""
    reader = argparse.ArgumentParser(description=__doc__)
    reader.add_argument("folder", type=Path)
    reader.add_argument("out", type=Path)
    reader.add_argument("--speak", type=int, default=400)
    reader.add_argument("--train", type=int, default=1200)
    reader.add_argument("--workers", type=int, default=12)
    reader.add_argument("--flite", type=Path, default=Path("/"))
    reader.add_argument("--start", type=Path)
    reader.add_argument("--rate", type=float, default=5e-4)
    reader.add_argument("--seed", type=int, default=1)
    given = reader.parse_args()
    lacking = missing(given)
    if lacking:
        sys.exit(f"Not there, or empty: {', '.join(lacking)}. Nothing was begun.")
    given.out.mkdir(parents=True, exist_ok=True)
    over = time.time() + given.train
    said = ["--workers", given.workers, "--flite", given.flite]
    speaking = begun("synthesise.py", given.folder, SOUND, given.speak, *said)
    trained = [training(given, 0, given.train)]
    try:
        speaking.wait(given.speak + LAST_WORDS_SECONDS)
        left = over - time.time()
        trained += [training(given, card, left) for card in range(1, torch.cuda.device_count())]
        for run in trained:
            run.wait()
    finally:
        speaking.kill()
    runs = [path for card in range(len(trained)) if (path := given.out / f"ear{card}.pt").exists()]
    exported(given, runs)


if __name__ == "__main__":
    main()
