"""`boxaloud web build`: the page that stands alone, as a folder for any web host."""

from __future__ import annotations

from pathlib import Path

from boxaloud.assistant.cli.output import put
from boxaloud.assistant.text.problem import Problem
from boxaloud.assistant.web.folder_build import build
from boxaloud.assistant.web.web_messages import say


def build_folder(out: Path) -> int:
    """Write the folder and say what to do with it."""
    try:
        sizes = build(out)
    except OSError as fault:
        raise Problem(say("build.not_written", folder=out, why=fault.strerror or fault)) from None
    first, ear = (f"{size / 1_000_000:.1f}" for size in sizes)
    put(say("build.done", folder=out, size=first, ear=ear))
    return 0
