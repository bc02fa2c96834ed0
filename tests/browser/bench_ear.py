"""What the ear of the page that stands alone costs. By hand, on a quiet machine:

    python tests/browser/bench_ear.py [--slower 4] [--times 5]

A recording of 5.9 s is said to the page again and again while the key is held; what is measured is
from letting go of the key to the answer, in which the last of the sound is taken in too.
"""

from __future__ import annotations

import argparse
import os
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

from bench_page import PHONE, STAY_SECONDS, begun, memory_mb, slowed, told
from boxaloud.assistant.web.folder_build import build
from driving import FLAGS, PATIENCE_MS, StaticHost, chromium
from playwright.sync_api import BrowserContext, Page, expect, sync_playwright
from test_pocket_talking import SAID
from test_talking import seconds, with_silence

PRESS = "document.getElementById('mic').dispatchEvent(new PointerEvent('pointerdown'))"
LET_GO = """async () => {
  const hearing = document.getElementById('hearing');
  document.getElementById('mic').dispatchEvent(new PointerEvent('pointerup'));
  const began = performance.now();
  while (!hearing.hidden) await new Promise((done) => setTimeout(done, 5));
  return performance.now() - began;
}"""


def held(page: Page, profile: Path, times: int, slower: float = 1) -> list[float]:
    """Milliseconds from letting go to the answer; slowed from then on, as no microphone is."""
    found = []
    for _ in range(times):
        page.evaluate(PRESS)
        page.wait_for_timeout((seconds(SAID) + 2) * 1000)
        with slowed(profile, slower):
            found.append(page.evaluate(LET_GO))
    return found


def measured(slower: float, times: int) -> Iterator[tuple[str, str]]:
    place = Path(tempfile.mkdtemp())
    yield "the ear, bytes taken in", f"{build(place / 'site').ear:,}"
    host, profile = StaticHost(place / "site"), place / "profile"
    sound = with_silence(place / "said.wav", SAID)
    flags = ["--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream",
             f"--use-file-for-fake-audio-capture={sound}%noloop"]  # fmt: skip
    with sync_playwright() as driver:

        def browser() -> BrowserContext:
            return driver.chromium.launch_persistent_context(
                str(profile), executable_path=chromium(), args=[*FLAGS, *flags],
                permissions=["microphone"], **PHONE,  # type: ignore[arg-type]
            )  # fmt: skip

        context = browser()
        page, _ = begun(context, host.url)
        page.locator("#mic").press("Enter")
        page.locator("#ear-take").click()
        expect(page.locator("#hearing")).to_contain_text("ear is here", timeout=PATIENCE_MS)
        page.wait_for_timeout(STAY_SECONDS * 1000)
        context.close()
        host.off()
        context = browser()
        page, _ = begun(context, host.url)
        before = memory_mb(profile)
        first, *rest = held(page, profile, times + 1)
        yield "the first statement, no network, not slowed", f"{first:.0f} ms"
        yield "a later one, not slowed", told(rest)
        yield f"a later one, {slower:g}x slower", told(held(page, profile, times, slower))
        yield "memory before and after", f"{before:.0f} MB, {memory_mb(profile):.0f} MB"
        yield "load of the machine, which should be near none", f"{os.getloadavg()[0]:.1f}"
        context.close()


if __name__ == "__main__":
    options = argparse.ArgumentParser()
    options.add_argument("--slower", type=float, default=4.0)
    options.add_argument("--times", type=int, default=5)
    given = options.parse_args()
    for what, figure in measured(given.slower, given.times):
        sys.stdout.write(f"{what}: {figure}\n")
        sys.stdout.flush()
