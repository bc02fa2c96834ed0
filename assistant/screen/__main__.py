"""`python -m assistant.screen`: the app, as the browser's server starts it."""

from __future__ import annotations

import sys

from boxaloud.assistant.problems import guarded
from boxaloud.assistant.screen.running import run

if __name__ == "__main__":
    sys.exit(guarded(run))
