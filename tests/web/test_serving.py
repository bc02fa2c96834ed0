"""The server of the page lets in whoever has the token or the code, takes so much and no more,
and leaves nothing behind."""

from __future__ import annotations

import asyncio
import contextlib
import json
import os
import re
import signal
import socket
import ssl
import subprocess
import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest
from boxaloud.assistant.web import admission
from boxaloud.assistant.web.endpoint import drawn, own_address, serve
from boxaloud.assistant.web.page_files import POCKET_ONLY, page_files

pytest.importorskip("aiohttp")
import aiohttp


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


def test_pages_may_send_so_much_in_a_second() -> None:
    rate = admission.Rate()
    assert all(rate.takes(10, 5.0) for _ in range(admission.MOST_REQUESTS))
    assert not rate.takes(10, 5.9)
    assert rate.takes(10, 6.0)
    assert not rate.takes(admission.MOST_BYTES, 6.5)


def test_a_pairing_code_takes_few_wrong_tries_and_ends() -> None:
    code = admission.Pairing(0.0)
    assert re.fullmatch("[0-9]{6}", code.code)
    assert code.opens(f" {code.code[:3]} {code.code[3:]}", 1.0)
    assert not code.opens(code.code, admission.CODE_SECONDS + 1)
    wrong = "000000" if code.code != "000000" else "000001"
    for _ in range(admission.MOST_TRIES):
        assert not code.opens(wrong, 2.0)
    assert not code.opens(code.code, 2.0)


def test_a_code_is_drawn_two_rows_to_a_line() -> None:
    assert drawn([[0, 1, 0, 1], [0, 0, 1, 1], [0, 0, 0, 1]]) == ["█▄▀ ", "███▄"]


def test_the_page_that_is_served_names_no_other_host() -> None:
    names = {b"http://www.w3.org/2000/svg"}  # of XML, which is looked for nowhere
    for name, raw in page_files().items():
        assert set(re.findall(rb"https?://[\w./-]+", raw)) - names == set(), name


@pytest.mark.parametrize(
    ("host", "warned"), [("127.0.0.1", False), ("::1", False), ("0.0.0.0", True)]
)
def test_serving_to_other_machines_states_the_risk(
    host: str, warned: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("boxaloud.assistant.web.page_server.PageServer.serve", lambda server: None)
    told: list[str] = []
    serve(host, 8000, False, told.append, lambda rows: None)
    assert any("nothing is encrypted" in line for line in told) == warned


# -- the server itself -------------------------------------------------------------------------

# A server that never answers fails the test in the end; a slow machine does not.
PATIENCE = 240

MAIN = "from boxaloud.assistant.cli.start import main; main()"


@dataclass
class Served:
    process: subprocess.Popen[str]
    host: str
    token: str
    code: str = ""


def started(folder: Path, *words: str) -> Served:
    """A server: its process, its address, its token and code."""
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        port = free.getsockname()[1]
    process = subprocess.Popen(
        [sys.executable, "-c", MAIN, "serve", "--port", str(port), *words],
        stderr=subprocess.PIPE, stdout=subprocess.DEVNULL, text=True, cwd=folder,
        env={**os.environ, "BOXALOUD_DATA": str(folder / "data")},
    )  # fmt: skip
    assert process.stderr is not None
    line = process.stderr.readline()
    token = re.search(r"token=(\S+)", line)
    code = re.search(r"the code (\d{6})", line)
    deadline = time.monotonic() + PATIENCE
    while time.monotonic() < deadline:
        with contextlib.suppress(OSError), socket.create_connection(("127.0.0.1", port), 1):
            break
        time.sleep(0.05)
    return Served(process, f"127.0.0.1:{port}", token[1] if token else "", code[1] if code else "")


@pytest.fixture
def served(tmp_path: Path) -> Iterator[Served]:
    server = started(tmp_path)
    yield server
    server.process.kill()
    server.process.wait()


def test_without_the_token_nothing_is_served(served: Served) -> None:
    host, token = served.host, served.token

    async def ask() -> None:
        async with aiohttp.ClientSession() as stranger:
            for path in ("/", "/page.js", "/engine", "/?token=wrong", "/pair", "/other/x"):
                async with stranger.get(f"http://{host}{path}") as answer:
                    assert answer.status == 403, path
                    assert answer.headers["X-Frame-Options"] == "DENY"
                    assert "frame-ancestors 'none'" in answer.headers["Content-Security-Policy"]
            for path in ("/engine", "/pair"):
                async with stranger.post(
                    f"http://{host}{path}", data="{}", headers={"Origin": f"http://{host}"}
                ) as answer:
                    assert answer.status == 403, path
        jar = aiohttp.CookieJar(unsafe=True)
        async with aiohttp.ClientSession(cookie_jar=jar) as owner:
            first = await owner.get(f"http://{host}/?token={token}", allow_redirects=False)
            assert first.status == 303
            assert first.headers["Location"] == "/"
            cookie = first.headers["Set-Cookie"]
            assert "HttpOnly" in cookie
            assert "SameSite=Strict" in cookie
            async with owner.get(f"http://{host}/") as page:
                assert page.status == 200
                assert token not in await page.text()
                assert page.headers["X-Content-Type-Options"] == "nosniff"
                assert "'unsafe" not in page.headers["Content-Security-Policy"]
            for name in page_files():
                async with owner.get(f"http://{host}/{name}") as file:
                    assert file.status == (404 if name in POCKET_ONLY else 200), name
            for other in ({"Origin": "http://elsewhere.example"}, {"Host": "elsewhere.example"}):
                async with owner.get(f"http://{host}/", headers=other) as answer:
                    assert answer.status == 403

    asyncio.run(ask())


def test_the_engine_answers_only_our_own_page(served: Served) -> None:
    host = served.host
    look = json.dumps({"kind": "look", "first": True})

    async def ask() -> None:
        async with aiohttp.ClientSession(cookies={admission.COOKIE: served.token}) as owner:
            for other in ({}, {"Origin": "null"}, {"Origin": "http://elsewhere.example"}):
                async with owner.post(f"http://{host}/engine", data=look, headers=other) as answer:
                    assert answer.status == 403
            ours = {"Origin": f"http://{host}"}
            async with owner.post(f"http://{host}/engine", data=look, headers=ours) as answer:
                assert (await answer.json())["document"] == "PageView"
            async with owner.post(f"http://{host}/engine", data="[" * 999, headers=ours) as answer:
                assert (await answer.json())["document"] == "Refused"
            huge = "x" * (admission.MOST_BYTES + 1)
            async with owner.post(f"http://{host}/engine", data=huge, headers=ours) as answer:
                assert answer.status == 413
            many = [
                owner.post(f"http://{host}/engine", data=look, headers=ours)
                for _ in range(3 * admission.MOST_WAITING)
            ]
            found = await asyncio.gather(*many)
            assert {answer.status for answer in found} <= {200, 503, 429}
            assert 200 in {answer.status for answer in found}

    asyncio.run(ask())
    served.process.send_signal(signal.SIGINT)
    told = served.process.communicate(timeout=PATIENCE)[1]
    assert "Traceback" not in told


def test_what_was_said_is_kept_by_a_server_that_is_killed(served: Served, tmp_path: Path) -> None:
    said = {"kind": "hear", "words": "two 14-2 cables"}

    async def ask() -> None:
        async with aiohttp.ClientSession(cookies={admission.COOKIE: served.token}) as owner:
            url, ours = f"http://{served.host}/engine", {"Origin": f"http://{served.host}"}
            async with owner.post(url, json=said, headers=ours) as answer:
                assert (await answer.json())["stored"]["kept"]

    asyncio.run(ask())
    served.process.kill()
    served.process.wait()
    done = subprocess.run(
        [sys.executable, "-c", MAIN, "chat", "--job", "first job"], input="read back\n",
        capture_output=True, text=True, check=True, cwd=tmp_path,
        env={**os.environ, "BOXALOUD_DATA": str(tmp_path / "data")},
    )  # fmt: skip
    assert "14-2" in done.stdout


def test_a_phone_of_the_network_comes_in_by_code_over_tls(tmp_path: Path) -> None:
    pytest.importorskip("segno")
    pytest.importorskip("cryptography")
    if not own_address():
        pytest.skip("this machine is in no network")
    server = started(tmp_path, "--lan")
    kept = tmp_path / "data" / "serve-certificate.pem"
    trusted = ssl.create_default_context(cafile=kept)

    async def ask() -> None:
        jar = aiohttp.CookieJar(unsafe=True)
        async with aiohttp.ClientSession(cookie_jar=jar) as phone:
            url, ours = f"https://{server.host}", {"Origin": f"https://{server.host}"}
            async with phone.get(url, ssl=trusted) as page:
                assert 'name="code"' in await page.text()
            async with phone.get(f"{url}/page.js", ssl=trusted) as page:
                assert page.status == 403
            pair = {"url": f"{url}/pair", "headers": ours, "ssl": trusted}
            wrong = "111111" if server.code != "111111" else "111112"
            async with phone.post(data={"code": wrong}, **pair) as answer:  # type: ignore[arg-type]
                assert answer.status == 403
            async with phone.post(data={"code": server.code}, **pair) as answer:  # type: ignore[arg-type]
                assert answer.status == 200
                assert 'name="engine"' in await answer.text()
                assert "Secure" in answer.history[0].headers["Set-Cookie"]

    try:
        asyncio.run(ask())
        assert kept.stat().st_mode & 0o077 == 0
    finally:
        server.process.kill()
        server.process.wait()
