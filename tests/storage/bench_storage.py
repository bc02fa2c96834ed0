"""How long a job of 2,000 boxes takes to open, to add to, and to report. Not a test.

`python tests/storage/bench_storage.py [BOXES]`. Five statements a box, talked in one by one, so
that building the job is itself the measure of adding.
"""

from __future__ import annotations

import os
import random
import sys
import tempfile
import time
from pathlib import Path

from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.reports import job_report
from boxaloud.assistant.reports.report_export import write
from boxaloud.assistant.storage import Session


def said(number: int, chance: random.Random) -> list[str]:
    size = chance.choice((14, 12))
    return [
        f"next box room {number} east",
        f"{chance.randint(2, 5)} {size}-2 cables",
        "a receptacle",
        f"{chance.randint(120, 420) / 10} cubic inches",
        chance.choice(("no clamps", "clamps inside")),
    ]


def share(times: list[float], part: float) -> float:
    return sorted(times)[min(len(times) - 1, int(len(times) * part))] * 1000


def main() -> None:
    boxes = int(sys.argv[1]) if len(sys.argv) > 1 else 2000
    chance, put = random.Random(3), sys.stdout.write
    with tempfile.TemporaryDirectory(dir=os.environ.get("BENCH_FOLDER")) as folder:
        os.environ["BOXALOUD_DATA"] = folder
        Conversation().hear("two 14-2 cables")
        session, times = Session.start("Bench"), []
        for number in range(boxes):
            for words in said(number, chance):
                began = time.perf_counter()
                session.hear(words)
                times.append(time.perf_counter() - began)
        session.close()
        put(
            f"{len(times)} statements in {boxes} boxes: median {share(times, 0.5):.1f} ms, "
            f"99th percentile {share(times, 0.99):.1f} ms, worst {max(times) * 1000:.1f} ms\n"
        )
        began = time.perf_counter()
        session = Session.open("Bench")
        session.resume()
        put(f"open: {time.perf_counter() - began:.2f} s\n")
        times = []
        for number in range(400):
            began = time.perf_counter()
            session.hear("one more receptacle" if number % 2 else "undo")
            times.append(time.perf_counter() - began)
        put(
            f"adding to it: median {share(times, 0.5):.1f} ms, "
            f"99th percentile {share(times, 0.99):.1f} ms\n"
        )
        began = time.perf_counter()
        session.hear("how many boxes are over")
        put(f"how many are over: {time.perf_counter() - began:.2f} s\n")
        began = time.perf_counter()
        report = job_report(session.conversation, "Bench")
        gathered = time.perf_counter() - began
        for form in ("html", "pdf", "csv", "json"):
            began = time.perf_counter()
            write(report, Path(folder) / f"bench.{form}")
            spent = time.perf_counter() - began + gathered
            size = (Path(folder) / f"bench.{form}").stat().st_size
            put(f"{form}: {spent:.1f} s, of which gathering {gathered:.1f} s; {size:,} bytes\n")


if __name__ == "__main__":
    main()
