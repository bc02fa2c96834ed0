"""A real browser driven by a finger or by keys, over either way of running the page."""

from __future__ import annotations

import contextlib
import os
import re
import shutil
import socket
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from dataclasses import dataclass
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path

from playwright.sync_api import BrowserContext, Locator, Page, expect

PATIENCE_MS = 120_000
"""A page that never answers fails the test in the end; a slow machine does not."""
FLAGS = [
    "--no-sandbox", "--disable-gpu", "--disable-quic", "--no-first-run",
    "--disable-background-networking", "--disable-component-update", "--disable-sync",
]  # fmt: skip
MAIN = "from boxaloud.assistant.cli.start import main; main()"

# Three 14-2 cables and a receptacle in a marked 18.0 come out exactly full; inside clamps would
# take 2.0 more (DIY Chatroom thread 102858)
FULL = "three 14-2 cables and a receptacle in an 18 cubic inch box"


def chromium() -> str:
    """The browser of this machine; empty where there is none."""
    return shutil.which("chromium") or shutil.which("chromium-browser") or ""


class _Quiet(SimpleHTTPRequestHandler):
    def log_message(self, *_: object) -> None:
        """Say nothing."""


class StaticHost:
    """A web host that knows nothing but files, and can be switched off."""

    def __init__(self, folder: Path, port: int = 0) -> None:
        handler = partial(_Quiet, directory=str(folder))
        self._server = ThreadingHTTPServer(("127.0.0.1", port), handler)
        self.port = self._server.server_port
        threading.Thread(target=self._server.serve_forever, daemon=True).start()

    @property
    def url(self) -> str:
        return f"http://127.0.0.1:{self.port}/"

    def off(self) -> None:
        self._server.shutdown()
        self._server.server_close()


@contextlib.contextmanager
def served(folder: Path, *words: str) -> Iterator[tuple[str, int]]:
    """`boxaloud serve`; gives the line that it tells first, and its port."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    process = subprocess.Popen(
        [sys.executable, "-c", MAIN, "serve", "--port", str(port), *words], text=True, cwd=folder,
        stderr=subprocess.PIPE, stdout=subprocess.DEVNULL,
        env={**os.environ, "BOXALOUD_DATA": str(folder / "data")},
    )  # fmt: skip
    try:
        assert process.stderr is not None
        line = process.stderr.readline()
        until = time.monotonic() + PATIENCE_MS / 1000
        while time.monotonic() < until:
            with contextlib.suppress(OSError), socket.create_connection(("127.0.0.1", port), 1):
                break
            time.sleep(0.05)
        yield line, port
    finally:
        process.kill()
        process.wait()


@contextlib.contextmanager
def laptop(folder: Path) -> Iterator[str]:
    """The page served on this machine; gives the address with its token."""
    with served(folder) as (line, _):
        found = re.search(r"http\S+", line)
        assert found is not None, line
        yield found[0]


@dataclass(frozen=True)
class Size:
    """A screen, and what it is driven by."""

    name: str
    width: int
    height: int
    touch: bool

    @property
    def options(self) -> dict[str, object]:
        return {
            "viewport": {"width": self.width, "height": self.height},
            "has_touch": self.touch, "is_mobile": self.touch,
        }  # fmt: skip


SIZES = (
    Size("360x740", 360, 740, True),
    Size("390x844", 390, 844, True),
    Size("keyboard", 1280, 800, False),
)


class Hand:
    """Whoever uses the page: taps where the screen takes taps, else only keys."""

    def __init__(self, page: Page, touch: bool) -> None:
        self.page, self._touch = page, touch

    def open(self, url: str) -> None:
        self.page.goto(url)
        self.page.wait_for_selector("html[data-ready]", timeout=PATIENCE_MS)

    def use(self, control: Locator) -> None:
        """A tap, or the key that does the same."""
        if self._touch:
            control.tap()
            return
        control.focus()
        control.press("Enter")

    def say(self, words: str) -> None:
        """Type words and enter them; waits until they were heard."""
        self.type("#words", words)
        if self._touch:
            self.page.tap("#send")
        else:
            self.page.keyboard.press("Enter")
        expect(self.page.locator("#heard")).to_have_text(words, timeout=PATIENCE_MS)

    def type(self, field: str, words: str) -> None:
        if self._touch:
            self.page.tap(field)
        else:
            self.page.focus(field)
        self.page.fill(field, "")
        self.page.keyboard.type(words)

    def choose(self, label: str) -> None:
        """Take an answer to the open question."""
        self.use(self.page.locator("#answers button").filter(has_text=label).first)

    def press(self, label: str) -> None:
        """A button of the dock."""
        self.use(self.page.locator("#dock").get_by_role("button", name=label, exact=True))

    def part(self, name: str) -> Locator:
        """Open a part of the page."""
        part = self.page.locator(f"#part-{name}")
        if part.get_attribute("open") is None:
            self.use(part.locator("summary").first)
        return part

    def new_job(self, name: str) -> None:
        self.part("jobs")
        self.type("#job-name", name)
        self.use(self.page.locator("#job-form button"))
        expect(self.page.locator("#job")).to_have_text(name, timeout=PATIENCE_MS)
        self.use(self.page.locator("#part-jobs summary").first)

    def sees(self, verdict: str, margin: str = "") -> None:
        """The verdict that stands on the page, and its margin."""
        expect(self.page.locator("#verdict")).to_have_attribute(
            "data-verdict", verdict, timeout=PATIENCE_MS
        )
        if margin:
            expect(self.page.locator("#margin")).to_contain_text(margin)


def only_from(context: BrowserContext, url: str) -> list[str]:
    """The list of every address asked for that is not of this host; it fills while the test
    runs."""
    host = url.split("/")[2]
    strange: list[str] = []

    def look(address: str) -> None:
        if (
            address.split(":")[0] in ("http", "https", "ws", "wss")
            and address.split("/")[2] != host
        ):
            strange.append(address)

    context.on("request", lambda request: look(request.url))
    return strange
