"""The same app in a browser, on this machine alone unless asked otherwise."""

from __future__ import annotations

import ipaddress
from collections.abc import Callable

from boxaloud.assistant.text.problem import Problem
from boxaloud.assistant.web.admission import new_token
from boxaloud.assistant.web.web_messages import say


def serve(host: str, port: int, tell: Callable[[str], None]) -> None:
    """Serve until Ctrl+C, having told who else can reach it, and where it is.

    Raises Problem where the optional part is not installed.
    """
    try:
        from boxaloud.assistant.web.server import BrowserServer
    except ImportError:
        raise Problem(say("serve.missing")) from None
    if not is_loopback(host):
        tell(say("serve.open", host=host))
    token = new_token()
    tell(say("serve.where", url=f"{address(host, port)}/?token={token}"))
    try:
        BrowserServer(host, port, address(host, port), token).serve()
    except OSError as fault:
        why = fault.strerror or str(fault)
        raise Problem(say("serve.busy", url=address(host, port), why=why)) from None


def address(host: str, port: int) -> str:
    """Where a browser on this machine finds it."""
    host = {"0.0.0.0": "127.0.0.1", "::": "::1"}.get(host, host)
    shown = f"[{host}]" if ":" in host else host
    return f"http://{shown}:{port}"


def is_loopback(host: str) -> bool:
    """True where only this machine can reach the address."""
    if host == "localhost":
        return True
    try:
        return ipaddress.ip_address(host).is_loopback
    except ValueError:
        return False
