"""The mean of several runs' weights that began at the same ones: hears better than each of them.

    python average.py OUT.pt FIRST SECOND …

Each is what a run wrote, or a file of the product.
(Wortsman and others, 2022, "Model soups", section 2.)
"""

from __future__ import annotations

import argparse
from pathlib import Path

import torch
from model import stored_state


def averaged(states: list[dict[str, torch.Tensor]]) -> dict[str, torch.Tensor]:
    """The mean of each array that all have, in half precision."""
    common = [name for name in states[0] if all(name in state for state in states)]
    many = len(states)
    return {name: (sum(one[name].float() for one in states) / many).half() for name in common}


def main() -> None:
    """Write the mean."""
    reader = argparse.ArgumentParser(description=__doc__)
    reader.add_argument("out", type=Path)
    reader.add_argument("runs", type=Path, nargs="+")
    given = reader.parse_args()
    torch.save(averaged([stored_state(run) for run in given.runs]), given.out)


if __name__ == "__main__":
    main()
