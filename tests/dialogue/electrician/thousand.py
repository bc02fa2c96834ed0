"""A thousand random boxes at 0, 5, 10 and 20 % word errors; prints the measures.

Run in tests/dialogue: python -m electrician.thousand [boxes]
"""

from __future__ import annotations

import sys

from electrician.measures import report

LEVELS = (0.0, 0.05, 0.1, 0.2)


def main() -> None:
    boxes = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    for errors in LEVELS:
        made, _ = report(errors, range(boxes))
        print(made, flush=True)  # noqa: T201


if __name__ == "__main__":
    main()
