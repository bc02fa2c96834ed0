"""How long the command takes from its start to its end, as whole processes. Not a test.

Run: python tests/cli/bench_start.py [RUNS]   The first run of each is not counted, and
compiled modules are kept between runs, as they are for a user. Where nothing else runs, the
median is to be quoted; the least tells how far others disturbed it.
"""

from __future__ import annotations

import os
import statistics
import subprocess
import sys
import tempfile
import time

BOX = "two 14-2 cables, one switch, no clamps inside, 18 cubic inch box"
COMMAND = ("-c", "from boxaloud.assistant.cli.start import main; main()")
CASES: list[tuple[str, tuple[str, ...], str]] = [
    ("Python alone", ("-c", "pass"), ""),
    ("boxaloud --version", (*COMMAND, "--version"), ""),
    ("boxaloud --help", (*COMMAND, "--help"), ""),
    (
        "boxaloud check, what it imports",
        (
            "-c",
            "from boxaloud.assistant.cli import main\n"
            "from boxaloud.assistant.cli.commands import check_command",
        ),
        "",
    ),
    ("boxaloud check, one box", (*COMMAND, "check", BOX), ""),
    ("boxaloud chat, one line", (*COMMAND, "chat"), BOX + "\n"),
    ("boxaloud job list, none kept", (*COMMAND, "job", "list"), ""),
]


def once(args: tuple[str, ...], said: str) -> float:
    began = time.perf_counter()
    done = subprocess.run([sys.executable, *args], input=said, capture_output=True, text=True)
    took = time.perf_counter() - began
    if done.returncode:
        raise SystemExit(f"{args}: {done.stderr}")
    return took


def main() -> None:
    runs = int(sys.argv[1]) if len(sys.argv) > 1 else 15
    with tempfile.TemporaryDirectory() as folder:
        os.environ["BOXALOUD_DATA"] = folder
        os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
        for name, args, said in CASES:
            once(args, said)
            took = [once(args, said) for _ in range(runs)]
            sys.stdout.write(
                f"{name:32s} median {statistics.median(took):.3f} s, "
                f"least {min(took):.3f}, most {max(took):.3f}\n"
            )


if __name__ == "__main__":
    main()
