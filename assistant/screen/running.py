"""Starting the app: the desk, the ears, the mouth, the colours, the log that engines write to."""

from __future__ import annotations

import os
from pathlib import Path

from boxaloud.assistant.mouth import silent_mouth, the_mouth
from boxaloud.assistant.problems import Problem
from boxaloud.assistant.screen.desk import JobDesk, MemoryDesk
from boxaloud.assistant.screen.listening import Silenced
from boxaloud.assistant.screen.microphone import LiveListener
from boxaloud.assistant.screen.quiet import kept_quiet
from boxaloud.assistant.screen.themes import NAMES
from boxaloud.assistant.screen.wording import text
from platformdirs import user_log_path

LOG = "screen.log"


def run(
    job: str = "",
    colours: str = "",
    steady: bool = False,
    trial: bool = False,
    silent: bool = False,
) -> None:
    """Run the app until it is left. Raises Problem where the screen itself failed.

    `trial` keeps nothing. `steady` leaves out everything that moves by itself. `silent` speaks
    no reply; otherwise what was spoken is answered aloud, and what was typed never is.
    """
    from boxaloud.assistant.screen.app import BoxaloudApp

    colours = checked(colours)
    let_alt_digits_through()
    desk = MemoryDesk() if trial else JobDesk(job)
    app = BoxaloudApp(desk, LiveListener(), None, colours, steady or still_wanted())
    mouth = silent_mouth() if silent else the_mouth(lambda why: app.tell(Silenced(why)))
    app.talking.speaker = mouth
    try:
        with kept_quiet(log_path()):
            app.run()
    finally:
        app.talking.close()
        mouth.close()
        if isinstance(desk, JobDesk):
            desk.close()
    if app.fault is not None:
        why = f"{type(app.fault).__name__}: {app.fault}"
        raise Problem(text("start.stopped", why=why))


def checked(colours: str) -> str:
    """The name of a palette, the first where none is asked for. Raises Problem for another."""
    if colours and colours not in NAMES:
        raise Problem(text("start.no_colours", name=colours, names=", ".join(NAMES)))
    return colours or NAMES[0]


def let_alt_digits_through() -> None:
    """Read Alt+0 … Alt+9 as themselves.

    Textual reads the two bytes that terminals send for them as the characters of one maker's
    keyboards (a pound sign for Alt+3), which must never answer a question.
    """
    from textual._ansi_sequences import ANSI_SEQUENCES_KEYS

    for digit in "0123456789":
        ANSI_SEQUENCES_KEYS.pop(f"\x1b{digit}", None)  # type: ignore[attr-defined]


def still_wanted() -> bool:
    """True where the person asked their programs for no motion."""
    return os.environ.get("TEXTUAL_ANIMATIONS") == "none"


def log_path() -> Path:
    """Where engines' own noise goes."""
    return user_log_path("boxaloud") / LOG
