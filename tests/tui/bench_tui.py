"""Times the screen: key press to repaint with 500 boxes, start to first paint, memory.

Run it by hand: `python tests/tui/bench_tui.py`. Targets: 50 ms at the 95th percentile,
600 ms with warm caches, 150 MB without an engine loaded. Nothing here is a test.
"""

from __future__ import annotations

import asyncio
import os
import pty
import re
import resource
import select
import statistics
import struct
import subprocess
import sys
import tempfile
import time
from fcntl import ioctl
from pathlib import Path
from termios import TIOCSWINSZ

BOXES = 500
STARTS = 9
WARM = 1.5
"""Seconds before the first key: the app builds its grammar behind the first picture."""
PER_BOX = ("two 14-2 cables and one switch", "18 cubic inch box", "no clamps")
KEYS = ("down", "up", "pagedown", "home", "end", "f4", "down", "f3", "plus", "minus", "f5")
"""Moves in the lists, and two that change the box and keep it."""


def kept_job(folder: Path) -> None:
    """A job of 500 finished boxes on the disk."""
    from boxaloud.assistant.storage import Session

    session = Session.start("bench")
    for number in range(BOXES):
        if number:
            session.hear("next box")
        for words in PER_BOX:
            session.hear(words)
    session.close()
    assert folder.exists()


async def key_times() -> tuple[list[tuple[float, float]], list[tuple[float, float]]]:
    """Milliseconds from a key to the screen repainted: lists, and typed sentences.

    Each is the time by the clock, and what of it this process worked: on a busy machine the
    two are far apart.
    """
    from boxaloud.assistant.tui.app import BoxaloudApp
    from boxaloud.assistant.tui.session_adapter import JobDesk

    app = BoxaloudApp(JobDesk("bench"))
    moved, said = [], []
    async with app.run_test(size=(120, 36)) as pilot:
        await pilot.pause(WARM)
        await pilot.press("f5")
        for key in KEYS * 20:
            moved.append(await _pressed(app, key))
        for turn in range(100):
            await pilot.press("escape")
            entry = app.card.query_one("#entry")
            entry.value = "one more switch" if turn % 2 else "take off one switch"  # type: ignore[attr-defined]
            said.append(await _pressed(app, "enter"))
    return moved, said


async def _pressed(app: object, key: str) -> tuple[float, float]:
    """Post a key as the driver does and wait until nothing is left to handle or to paint."""
    from boxaloud.assistant.tui.app import BoxaloudApp
    from textual import events

    assert isinstance(app, BoxaloudApp)
    characters = {"plus": "+", "minus": "-"}
    painted = asyncio.Event()
    begun, worked = time.perf_counter(), time.process_time()
    app.post_message(events.Key(key, characters.get(key)))
    while True:
        await asyncio.sleep(0)
        app.screen.call_after_refresh(painted.set)
        await painted.wait()
        if app._message_queue.empty() and app.screen._message_queue.empty():
            break
        painted.clear()
    list(app.screen._compositor.render_strips())
    return (time.perf_counter() - begun) * 1000, (time.process_time() - worked) * 1000


def first_paint(folder: Path) -> tuple[float, float, float]:
    """Milliseconds from exec to the caption on a real terminal, of it worked, and peak MB."""
    master, slave = pty.openpty()
    ioctl(slave, TIOCSWINSZ, struct.pack("HHHH", 36, 120, 0, 0))
    environment = {**os.environ, "BOXALOUD_DATA": str(folder), "TERM": "xterm-256color"}
    begun = time.perf_counter()
    child = subprocess.Popen(
        [sys.executable, "-c", "from boxaloud.assistant.cli.start import main; main()"],
        stdin=slave,
        stdout=slave,
        stderr=slave,
        env=environment,
        start_new_session=True,
    )
    os.close(slave)
    seen = b""
    while b"margin" not in seen:
        ready, _, _ = select.select([master], [], [], 20)
        if not ready:
            raise SystemExit(f"nothing was painted: {seen[-300:]!r}")
        seen += os.read(master, 65536)
    took = (time.perf_counter() - begun) * 1000
    status = Path(f"/proc/{child.pid}/status").read_text()
    peak = int(re.findall(r"VmHWM:\s+(\d+)", status)[0]) / 1024
    fields = Path(f"/proc/{child.pid}/stat").read_text().rsplit(")", 1)[1].split()
    worked = (int(fields[11]) + int(fields[12])) * 1000 / os.sysconf("SC_CLK_TCK")
    os.write(master, b"\x11")
    _drain(master, child)
    return took, worked, peak


def _drain(master: int, child: subprocess.Popen[bytes]) -> None:
    while child.poll() is None:
        ready, _, _ = select.select([master], [], [], 0.1)
        if ready:
            try:
                os.read(master, 65536)
            except OSError:
                break
    child.wait()
    os.close(master)


def p95(values: list[float]) -> float:
    """The 95th percentile."""
    return statistics.quantiles(values, n=20)[-1]


def line(name: str, values: list[float], unit: str) -> str:
    """A row of the report."""
    middle, most = statistics.median(values), max(values)
    return f"{name}: median {middle:.1f}, p95 {p95(values):.1f}, most {most:.1f} {unit}"


def put(words: str) -> None:
    """One line of the report."""
    sys.stdout.write(words + "\n")
    sys.stdout.flush()


def main() -> None:
    """Print the report."""
    with tempfile.TemporaryDirectory() as temporary:
        folder = Path(temporary) / "data"
        os.environ["BOXALOUD_DATA"] = str(folder)
        kept_job(folder)
        moved, said = asyncio.run(key_times())
        for name, times in (("key in a list", moved), ("sentence, kept on disk,", said)):
            put(line(f"{name} to repaint", [clock for clock, _ in times], "ms"))
            put(line("  of it processor time", [worked for _, worked in times], "ms"))
        starts = [first_paint(folder) for _ in range(STARTS)]
        put(line("start to first paint", [took for took, _, _ in starts], "ms"))
        put(line("  of it processor time", [worked for _, worked, _ in starts], "ms"))
        put(line("peak memory at first paint", [peak for _, _, peak in starts], "MB"))
        put(f"this process: {resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MB")


if __name__ == "__main__":
    main()
