"""A thousand random boxes at 0, 5, 10 and 20 % word errors; prints the measures.

Run in tests/dialogue: python -m electrician.thousand [boxes] [--plain]

`--plain` leaves out what is not telling, and lets the ear only swap words. Every silently wrong
verdict is printed with its transcript.
"""

from __future__ import annotations

import sys

from electrician.measures import Outcome, report

LEVELS = (0.0, 0.05, 0.1, 0.2)


def main() -> None:
    numbers = [int(each) for each in sys.argv[1:] if each.isdigit()]
    plain = "--plain" in sys.argv
    for errors in LEVELS:
        made, found = report(errors, range(numbers[0] if numbers else 1000), plain)
        print(made, flush=True)  # noqa: T201
        for seed, one in enumerate(found):
            if one.accepted and not one.right:
                _show(seed, one)


def _show(seed: int, wrong: Outcome) -> None:
    """A silently wrong verdict: the transcript, to be read."""
    print(f"-- silently wrong, seed {seed}")  # noqa: T201
    for said, heard, reply in wrong.log:
        print(f"> {said}\n* {heard}\n< {reply}")  # noqa: T201


if __name__ == "__main__":
    main()
