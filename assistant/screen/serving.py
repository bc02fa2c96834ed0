"""The same app in a browser, on this machine alone unless asked otherwise."""

from __future__ import annotations

import ipaddress

from boxaloud.assistant.problems import Problem, complain
from boxaloud.assistant.screen.wording import text


def serve(host: str, port: int) -> None:
    """Serve until Ctrl+C. Raises Problem where the optional part is not installed."""
    try:
        from boxaloud.assistant.screen.browser import BrowserServer
    except ImportError:
        raise Problem(text("start.serve_missing")) from None
    if not is_loopback(host):
        complain(text("start.serve_open", host=host))
    complain(text("start.serve_where", url=address(host, port)))
    try:
        BrowserServer(host, port, address(host, port)).serve()
    except OSError as fault:
        why = fault.strerror or str(fault)
        raise Problem(text("start.serve_busy", url=address(host, port), why=why)) from None


def address(host: str, port: int) -> str:
    """Where the browser finds it."""
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
