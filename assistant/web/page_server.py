"""The server behind `boxaloud serve`: the page, and the engine that it asks. Needs the optional
`serve` part; imported when used.

Who may come in, and how much of anything is taken, is said in `admission`.
"""

from __future__ import annotations

import asyncio
import logging
import ssl
import time
from concurrent.futures import ThreadPoolExecutor

from aiohttp import web
from aiohttp.typedefs import Handler
from boxaloud.assistant.web import admission, page_json, page_requests
from boxaloud.assistant.web.microphone_socket import MicrophoneSocket
from boxaloud.assistant.web.page_documents import Refused
from boxaloud.assistant.web.page_engine import PageEngine
from boxaloud.assistant.web.page_files import POCKET_ONLY, kind_of, page_files
from boxaloud.assistant.web.web_messages import say


class PageServer:
    """Serves the page and its engine to whoever brings the token."""

    def __init__(
        self,
        host: str,
        port: int,
        token: str,
        tls: ssl.SSLContext | None = None,
        pairing: admission.Pairing | None = None,
    ) -> None:
        self._host, self._port, self._token, self._tls = host, port, token, tls
        self._pairing = pairing
        self._files = {name: raw for name, raw in page_files().items() if name not in POCKET_ONLY}
        self._rate = admission.Rate()
        self._waiting = 0
        # one thread: the engine answers one request at a time, and a job's file stays in it
        self._worker = ThreadPoolExecutor(1)
        self._engine: PageEngine | None = None
        self._microphone = MicrophoneSocket(self._worker, self._opened)

    def serve(self) -> None:
        """Serve until the process is interrupted. Raises OSError where the port is taken."""
        _quiet()
        web.run_app(
            self.application(), host=self._host, port=self._port, ssl_context=self._tls,
            print=None, access_log=None, handle_signals=True,
        )  # fmt: skip

    def application(self) -> web.Application:
        """The routes, behind the one gate."""
        app = web.Application(
            middlewares=[self._admitted_only], client_max_size=admission.MOST_BYTES
        )
        app.router.add_post("/engine", self._ask)
        app.router.add_post("/pair", self._pair)
        app.router.add_get("/listen", self._microphone.answer)
        app.router.add_get("/{name:[a-z0-9_.]*}", self._file)
        app.on_cleanup.append(self._end)
        return app

    @web.middleware
    async def _admitted_only(self, request: web.Request, handler: Handler) -> web.StreamResponse:
        """Refuse another site's page, a name that was made to point here, and who has no token."""
        try:
            answer = await self._admit(request, handler)
        except web.HTTPException as refusal:
            answer = refusal
        if not answer.prepared:
            answer.headers.update(admission.headers(request.host, self._secure))
        if isinstance(answer, web.HTTPException):
            raise answer
        return answer

    async def _admit(self, request: web.Request, handler: Handler) -> web.StreamResponse:
        origin = request.headers.get("Origin")
        known = admission.is_ours(request.host, self._host, self._port, self._secure)
        scheme = "https" if self._secure else "http"
        if not known or origin not in (None, f"{scheme}://{request.host}"):
            raise web.HTTPForbidden(text=say("serve.other_site"))
        if request.method == "POST" and origin is None:
            raise web.HTTPForbidden(text=say("serve.other_site"))
        if admission.is_token(request.query.get("token"), self._token):
            return self._let_in()
        if admission.is_token(request.cookies.get(admission.COOKIE), self._token):
            return await handler(request)
        if self._pairing is not None and request.path in ("/", "/pair", "/page.css"):
            if request.path == "/":
                return self._shown("pair.html")
            return await handler(request)
        raise web.HTTPForbidden(text=say("serve.no_token"))

    @property
    def _secure(self) -> bool:
        return self._tls is not None

    def _let_in(self) -> web.StreamResponse:
        """The cookie, and the address without what opened it."""
        answer = web.HTTPSeeOther("/")
        answer.set_cookie(
            admission.COOKIE, self._token, httponly=True, samesite="Strict", path="/",
            secure=self._secure,
        )  # fmt: skip
        return answer

    async def _pair(self, request: web.Request) -> web.StreamResponse:
        """Let in a page that was given the code which stands in the terminal."""
        if self._pairing is None:
            raise web.HTTPForbidden(text=say("serve.no_token"))
        given = str((await request.post()).get("code", ""))
        if not self._pairing.opens(given, time.monotonic()):
            raise web.HTTPForbidden(text=say("serve.wrong_code"))
        return self._let_in()

    async def _file(self, request: web.Request) -> web.StreamResponse:
        return self._shown(request.match_info["name"] or "index.html")

    def _shown(self, name: str) -> web.StreamResponse:
        raw = self._files.get(name)
        if raw is None:
            raise web.HTTPNotFound(text=say("serve.no_file"))
        answer = web.Response(body=raw)
        answer.headers["Content-Type"] = kind_of(name)
        return answer

    async def _ask(self, request: web.Request) -> web.StreamResponse:
        """One request to the engine. What is too much, or too fast, is refused."""
        body = await request.text()
        if not self._rate.takes(len(body), time.monotonic()):
            raise web.HTTPTooManyRequests(text=say("serve.too_much"))
        if self._waiting >= admission.MOST_WAITING:
            raise web.HTTPServiceUnavailable(text=say("serve.busy_engine"))
        self._waiting += 1
        try:
            loop = asyncio.get_running_loop()
            told = await loop.run_in_executor(self._worker, self._answered, body)
        finally:
            self._waiting -= 1
        return web.Response(text=told, content_type="application/json")

    def _answered(self, body: str) -> str:
        try:
            asked = page_requests.read(body)
        except page_requests.NoRequest as refusal:
            return page_json.written(Refused(str(refusal)))
        return page_json.written(self._opened().answer(asked))

    def _opened(self) -> PageEngine:
        if self._engine is None:
            self._engine = PageEngine()
        return self._engine

    async def _end(self, app: web.Application) -> None:
        """Let go of the job, in the thread that holds it."""
        if self._engine is not None:
            await asyncio.get_running_loop().run_in_executor(self._worker, self._engine.close)
        self._worker.shutdown()


def _quiet() -> None:
    """Write no log of requests to the terminal, nor a trace of what a page did."""
    for name in ("aiohttp", "asyncio"):
        logging.getLogger(name).addHandler(logging.NullHandler())
        logging.getLogger(name).propagate = False
