"""`boxaloud serve`: the page over the jobs of this machine, for its own browser or, with `lan`,
for a phone on the same network."""

from __future__ import annotations

import ipaddress
import socket
import time
from collections.abc import Callable, Iterable, Sequence

from boxaloud.assistant.text.problem import Problem
from boxaloud.assistant.web.admission import Pairing, new_token
from boxaloud.assistant.web.web_messages import say

EVERYWHERE = "0.0.0.0"
_DOCUMENTATION = ("192.0.2.1", 9)
"""An address that no host has (RFC 5737): asked for the way to it, and sent nothing."""


def serve(
    host: str,
    port: int,
    lan: bool,
    tell: Callable[[str], None],
    draw: Callable[[Sequence[str]], None],
) -> None:
    """Serve until Ctrl+C, having told who else can reach it, and where it is. `draw` shows rows
    of blocks, which are dark where a QR code is light.

    Raises Problem where the optional part is not installed, or the port is taken.
    """
    try:
        from boxaloud.assistant.web.page_server import PageServer
    except ImportError:
        raise Problem(say("serve.missing")) from None
    if lan:
        _serve_lan(port, tell, draw)
        return
    if not is_loopback(host):
        tell(say("serve.open", host=host))
    token = new_token()
    tell(say("serve.where", url=f"{address(host, port)}/?token={token}"))
    _run(PageServer(host, port, token).serve, address(host, port))


def _serve_lan(
    port: int, tell: Callable[[str], None], draw: Callable[[Sequence[str]], None]
) -> None:
    """For a phone on the same network: over TLS, with a code to scan and one to type."""
    try:
        import segno
        from boxaloud.assistant.web.certificate import context_for
        from boxaloud.assistant.web.page_server import PageServer
    except ImportError:
        raise Problem(say("serve.missing")) from None
    ours = own_address()
    if not ours:
        raise Problem(say("serve.no_network"))
    try:
        tls, fingerprint = context_for([ours, "127.0.0.1"])
    except OSError as fault:
        raise Problem(say("serve.no_certificate", why=fault.strerror or str(fault))) from None
    url, token, pairing = address(ours, port, "https"), new_token(), Pairing(time.monotonic())
    draw(drawn(segno.make(f"{url}/?token={token}").matrix_iter(border=4)))
    tell(say("serve.lan", url=url, code=pairing.code))
    tell(say("serve.warns", fingerprint=fingerprint))
    _run(PageServer(EVERYWHERE, port, token, tls, pairing).serve, url)


def _run(run: Callable[[], None], url: str) -> None:
    try:
        run()
    except OSError as fault:
        why = fault.strerror or str(fault)
        raise Problem(say("serve.busy", url=url, why=why)) from None


def drawn(cells: Iterable[Iterable[int]]) -> list[str]:
    """A QR code in blocks, two rows of it to a line: a block is light and a blank is dark."""
    rows = [[bool(cell) for cell in row] for row in cells]
    if len(rows) % 2:
        rows.append([False] * len(rows[0]))
    blocks = {(False, False): "█", (False, True): "▀", (True, False): "▄", (True, True): " "}
    pairs = zip(rows[::2], rows[1::2], strict=True)
    return ["".join(blocks[cell] for cell in zip(*pair, strict=True)) for pair in pairs]


def own_address() -> str:
    """This machine's address on the network that leads out of it; empty where there is none."""
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as probe:
        try:
            probe.connect(_DOCUMENTATION)
        except OSError:
            return ""
        found = str(probe.getsockname()[0])
    return "" if is_loopback(found) or found == EVERYWHERE else found


def address(host: str, port: int, scheme: str = "http") -> str:
    """Where a browser finds it; on this machine where every address is listened on."""
    host = {EVERYWHERE: "127.0.0.1", "::": "::1"}.get(host, host)
    shown = f"[{host}]" if ":" in host else host
    return f"{scheme}://{shown}:{port}"


def is_loopback(host: str) -> bool:
    """True where only this machine can reach the address."""
    if host == "localhost":
        return True
    try:
        return ipaddress.ip_address(host).is_loopback
    except ValueError:
        return False
