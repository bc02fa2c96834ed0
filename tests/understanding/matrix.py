"""Prints the matrix of capabilities by kinds of test: `python tests/understanding/matrix.py`.

`--show` lists what was not right, an unsafe one (an over or open box said to fit) first.
"""

from __future__ import annotations

import sys

from cells import TESTS, capabilities, cell
from trial import Trial


def share(trials: tuple[Trial, ...]) -> str:
    """The share that is right, of how many."""
    if not trials:
        return "-"
    right = sum(not trial.fault for trial in trials)
    return f"{100 * right / len(trials):.0f} % of {len(trials)}"


def main() -> None:
    """Print every cell, then the sums."""
    width = max(map(len, capabilities()))
    print(" " * width, *(f"{test:>16}" for test in TESTS))  # noqa: T201
    for capability in capabilities():
        cells = (share(cell(capability, test)) for test in TESTS)
        print(f"{capability:{width}}", *(f"{one:>16}" for one in cells))  # noqa: T201
    sums = [sum((cell(one, test) for one in capabilities()), ()) for test in TESTS]
    print(f"{'all':{width}}", *(f"{share(one):>16}" for one in sums))  # noqa: T201
    unsafe = sum(trial.unsafe for one in sums for trial in one)
    print(f"over or open, and said to fit: {unsafe}")  # noqa: T201
    if "--show" in sys.argv:
        for test, one in zip(TESTS, sums, strict=True):
            wrong = sorted((t for t in one if t.fault), key=lambda trial: not trial.unsafe)
            for trial in wrong:
                mark = "UNSAFE " if trial.unsafe else ""
                print(f"{mark}{test} | {trial.name} | {trial.fault}")  # noqa: T201


if __name__ == "__main__":
    main()
