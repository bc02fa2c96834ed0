"""Whom the browser's server lets in, and how much of anything it takes. Rules only, no server.

A random token stands in the printed address. Who brings it gets it again as a cookie that no
other site's page can send, and the address without it; everything else is refused.
"""

from __future__ import annotations

import hmac
import ipaddress
import secrets
from collections.abc import Mapping
from urllib.parse import urlsplit

COOKIE = "boxaloud"
MOST_WAITING = 16
"""Requests that wait for the engine, which answers them one at a time."""
MOST_BYTES = 1_000_000
"""Of one request, and of all of them in one second."""
MOST_REQUESTS = 200
"""In one second."""
MOST_TRIES = 5
"""Wrong pairing codes, after which none is taken any more."""
CODE_SECONDS = 600.0
"""How long a pairing code is good for."""

HEADERS = {
    "Content-Security-Policy": (
        "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; "
        "connect-src 'self' {socket}; manifest-src 'self'; frame-ancestors 'none'; "
        "base-uri 'none'; form-action 'self'"
    ),
    "Permissions-Policy": "microphone=(self), camera=(), geolocation=()",
    "X-Frame-Options": "DENY",
    "X-Content-Type-Options": "nosniff",
    # not "no-referrer": with that a form of our own would be sent as from nowhere
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Cache-Control": "no-store",
}


def new_token() -> str:
    """A token that nobody guesses: 128 random bits."""
    return secrets.token_urlsafe(16)


def is_token(given: str | None, token: str) -> bool:
    """Whether what was given is the token, found out in the same time whatever it is."""
    return given is not None and hmac.compare_digest(
        given.encode("utf-8", "replace"), token.encode()
    )


def is_ours(host: str, listens_on: str, port: int, secure: bool = False) -> bool:
    """Whether the name that a request was sent to can be this server.

    A name that another site made to point here is none of them. Where every address is listened
    on, any address of figures is taken.
    """
    try:
        split = urlsplit(f"//{host}")
        name, told = split.hostname or "", split.port or (443 if secure else 80)
    except ValueError:
        return False
    if not name or told != port:
        return False
    if name == listens_on.lower():
        return True
    if name == "localhost":
        return _loopback_or_all(listens_on)
    try:
        address = ipaddress.ip_address(name)
    except ValueError:
        return False
    return _is_unspecified(listens_on) or (address.is_loopback and _loopback_or_all(listens_on))


def _loopback_or_all(listens_on: str) -> bool:
    if listens_on == "localhost" or _is_unspecified(listens_on):
        return True
    try:
        return ipaddress.ip_address(listens_on).is_loopback
    except ValueError:
        return False


def _is_unspecified(listens_on: str) -> bool:
    try:
        return ipaddress.ip_address(listens_on).is_unspecified
    except ValueError:
        return False


class Rate:
    """How much the pages have sent in this second."""

    def __init__(self) -> None:
        self._second = -1
        self._requests = self._bytes = 0

    def takes(self, size: int, now: float) -> bool:
        """Count a request of so many bytes; False where it is too much."""
        if int(now) != self._second:
            self._second, self._requests, self._bytes = int(now), 0, 0
        self._requests += 1
        self._bytes += size
        return self._requests <= MOST_REQUESTS and self._bytes <= MOST_BYTES


class Pairing:
    """A code of six figures that lets a page in which has no token: for a phone whose camera
    reads no QR code. It is good for ten minutes and takes five wrong tries."""

    def __init__(self, now: float) -> None:
        self.code = f"{secrets.randbelow(10**6):06}"
        self._until = now + CODE_SECONDS
        self._wrong = 0

    def opens(self, given: str, now: float) -> bool:
        """Whether this code lets in now; a wrong one counts as a try."""
        if now > self._until or self._wrong >= MOST_TRIES:
            return False
        figures = "".join(sign for sign in given if sign.isdigit())
        if is_token(figures, self.code):
            return True
        self._wrong += 1
        return False


def headers(host: str, secure: bool = False) -> Mapping[str, str]:
    """What every answer carries. `host` is where the page's socket may lead."""
    plain = "".join(c for c in host if c.isalnum() or c in ".:[]-")
    socket = f"{'wss' if secure else 'ws'}://{plain}"
    return {name: value.format(socket=socket) for name, value in HEADERS.items()}
