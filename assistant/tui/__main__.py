"""`python -m boxaloud.assistant.tui`: the app, as the browser's server starts it."""

from __future__ import annotations

import sys

from boxaloud.assistant.cli.exit_codes import guarded
from boxaloud.assistant.tui.launch import run

if __name__ == "__main__":
    sys.exit(guarded(run))
