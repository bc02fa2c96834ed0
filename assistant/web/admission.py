"""Whom the browser's server lets in, and how much of anything it takes. Rules only, no server.

A random token stands in the printed address. Who brings it gets it again as a cookie that no
other site's page can send, and the address without it; everything else is refused.
"""

from __future__ import annotations

import hmac
import ipaddress
import json
import secrets
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any
from urllib.parse import urlsplit

COOKIE = "boxaloud"
MOST_CONNECTIONS = 4
COLUMNS, ROWS = (20, 400), (6, 200)
"""The least and the most of each that a screen may have."""
MOST_LETTERS = 65_536
"""Of one message, and of what is typed in one second."""
MOST_MESSAGES = 200
"""In one second."""

HEADERS = {
    "Content-Security-Policy": (
        "default-src 'none'; script-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' "
        "data:; font-src 'self'; connect-src 'self' {socket}; frame-ancestors 'none'; "
        "base-uri 'none'; form-action 'none'"
    ),
    "X-Frame-Options": "DENY",
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "no-referrer",
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


def is_ours(host: str, listens_on: str, port: int) -> bool:
    """Whether the name that a request was sent to can be this server.

    A name that another site made to point here is none of them. Where every address is listened
    on, any address of figures is taken.
    """
    try:
        split = urlsplit(f"//{host}")
        name, told = split.hostname or "", split.port or 80
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


def size(width: object, height: object) -> tuple[int, int]:
    """A screen's columns and rows, as near to what was asked for as is allowed."""
    return _within(width, COLUMNS, 80), _within(height, ROWS, 24)


def _within(value: object, span: tuple[int, int], default: int) -> int:
    try:
        wanted = int(str(value)[:9])
    except ValueError:
        return default
    return max(span[0], min(wanted, span[1]))


@dataclass(frozen=True, slots=True)
class Message:
    """A message of the page that can be used: its kind, and what it carries."""

    kind: str
    value: Any = None


def message(raw: str) -> Message | None:
    """What the page sent, or None where that is none of the messages there are."""
    if len(raw) > MOST_LETTERS:
        return None
    try:
        found = json.loads(raw)
    except (ValueError, RecursionError):
        return None
    match found:
        case ["stdin", str(typed)]:
            return Message("stdin", typed)
        case ["resize", {"width": width, "height": height}]:
            return Message("resize", size(width, height))
        case ["ping", str() | int() | float() as value]:
            return Message("ping", value)
        case ["blur" | "focus" as kind, *_]:
            return Message(kind)
    return None


class Rate:
    """How much one page has sent in this second."""

    def __init__(self) -> None:
        self._second = -1
        self._messages = self._letters = 0

    def takes(self, letters: int, now: float) -> bool:
        """Count a message; False where it is too much."""
        if int(now) != self._second:
            self._second, self._messages, self._letters = int(now), 0, 0
        self._messages += 1
        self._letters += letters
        return self._messages <= MOST_MESSAGES and self._letters <= MOST_LETTERS


def headers(host: str) -> Mapping[str, str]:
    """What every answer carries. `host` is where the page's socket may lead."""
    plain = "".join(c for c in host if c.isalnum() or c in ".:[]-")
    return {name: value.format(socket=f"ws://{plain}") for name, value in HEADERS.items()}
