"""Firefox and WebKit, driven by the standards that each speaks: WebDriver BiDi over a socket, and
WebDriver over HTTP. Only what the tests need: go to an address, and run a script there."""

from __future__ import annotations

import asyncio
import json
import os
import re
import shutil
import socket
import subprocess
import threading
import time
import urllib.error
import urllib.request
from pathlib import Path
from typing import Any, Protocol

import aiohttp

Socket = aiohttp.ClientWebSocketResponse
PATIENCE_SECONDS = 120.0
Json = dict[str, Any]


class Driven(Protocol):
    """A browser that is driven."""

    keeps: bool
    """Whether what its pages stored is there when it is opened again."""

    def go(self, url: str) -> None:
        """Go to an address."""

    def run(self, script: str) -> Any:
        """What the body of a function gives in the page; it may wait for what it gives."""

    def close(self) -> None:
        """End it."""


def until(driven: Driven, expression: str) -> Any:
    """What an expression gives in the page, once that is true."""
    deadline = time.monotonic() + PATIENCE_SECONDS
    while not (found := driven.run(f"return {expression}")):
        assert time.monotonic() < deadline, f"{expression}: {driven.run(_STANDS)}"
        time.sleep(0.1)
    return found


_STANDS = "return document.body.innerText.slice(0, 2000)"


def firefox() -> str:
    """The browser of this machine; empty where there is none."""
    return shutil.which("firefox-esr") or shutil.which("firefox") or ""


def webkit() -> str:
    """The driver of WebKit, where a screen for it can be made too; else empty."""
    return (shutil.which("WebKitWebDriver") or "") if shutil.which("Xvfb") else ""


class Firefox:
    """Firefox by WebDriver BiDi, without a screen. A profile keeps what a page stored."""

    keeps = True

    def __init__(self, data: Path) -> None:
        profile = data / "profile"
        profile.mkdir(exist_ok=True)
        self._process = subprocess.Popen(
            [firefox(), "--headless", "--remote-debugging-port=0", "--profile", str(profile)],
            stderr=subprocess.PIPE, stdout=subprocess.DEVNULL, text=True,
        )  # fmt: skip
        assert self._process.stderr is not None
        lines = iter(self._process.stderr.readline, "")
        url = next(found[1] for line in lines if (found := re.search(r"(ws://\S+)", line)))
        # what else it says is of no interest, and must not stop it
        threading.Thread(target=lambda: [None for _ in lines], daemon=True).start()
        self._loop = asyncio.new_event_loop()
        self._last = 0
        self._session, self._socket = self._loop.run_until_complete(_connected(f"{url}/session"))
        self._ask("session.new", capabilities={})
        self._page = self._ask("browsingContext.getTree")["contexts"][0]["context"]

    def go(self, url: str) -> None:
        """Go to an address."""
        self._ask("browsingContext.navigate", context=self._page, url=url, wait="complete")

    def run(self, script: str) -> Any:
        """What the body of a function gives in the page; it may wait for what it gives."""
        written = f"(async () => {{ {script} }})().then((told) => JSON.stringify(told ?? null))"
        told = self._ask(
            "script.evaluate", target={"context": self._page}, awaitPromise=True,
            expression=written,
        )  # fmt: skip
        assert told["type"] == "success", told
        return json.loads(told["result"]["value"])

    def close(self) -> None:
        """End it."""
        self._loop.run_until_complete(self._session.close())
        self._loop.close()
        self._process.terminate()
        self._process.wait()

    def _ask(self, method: str, **what: Any) -> Json:
        self._last += 1
        asked = {"id": self._last, "method": method, "params": what}
        return self._loop.run_until_complete(self._answer(asked))

    async def _answer(self, asked: Json) -> Json:
        await self._socket.send_json(asked)
        while True:
            found: Json = await self._socket.receive_json(timeout=PATIENCE_SECONDS)
            if found.get("id") == asked["id"]:
                assert found["type"] == "success", found
                result: Json = found["result"]
                return result


async def _connected(url: str) -> tuple[aiohttp.ClientSession, Socket]:
    session = aiohttp.ClientSession()
    return session, await session.ws_connect(url, max_msg_size=0)


class WebKit:
    """WebKit by WebDriver over HTTP, on a screen that nobody sees. Driven, it keeps nothing."""

    keeps = False

    def __init__(self, data: Path) -> None:
        home = {"HOME": str(data), "XDG_DATA_HOME": str(data), "XDG_CACHE_HOME": str(data / "c")}
        self._screen = subprocess.Popen(
            ["Xvfb", "-displayfd", "1", "-screen", "0", "400x900x24"],
            stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True,
        )  # fmt: skip
        assert self._screen.stdout is not None
        screen = f":{self._screen.stdout.readline().strip()}"
        with socket.socket() as free:
            free.bind(("127.0.0.1", 0))
            port = free.getsockname()[1]
        self._driver = subprocess.Popen(
            [webkit(), f"--port={port}"], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL,
            env={**os.environ, **home, "DISPLAY": screen, _UNBOXED: "1"},
        )  # fmt: skip
        self._at = f"http://127.0.0.1:{port}/session"
        wanted = {"webkitgtk:browserOptions": {"binary": _minibrowser(), "args": ["--automation"]}}
        made = self._ask("POST", "", {"capabilities": {"alwaysMatch": wanted}})
        self._at += f"/{made['sessionId']}"
        timeouts = {"script": int(PATIENCE_SECONDS * 1000)}
        self._ask("POST", "/timeouts", timeouts)

    def go(self, url: str) -> None:
        """Go to an address."""
        self._ask("POST", "/url", {"url": url})

    def run(self, script: str) -> Any:
        """What the body of a function gives in the page; it may wait for what it gives."""
        body = (
            "const done = arguments[0];"
            f"(async () => {{ {script} }})().then(done, (fault) => done(String(fault)));"
        )
        return self._ask("POST", "/execute/async", {"script": body, "args": []})

    def close(self) -> None:
        """End it."""
        self._ask("DELETE", "", None)
        for process in (self._driver, self._screen):
            process.terminate()
            process.wait()

    def _ask(self, method: str, path: str, body: Json | None) -> Any:
        raw = None if body is None else json.dumps(body).encode()
        deadline = time.monotonic() + PATIENCE_SECONDS
        while True:
            request = urllib.request.Request(self._at + path, raw, method=method)
            try:
                with urllib.request.urlopen(request, timeout=PATIENCE_SECONDS) as answer:
                    return json.load(answer)["value"]
            except urllib.error.HTTPError as refusal:
                raise AssertionError(refusal.read().decode()) from None
            except OSError:
                assert time.monotonic() < deadline
                time.sleep(0.1)  # it has not begun to listen


_UNBOXED = "WEBKIT_DISABLE_SANDBOX_THIS_IS_DANGEROUS"
"""WebKit walls its pages off by what a container does not let it use; it sees our page alone."""


def _minibrowser() -> str:
    found = Path("/usr/lib").glob("*/webkit2gtk-4.*/MiniBrowser")
    return str(next(found, ""))
