"""`python -m boxaloud.assistant.cli.screen_process`: the app, as the browser's server starts it."""

from __future__ import annotations

import os
import signal
import sys
import threading
import time

from boxaloud.assistant.cli.exit_codes import process
from boxaloud.assistant.tui.launch import run

WATCHED = "--watched"
LOOK_SECONDS, LEAVE_SECONDS = 1.0, 3.0


def leave_with(parent: int) -> None:
    """Leave when the server has gone, however it went: nobody would see this app again."""
    while os.getppid() == parent:
        time.sleep(LOOK_SECONDS)
    os.kill(os.getpid(), signal.SIGTERM)
    time.sleep(LEAVE_SECONDS)
    os._exit(0)


if __name__ == "__main__":
    if WATCHED in sys.argv and os.name == "posix":
        threading.Thread(target=leave_with, args=(os.getppid(),), daemon=True).start()
    sys.exit(process(run))
