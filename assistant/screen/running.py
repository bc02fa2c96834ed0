"""Starting the app: the desk, the ears, the colours, and the log that engines write to."""

from __future__ import annotations

import os
from pathlib import Path

from platformdirs import user_log_path

from assistant.problems import Problem
from assistant.screen.desk import Desk, MemoryDesk
from assistant.screen.quiet import kept_quiet

LOG = "screen.log"


def run(desk: Desk | None = None, colours: str = "dark", steady: bool = False) -> None:
    """Run the app until it is left. Raises Problem where the screen itself failed."""
    from assistant.screen.app import BoxaloudApp

    app = BoxaloudApp(desk or MemoryDesk(), None, None, colours, steady or still_wanted())
    with kept_quiet(log_path()):
        app.run()
    if app.fault is not None:
        raise Problem(
            f"The screen stopped ({type(app.fault).__name__}: {app.fault}); what was said is "
            "not lost. Go on with boxaloud chat."
        )


def still_wanted() -> bool:
    """True where the person asked their programs for no motion."""
    return os.environ.get("TEXTUAL_ANIMATIONS") == "none"


def log_path() -> Path:
    """Where engines' own noise goes."""
    return user_log_path("boxaloud") / LOG
