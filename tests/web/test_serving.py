"""The browser's server lets in whoever has the token, takes so much and no more, and leaves
nothing behind."""

from __future__ import annotations

import asyncio
import contextlib
import os
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

import pytest
from boxaloud.assistant.web import admission

pytest.importorskip("textual_serve")
import aiohttp

TOKEN = "/?token="


@pytest.mark.parametrize(
    ("host", "listens_on", "ours"),
    [
        ("127.0.0.1:8000", "127.0.0.1", True),
        ("localhost:8000", "127.0.0.1", True),
        ("[::1]:8000", "::1", True),
        ("127.0.0.1:8000", "0.0.0.0", True),
        ("192.0.2.7:8000", "0.0.0.0", True),
        ("localhost:8000", "0.0.0.0", True),
        ("192.0.2.7:8000", "192.0.2.7", True),
        ("192.0.2.7:8000", "127.0.0.1", False),
        ("elsewhere.example:8000", "127.0.0.1", False),
        ("elsewhere.example:8000", "0.0.0.0", False),
        ("127.0.0.1:8001", "127.0.0.1", False),
        ("127.0.0.1", "127.0.0.1", False),
        ("", "127.0.0.1", False),
    ],
)
def test_a_name_that_was_made_to_point_here_is_not_ours(
    host: str, listens_on: str, ours: bool
) -> None:
    assert admission.is_ours(host, listens_on, 8000) == ours


@pytest.mark.parametrize(
    ("asked", "given"),
    [
        (("80", "24"), (80, 24)),
        (("999999", "999999"), (400, 200)),
        (("-5", "0"), (20, 6)),
        (("x", None), (80, 24)),
        (("9" * 5000, "1e9"), (400, 24)),
    ],
)
def test_a_screen_has_a_size_that_can_be(asked: tuple[str, str], given: tuple[int, int]) -> None:
    assert admission.size(*asked) == given


@pytest.mark.parametrize(
    "raw",
    ["", "{}", "[]", "7", "[" * 50_000, '["stdin"]', '["stdin", 5]', '["resize", 5]', "\ud800",
     '["resize", {"width": 5}]', '["ping", []]', '["other", 1]', '["stdin", "' + "x" * 70_000],
)  # fmt: skip
def test_what_is_no_message_is_none(raw: str) -> None:
    assert admission.message(raw) is None


def test_a_page_may_send_so_much_in_a_second() -> None:
    rate = admission.Rate()
    assert all(rate.takes(10, 5.0) for _ in range(admission.MOST_MESSAGES))
    assert not rate.takes(10, 5.9)
    assert rate.takes(10, 6.0)
    assert not rate.takes(admission.MOST_LETTERS, 6.5)


# -- the server itself -------------------------------------------------------------------------


# A server that never answers fails the test in the end. A slow machine that starts the apps of
# many pages at once does not: how fast it is, is no part of what is promised here.
PATIENCE = 240

MAIN = "from boxaloud.assistant.cli.start import main; main()"


@pytest.fixture
def served(tmp_path: Path) -> Iterator[tuple[subprocess.Popen[str], str, str]]:
    """A server: its process, its address, and its token."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    server = subprocess.Popen(
        [sys.executable, "-c", MAIN, "serve", "--port", str(port)],
        stderr=subprocess.PIPE, text=True, cwd=tmp_path,
        env={**os.environ, "BOXALOUD_DATA": str(tmp_path / "data")},
    )  # fmt: skip
    assert server.stderr is not None
    line = server.stderr.readline()
    token = line.split(TOKEN)[1].split()[0]
    deadline = time.monotonic() + PATIENCE
    while time.monotonic() < deadline:
        with contextlib.suppress(OSError), socket.create_connection(("127.0.0.1", port), 1):
            break
        time.sleep(0.05)
    yield server, f"127.0.0.1:{port}", token
    server.kill()
    server.wait()


def children(server: subprocess.Popen[str]) -> list[int]:
    listed = Path(f"/proc/{server.pid}/task/{server.pid}/children").read_text().split()
    return [int(each) for each in listed]


def test_without_the_token_nothing_is_served(served: tuple[object, str, str]) -> None:
    _, host, token = served

    async def ask() -> None:
        async with aiohttp.ClientSession() as stranger:
            for path in ("/", "/ws", "/static/js/textual.js", "/?token=wrong", "/download/x"):
                async with stranger.get(f"http://{host}{path}") as answer:
                    assert answer.status == 403, path
                    assert answer.headers["X-Frame-Options"] == "DENY"
                    assert "frame-ancestors 'none'" in answer.headers["Content-Security-Policy"]
        jar = aiohttp.CookieJar(unsafe=True)
        async with aiohttp.ClientSession(cookie_jar=jar) as owner:
            first = await owner.get(f"http://{host}{TOKEN}{token}", allow_redirects=False)
            assert first.status == 303
            assert first.headers["Location"] == "/"
            cookie = first.headers["Set-Cookie"]
            assert "HttpOnly" in cookie
            assert "SameSite=Strict" in cookie
            async with owner.get(f"http://{host}/") as page:
                assert page.status == 200
                assert f"ws://{host}/ws" in await page.text()
                assert token not in await page.text()
                assert page.headers["X-Content-Type-Options"] == "nosniff"
            async with owner.get(f"http://{host}/static/js/textual.js") as script:
                assert script.status == 200
            for other in ({"Origin": "http://elsewhere.example"}, {"Host": "elsewhere.example"}):
                async with owner.get(f"http://{host}/", headers=other) as answer:
                    assert answer.status == 403

    asyncio.run(ask())


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="counts processes as Linux does")
def test_pages_are_capped_and_leave_no_app_behind(
    served: tuple[subprocess.Popen[str], str, str],
) -> None:
    server, host, token = served
    cookies = {admission.COOKIE: token}

    async def ask() -> None:
        async with aiohttp.ClientSession(cookies=cookies) as owner:
            small, huge = (f"http://{host}/ws?width={side}&height={side}" for side in (20, 999999))
            pages = [await owner.ws_connect(huge)]
            pages += [await owner.ws_connect(small) for _ in range(admission.MOST_CONNECTIONS - 1)]
            with pytest.raises(aiohttp.WSServerHandshakeError) as refused:
                await owner.ws_connect(small)
            assert refused.value.status == 503
            first = await asyncio.wait_for(pages[0].receive(), PATIENCE)
            assert first.type in (aiohttp.WSMsgType.BINARY, aiohttp.WSMsgType.TEXT)
            assert len(children(server)) == admission.MOST_CONNECTIONS
            await pages[0].send_str("[" * 2000)
            while not pages[0].closed:
                await asyncio.wait_for(pages[0].receive(), PATIENCE)
            for page in pages[1:]:
                await page.close()
            for _ in range(100):
                if not children(server):
                    break
                await asyncio.sleep(0.1)
            assert children(server) == []

    asyncio.run(ask())
    server.send_signal(signal.SIGINT)
    assert server.stderr is not None
    told = server.communicate(timeout=PATIENCE)[1]
    assert "Traceback" not in told


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="counts processes as Linux does")
def test_an_app_does_not_outlive_a_server_that_was_killed(
    served: tuple[subprocess.Popen[str], str, str],
) -> None:
    server, host, token = served

    async def ask() -> list[int]:
        async with aiohttp.ClientSession(cookies={admission.COOKIE: token}) as owner:
            page = await owner.ws_connect(f"http://{host}/ws")
            await asyncio.wait_for(page.receive(), PATIENCE)
            found = children(server)
            server.kill()
            return found

    (app,) = asyncio.run(ask())
    for _ in range(100):
        if not Path(f"/proc/{app}").exists():
            return
        time.sleep(0.1)
    os.kill(app, signal.SIGKILL)
    pytest.fail("the app went on")
