"""How many boxes a second `batch` does, and how much memory it takes. Not a test.

`python tests/batch/bench_batch.py [ROWS]` makes up files of ROWS structured rows (50,000 if not
told) and a tenth as many in plain English, all different, works each out as `boxaloud batch`
does in a process of its own, and prints boxes a second and peak memory, at a tenth of the
rows and at all of them: memory that grows with the rows would show.
"""

from __future__ import annotations

import json
import random
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

DEVICES = ("receptacle", "switch", "three-way switch", "dimmer", "gfci receptacle")


def columns(count: int) -> Iterator[dict[str, Any]]:
    chance = random.Random(1)
    for number in range(count):
        size = chance.choice((14, 12))
        yield {
            "name": f"box {number}",
            "volume": f"{chance.randint(120, 420) / 10}",
            "cables": f"{chance.randint(1, 4)} x {size}-2; {chance.randint(1, 2)} x {size}-3",
            "devices": f"{chance.choice(DEVICES)} on {size}",
            "clamps": chance.choice(("inside", "outside", "none", "unknown")),
            "edition": chance.choice(("2014", "2017", "2020", "2023")),
        }


def english(count: int) -> Iterator[dict[str, Any]]:
    chance = random.Random(2)
    for number in range(count):
        size = chance.choice((14, 12))
        volume = chance.randint(120, 420) / 10
        yield {
            "name": f"box {number}",
            "says": (
                f"{chance.randint(2, 5)} {size}-2 cables and one {chance.choice(DEVICES)}; "
                f"{volume} cubic inches; {chance.choice(('no clamps', 'clamps inside'))}"
            ),
        }


def written(kind: str, rows: Iterator[dict[str, Any]], path: Path) -> None:
    with path.open("w", encoding="utf-8") as out:
        if kind == "csv":
            import csv

            first = next(rows)
            sheet = csv.DictWriter(out, list(first))
            sheet.writeheader()
            sheet.writerow(first)
            sheet.writerows(rows)
        for row in rows if kind != "csv" else ():
            if kind == "jsonl":
                out.write(json.dumps(row) + "\n")
            else:
                pairs = [f"{key}: {json.dumps(value)}" for key, value in row.items()]
                out.write("- " + "\n  ".join(pairs) + "\n")


CHILD = """
import resource, sys, time
from pathlib import Path
from boxaloud.assistant.cli.commands import batch_command as front
from boxaloud.assistant.dialogue import Conversation
Conversation().hear("two 14-2 cables")
began = time.perf_counter()
front.run(Path(sys.argv[1]), Path(sys.argv[2]))
spent = time.perf_counter() - began
print(spent, resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)
"""


def timed(path: Path, out: Path) -> tuple[float, float]:
    done = subprocess.run(
        [sys.executable, "-c", CHILD, str(path), str(out)],
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    spent, memory = map(float, done.stdout.split())
    return spent, memory


def main() -> None:
    rows = int(sys.argv[1]) if len(sys.argv) > 1 else 50_000
    with tempfile.TemporaryDirectory() as folder:
        for name, make, share in (("columns", columns, 1), ("plain English", english, 10)):
            for kind in ("csv", "jsonl", "yaml"):
                for count in (rows // share // 10, rows // share):
                    path = Path(folder) / f"rows.{kind}"
                    written(kind, make(count), path)
                    spent, memory = timed(path, Path(folder) / f"out.{kind}")
                    sys.stdout.write(
                        f"{name:14} {kind:6} {count:7} rows {count / spent:9,.0f} a second "
                        f"{memory:6.0f} MiB at most\n"
                    )


if __name__ == "__main__":
    main()
