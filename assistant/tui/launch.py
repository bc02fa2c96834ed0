"""Starting the app: the desk, the ears, the mouth, the colours, the log that engines write to."""

from __future__ import annotations

import os
from pathlib import Path

from boxaloud.assistant.text.problem import Problem
from boxaloud.assistant.tts import default_speech_output, muted_speech_output
from boxaloud.assistant.tui.push_to_talk import LiveListener
from boxaloud.assistant.tui.session_adapter import JobDesk, MemoryDesk, Reporter
from boxaloud.assistant.tui.stdio_redirect import kept_quiet
from boxaloud.assistant.tui.theme import NAMES
from boxaloud.assistant.tui.tui_messages import text
from boxaloud.assistant.tui.voice_ports import Silenced
from platformdirs import user_log_path

LOG = "screen.log"


def run(
    job: str = "",
    colours: str = "",
    steady: bool = False,
    trial: bool = False,
    silent: bool = False,
    reporter: Reporter | None = None,
) -> None:
    """Run the app until it is left. Raises Problem where the screen itself failed.

    `trial` keeps nothing. `steady` leaves out everything that moves by itself. `silent` speaks
    no reply; otherwise what was spoken is answered aloud, and what was typed never is.
    `reporter` makes up the report that a talk asks for.
    """
    from boxaloud.assistant.tui.app import BoxaloudApp

    colours = checked(colours)
    let_alt_digits_through()
    desk = MemoryDesk() if trial else JobDesk(job, reporter)
    app = BoxaloudApp(desk, LiveListener(), None, colours, steady or still_wanted())
    mouth = (
        muted_speech_output()
        if silent
        else default_speech_output(lambda why: app.tell(Silenced(why)))
    )
    app.talking.speaker = mouth
    try:
        with kept_quiet(log_path()):
            app.run()
    finally:
        app.reports.finish()
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
