"""How long a large job's report takes to write, in each form, and its greatest memory. Not a test.

`python tests/reports/bench_reports.py [BOXES] [FORM…]`. The boxes are those of the demonstration
again and again, each under a name of its own, so that only writing is timed.
"""

from __future__ import annotations

import itertools
import os
import sys
import tempfile
import time
import tracemalloc
from dataclasses import replace
from pathlib import Path

from boxaloud.assistant.reports import JobReport, job_report
from boxaloud.assistant.reports.report_export import write
from boxaloud.assistant.storage.demo_job import build


def many(boxes: int) -> JobReport:
    session = build()
    found = job_report(session.conversation, "Bench", "in3", "2026-01-02", "2026-01-03")
    session.close()
    some = itertools.islice(itertools.cycle(found.boxes), boxes)
    return replace(found, boxes=tuple(replace(b, name=f"room {n}") for n, b in enumerate(some, 1)))


def main() -> None:
    boxes = int(sys.argv[1]) if len(sys.argv) > 1 else 20_000
    with tempfile.TemporaryDirectory() as folder:
        os.environ["BOXALOUD_DATA"] = folder
        report = many(boxes)
        for form in sys.argv[2:] or ("html", "csv", "json"):
            path = Path(folder) / f"bench.{form}"
            began, worked = time.perf_counter(), time.process_time()
            write(report, path)
            wall, busy = time.perf_counter() - began, time.process_time() - worked
            peak = "not measured"
            if form != "pdf":
                tracemalloc.start()
                write(report, path)
                peak = f"{tracemalloc.get_traced_memory()[1] / 1e6:.1f} MB"
                tracemalloc.stop()
            sys.stdout.write(
                f"{form}: {boxes} boxes, {wall:.1f} s ({busy:.1f} s of processor time), "
                f"{path.stat().st_size:,} bytes, memory at most {peak}\n"
            )


if __name__ == "__main__":
    main()
