"""What the speakers said that were never trained on, into one file, for `fit_acceptance.py --kept`.

    python collect.py SOUND OUT.npz [--seconds 500]

`SOUND` is the folder of shards that `synthesise.py` wrote. The file is read by `kept_voices.py`.
"""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

import numpy as np
from synthesise import RATE


def main() -> None:
    """Write the file."""
    reader = argparse.ArgumentParser(description=__doc__)
    reader.add_argument("sound", type=Path)
    reader.add_argument("out", type=Path)
    reader.add_argument("--seconds", type=float, default=500)
    given = reader.parse_args()
    kept: list[tuple[np.ndarray, str, str]] = []
    samples = 0
    for path in sorted(given.sound.glob("*.npz")):
        with np.load(path) as shard:
            parts = np.split(shard["sound"], np.cumsum(shard["lengths"])[:-1])
            rows = zip(parts, shard["texts"], shard["speakers"], shard["engines"], strict=True)
            for part, text, speaker, engine in rows:
                if engine == "held" and samples + len(part) < given.seconds * RATE:
                    samples += len(part)
                    kept.append((part, str(text), str(speaker)))
    np.savez_compressed(
        given.out,
        sound=np.concatenate([part for part, _, _ in kept]),
        lengths=np.array([len(part) for part, _, _ in kept]),
        texts=np.array([text for _, text, _ in kept]),
        speakers=np.array([speaker for _, _, speaker in kept]),
    )
    sys.stdout.write(f"{len(kept)} utterances, {samples / RATE:.0f} s\n")


if __name__ == "__main__":
    main()
