"""Runs of the whole program in a process of its own, and what is held of every ending."""

from __future__ import annotations

import subprocess
import sys

BOX = ("two 14-2 cables and a switch", "18 cubic inches", "no clamps")
RUN = [sys.executable, "-c", "from boxaloud.assistant.cli.start import main; main()"]


def ran(*words: str | bytes, **how: object) -> subprocess.CompletedProcess[bytes]:
    how = {"capture_output": True, "stdin": subprocess.DEVNULL, "timeout": 60, **how}
    return subprocess.run([*RUN, *words], **how)  # type: ignore[call-overload,no-any-return]


def one_sentence(told: bytes) -> str:
    text = told.decode()
    assert "Traceback" not in text
    assert "fault of its own" not in text
    assert len(text.splitlines()) == 1, text
    return text
