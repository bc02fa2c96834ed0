"""Speak, train and export by one command on a machine with a GPU.

    python run.py FOLDER OUT --speak 400 --train 1200 [--flite ROOT]

`FOLDER` is what `prepare.py` wrote, with the synthesiser's parts joined to `kokoro.onnx` in it.
Voices are spoken while the training has already begun. Every minute the weights of the moment are
written to `OUT`, so that a machine that is taken away leaves something.
"""

from __future__ import annotations

import argparse
import subprocess
import sys
from pathlib import Path

HERE = Path(__file__).parent
NEEDED = ("jobs.jsonl", "kokoro.onnx", "styles.npz", "encoder.npz", "mel.npy")
SOUND = Path("/tmp/boxaloud-spoken-for-training")


def missing(folder: Path, flite: Path) -> list[str]:
    """What is not there, or empty."""
    paths = [folder / name for name in NEEDED] + [flite / "usr/bin/flite"]
    return [str(path) for path in paths if not path.exists() or not path.stat().st_size]


def main() -> None:
    """Run the three steps."""
    reader = argparse.ArgumentParser(description=__doc__)
    reader.add_argument("folder", type=Path)
    reader.add_argument("out", type=Path)
    reader.add_argument("--speak", type=int, default=400)
    reader.add_argument("--train", type=int, default=1200)
    reader.add_argument("--workers", type=int, default=12)
    reader.add_argument("--flite", type=Path, default=Path("/"))
    given = reader.parse_args()
    lacking = missing(given.folder, given.flite)
    if lacking:
        sys.exit(f"Not there, or empty: {', '.join(lacking)}. Nothing was begun.")
    given.out.mkdir(parents=True, exist_ok=True)

    def command(script: str, *arguments: object) -> list[str]:
        return [sys.executable, "-u", str(HERE / script), *map(str, arguments)]

    speaking = subprocess.Popen(
        command(
            "synthesise.py",
            given.folder,
            SOUND,
            given.speak,
            "--workers",
            given.workers,
            "--flite",
            given.flite,
        )
    )
    weights = given.out / "ear.pt"
    try:
        subprocess.run(command("train.py", given.folder, SOUND, weights, given.train), check=True)
        subprocess.run(command("export.py", weights, given.out / "letters.npz"), check=True)
    finally:
        speaking.kill()


if __name__ == "__main__":
    main()
