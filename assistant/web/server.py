"""The server behind `boxaloud serve`. Needs the optional `serve` part; imported when used.

The page is our own and fetches nothing from elsewhere. Who may come in, and how much of anything
is taken, is said in `admission`.
"""

from __future__ import annotations

import asyncio
import logging
import os
import shlex
import sys
import time
from importlib.resources import files
from typing import Any

import aiohttp_jinja2
from aiohttp import WSMsgType, web
from aiohttp.typedefs import Handler
from boxaloud.assistant.web import admission
from boxaloud.assistant.web.web_messages import say
from textual_serve.app_service import AppService
from textual_serve.server import Server

_EXEC = "exec " if os.name == "posix" else ""  # no shell stands between us and the app
COMMAND = _EXEC + shlex.join(
    [sys.executable, "-P", "-m", "boxaloud.assistant.cli.screen_process", "--watched"]
)
"""`-P`: what lies in the current folder is never run in place of a library."""


class BrowserServer(Server):
    """Serves the app to whoever brings the token."""

    def __init__(self, host: str, port: int, url: str, token: str) -> None:
        pages = files("boxaloud.assistant.web") / "data" / "pages"
        super().__init__(
            COMMAND, host, port, title="Boxaloud", public_url=url, templates_path=str(pages)
        )
        self._token = token
        self._open = 0

    async def _make_app(self) -> web.Application:
        app = await super()._make_app()
        app.middlewares.append(self._admitted_only)
        return app

    @web.middleware
    async def _admitted_only(self, request: web.Request, handler: Handler) -> web.StreamResponse:
        """Refuse another site's page, a name that was made to point here, and who has no token."""
        try:
            answer = await self._admit(request, handler)
        except web.HTTPException as refusal:
            answer = refusal
        if not answer.prepared:
            answer.headers.update(admission.headers(request.host))
        if isinstance(answer, web.HTTPException):
            raise answer
        return answer

    async def _admit(self, request: web.Request, handler: Handler) -> web.StreamResponse:
        origin = request.headers.get("Origin")
        known = admission.is_ours(request.host, self.host, self.port)
        if not known or origin not in (None, f"http://{request.host}"):
            raise web.HTTPForbidden(text=say("serve.other_site"))
        if admission.is_token(request.query.get("token"), self._token):
            answer = web.HTTPSeeOther("/")
            answer.set_cookie(
                admission.COOKIE, self._token, httponly=True, samesite="Strict", path="/"
            )
            return answer
        if not admission.is_token(request.cookies.get(admission.COOKIE), self._token):
            raise web.HTTPForbidden(text=say("serve.no_token"))
        return await handler(request)

    @aiohttp_jinja2.template("app_index.html")
    async def handle_index(self, request: web.Request) -> dict[str, Any]:
        """The page, whose addresses are those that it was asked for by."""
        return {
            "font_size": 16,
            "app_websocket_url": f"ws://{request.host}/ws",
            "config": {"static": {"url": "/static/"}},
            "application": {"name": self.title},
        }

    async def handle_websocket(self, request: web.Request) -> web.WebSocketResponse:
        """One page and its app, until either goes."""
        if self._open >= admission.MOST_CONNECTIONS:
            raise web.HTTPServiceUnavailable(text=say("serve.full"))
        self._open += 1
        wide, tall = admission.size(request.query.get("width"), request.query.get("height"))
        socket = web.WebSocketResponse(heartbeat=15, max_msg_size=admission.MOST_LETTERS * 4)
        service: AppService | None = None

        async def close() -> None:
            await socket.close()

        try:
            await socket.prepare(request)
            service = AppService(
                self.command, write_bytes=socket.send_bytes, write_str=socket.send_str,
                close=close, download_manager=self.download_manager,
            )  # fmt: skip
            await service.start(wide, tall)
            await self._process_messages(socket, service)
        except (ConnectionError, RuntimeError, asyncio.CancelledError):
            await socket.close()
        finally:
            self._open -= 1
            if service is not None:
                await _end(service)
        return socket

    async def _process_messages(
        self, websocket: web.WebSocketResponse, app_service: AppService
    ) -> None:
        """Hand on what the page sends; what is none of its messages, or too much, ends it."""
        rate = admission.Rate()
        async for raw in websocket:
            if raw.type != WSMsgType.TEXT:
                continue
            found = admission.message(raw.data)
            if found is None or not rate.takes(len(raw.data), time.monotonic()):
                await websocket.close(message=b"not understood, or too much")
                return
            await _hand_on(found, websocket, app_service)

    def initialize_logging(self) -> None:
        """Write no log of requests to the terminal, nor a trace of what a page did."""
        for name in ("textual-serve", "aiohttp", "asyncio"):
            logging.getLogger(name).addHandler(logging.NullHandler())
            logging.getLogger(name).propagate = False

    async def on_startup(self, app: web.Application) -> None:
        """Start without a banner; the command has said where it is."""


async def _hand_on(
    found: admission.Message, websocket: web.WebSocketResponse, app: AppService
) -> None:
    match found.kind:
        case "stdin":
            await app.send_bytes(found.value.encode("utf-8", "replace"))
        case "resize":
            await app.set_terminal_size(*found.value)
        case "ping":
            await websocket.send_json(["pong", found.value])
        case "blur":
            await app.blur()
        case "focus":
            await app.focus()


PATIENCE_SECONDS = 5.0


async def _end(service: AppService) -> None:
    """Let the app leave; one that does not is ended."""
    process = service._process
    try:
        await asyncio.wait_for(service.stop(), PATIENCE_SECONDS)
    except (TimeoutError, ConnectionError, RuntimeError):
        pass
    finally:
        if process is not None and process.returncode is None:
            process.kill()
