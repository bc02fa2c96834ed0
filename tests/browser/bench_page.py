"""What the page that stands alone costs on a slow phone. By hand, on a quiet machine:

    python tests/browser/bench_page.py [--slower 4] [--starts 5]

The whole browser is slowed, its workers too: it is stopped for three quarters of every 20
milliseconds, which is four times slower. Figures are milliseconds from the page's own clock.
"""

from __future__ import annotations

import argparse
import os
import signal
import statistics
import sys
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from boxaloud.assistant.web.folder_build import build
from driving import FLAGS, FULL, PATIENCE_MS, StaticHost, chromium
from playwright.sync_api import BrowserContext, Page, sync_playwright

SLICE_SECONDS = 0.02
STAY_SECONDS = 4.0
"""How long the first visit goes on: a browser keeps what it compiled some seconds after it did."""
TYPING_MS = 1500
"""Nobody says anything sooner than this after the first answer is there."""
TURNS = ("two 14-2 cables", "one receptacle", "no, two receptacles", "18 cubic inch box", "undo",
         "clamps inside", "what if the clamps were outside", "how do I make it fit")  # fmt: skip
PHONE = {"viewport": {"width": 390, "height": 844}, "has_touch": True, "is_mobile": True}


def processes(profile: Path) -> list[int]:
    """The browser's own processes: those that name its profile, and their children."""
    parents: dict[int, int] = {}
    roots = []
    for entry in Path("/proc").iterdir():
        with suppress(OSError, ValueError, IndexError):
            pid = int(entry.name)
            parents[pid] = int((entry / "stat").read_text().rsplit(")", 1)[1].split()[1])
            if str(profile).encode() in (entry / "cmdline").read_bytes():
                roots.append(pid)
    found = set(roots)
    for pid in parents:
        above = pid
        while above in parents and above not in found:
            above = parents[above]
        if above in found:
            found.add(pid)
    return sorted(found)


@contextmanager
def slowed(profile: Path, times: float) -> Iterator[None]:
    """Give the browser one part in so many of the time."""
    if times <= 1:
        yield
        return
    over = threading.Event()

    def hold() -> None:
        look, known = 0.0, list[int]()
        while not over.is_set():
            if time.monotonic() > look:
                known, look = processes(profile), time.monotonic() + 0.25
            send(known, signal.SIGSTOP)
            time.sleep(SLICE_SECONDS * (1 - 1 / times))
            send(known, signal.SIGCONT)
            time.sleep(SLICE_SECONDS / times)
        send(processes(profile), signal.SIGCONT)

    thread = threading.Thread(target=hold, daemon=True)
    thread.start()
    try:
        yield
    finally:
        over.set()
        thread.join()


def send(known: list[int], what: int) -> None:
    for pid in known:
        with suppress(ProcessLookupError):
            os.kill(pid, what)


def memory_mb(profile: Path) -> float:
    """What the page's process holds of its own, its worker with it, in megabytes (10^6): the
    largest of the browser's renderers, the others being its empty pages."""
    sizes = [0]
    for pid in processes(profile):
        with suppress(OSError):
            if b"--type=renderer" in Path(f"/proc/{pid}/cmdline").read_bytes():
                lines = Path(f"/proc/{pid}/smaps_rollup").read_text().splitlines()
                own = [int(line.split()[1]) for line in lines if line.startswith("Private_")]
                sizes.append(sum(own[:2]) * 1024)
    return max(sizes) / 1e6


def begun(context: BrowserContext, url: str) -> tuple[Page, float]:
    """The page with its first answer, and milliseconds from the navigation to it."""
    page = context.new_page()
    page.goto(url)
    page.wait_for_selector("html[data-ready]", timeout=PATIENCE_MS)
    return page, page.evaluate("performance.now()")


TURN = """async (words) => {
  const field = document.getElementById('words');
  field.value = words;
  const began = performance.now();
  document.getElementById('talk-form').requestSubmit();
  await new Promise((done) => {
    const look = new MutationObserver(() => {
      if (document.getElementById('heard').textContent !== words) return;
      look.disconnect();
      done();
    });
    const all = { childList: true, subtree: true, characterData: true };
    look.observe(document.getElementById('said'), all);
  });
  return performance.now() - began;
}"""


def measured(slower: float, starts: int) -> Iterator[tuple[str, str]]:
    place = Path(tempfile.mkdtemp())
    sizes = build(place / "site")
    yield "first download, bytes", f"{sizes.first:,}"
    yield "the ear, bytes, where it is wanted", f"{sizes.ear:,}"
    host = StaticHost(place / "site")
    profile = place / "profile"
    with sync_playwright() as driver:

        def browser() -> BrowserContext:
            return driver.chromium.launch_persistent_context(
                str(profile),
                executable_path=chromium(),
                args=FLAGS,
                **PHONE,  # type: ignore[arg-type]
            )

        context = browser()
        page, first = begun(context, host.url)
        yield "first visit to first answer, not slowed", f"{first:.0f} ms"
        for words in (FULL, *TURNS):
            page.evaluate(TURN, words)
        time.sleep(STAY_SECONDS)
        context.close()
        host.off()
        alone, memories = [], list[float]()
        for _ in range(starts):
            context = browser()
            alone.append(begun(context, host.url)[1])
            context.close()
        yield "later start to first answer, no network, not slowed", told(alone)
        slow, turns = [], list[float]()
        for _ in range(starts):
            context = browser()
            time.sleep(STAY_SECONDS)  # the browser's own start is not the page's
            with slowed(profile, slower):
                page, start = begun(context, host.url)
                slow.append(start)
                page.wait_for_timeout(TYPING_MS)
                turns += [page.evaluate(TURN, words) for words in (FULL, *TURNS)]
            memories.append(memory_mb(profile))
            context.close()
        yield f"later start to first answer, no network, {slower:g}x slower", told(slow)
        yield f"a turn, {slower:g}x slower, the first one with them", told(turns)
        largest = f"{max(memories):.0f} MB"
        yield "memory of the page and its worker, the largest", largest
        yield "load of the machine, which should be near none", f"{os.getloadavg()[0]:.1f}"


def told(times: list[float]) -> str:
    return f"median {statistics.median(times):.0f} ms, worst {max(times):.0f} ms of {len(times)}"


if __name__ == "__main__":
    options = argparse.ArgumentParser()
    options.add_argument("--slower", type=float, default=4.0)
    options.add_argument("--starts", type=int, default=5)
    given = options.parse_args()
    for what, figure in measured(given.slower, given.starts):
        sys.stdout.write(f"{what}: {figure}\n")
        sys.stdout.flush()
