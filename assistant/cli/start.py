"""Where the process begins: before anything is loaded, an interrupt already ends it quietly."""

from __future__ import annotations

import os
import signal
import sys

INTERRUPTED = 130


def main() -> None:
    """Run the command; an error is one sentence on standard error, never a traceback."""
    if signal.getsignal(signal.SIGINT) != signal.SIG_IGN:
        signal.signal(signal.SIGINT, lambda *_: os._exit(INTERRUPTED))
    from boxaloud.assistant.cli.exit_codes import process

    def command() -> int:
        from boxaloud.assistant.cli.main import app

        return app(sys.argv[1:])

    sys.exit(process(command))
