"""How long it takes to list many jobs in a new process, as a person does it. Not a test.

`python tests/jobs/bench_list.py [JOBS]`. Each job has five boxes of five statements, closed.
"""

from __future__ import annotations

import contextlib
import os
import subprocess
import sys
import tempfile
import time

from boxaloud.assistant.storage import Session, repository
from boxaloud.assistant.storage.sqlite.journal_file import JobFile

SAID = ("next box room {}", "three 14-2 cables", "a receptacle", "18 cubic inches", "no clamps")


def main() -> None:
    jobs = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    with tempfile.TemporaryDirectory(dir=os.environ.get("BENCH_FOLDER")) as folder:
        os.environ["BOXALOUD_DATA"] = folder
        session = Session.start("Job 0")
        for number in range(5):
            for words in SAID:
                session.hear(words.format(number))
        session.close()
        first = repository.find("Job 0").path
        with contextlib.closing(JobFile.open(first)) as file:
            for number in range(1, jobs):
                file.copy_to(first.with_name(f"job-{number}.boxaloud"), {"name": f"Job {number}"})
        command = [
            sys.executable,
            "-c",
            "from boxaloud.assistant.cli.start import main; main()",
            "job",
            "list",
        ]
        for _ in range(3):
            began, before = time.perf_counter(), sum(os.times()[2:4])
            listed = subprocess.run(command, capture_output=True, check=True).stdout
            spent = time.perf_counter() - began
            used = sum(os.times()[2:4]) - before
            count = len(listed.splitlines())
            sys.stdout.write(f"{count} jobs: {spent:.2f} s, {used:.2f} s of processor time\n")


if __name__ == "__main__":
    main()
