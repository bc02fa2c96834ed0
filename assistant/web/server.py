"""The server behind `boxaloud serve`. Needs the optional `serve` part; imported when used.

The page is our own and fetches nothing from elsewhere. Requests that come from a page of
another site are refused, or any page open in the same browser could drive the app.
"""

from __future__ import annotations

import shlex
import sys
from importlib.resources import files

from aiohttp import web
from aiohttp.typedefs import Handler
from textual_serve.server import Server

COMMAND = shlex.join([sys.executable, "-m", "boxaloud.assistant.tui"])


class BrowserServer(Server):
    """Serves the app to pages that it gave out itself."""

    def __init__(self, host: str, port: int, url: str) -> None:
        pages = files("boxaloud.assistant.web") / "data" / "pages"
        super().__init__(
            COMMAND, host, port, title="Boxaloud", public_url=url, templates_path=str(pages)
        )

    async def _make_app(self) -> web.Application:
        app = await super()._make_app()
        app.middlewares.append(self._own_pages_only)
        return app

    @property
    def _own(self) -> str:
        return self.public_url.removeprefix("http://")

    @web.middleware
    async def _own_pages_only(self, request: web.Request, handler: Handler) -> web.StreamResponse:
        """Refuse another site's page, and a name that was made to point at this machine."""
        origin = request.headers.get("Origin")
        if request.host != self._own or origin not in (None, self.public_url):
            raise web.HTTPForbidden(text=f"Open {self.public_url} instead.")
        return await handler(request)

    def initialize_logging(self) -> None:
        """Write no log of requests to the terminal."""

    async def on_startup(self, app: web.Application) -> None:
        """Start without a banner; the command has said where it is."""
