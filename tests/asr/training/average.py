"""The mean of several runs' weights that began at the same ones: hears better than each of them.

    python average.py OUT.pt FIRST.pt SECOND.pt …

(Wortsman and others, 2022, "Model soups", section 2.)
"""

from __future__ import annotations

import argparse
from pathlib import Path

import torch


def averaged(states: list[dict[str, torch.Tensor]]) -> dict[str, torch.Tensor]:
    """The mean of each array, in half precision."""
    return {
        name: (sum(state[name].float() for state in states) / len(states)).half()
        for name in states[0]
    }


def main() -> None:
    """Write the mean."""
    reader = argparse.ArgumentParser(description=__doc__)
    reader.add_argument("out", type=Path)
    reader.add_argument("runs", type=Path, nargs="+")
    given = reader.parse_args()
    torch.save(averaged([torch.load(run, map_location="cpu") for run in given.runs]), given.out)


if __name__ == "__main__":
    main()
