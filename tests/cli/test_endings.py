"""However it is ended: quietly, with the right status, and nothing left lying about."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest
from boxaloud.assistant.cli.exit_codes import guarded
from edge_runs import BOX, RUN, ran

READY = """
import os
import signal
from boxaloud.assistant.cli import start
# what is started in the background is given a shell's order to ignore interrupts
signal.signal(signal.SIGINT, signal.default_int_handler)
begin = signal.signal
def ready(number, act):
    before = begin(number, act)
    if number == signal.SIGINT:
        signal.signal = begin
        os.write(2, b"ready\\n")
    return before
signal.signal = ready
start.main()
"""


@pytest.mark.parametrize("words", [("check", *BOX), ("chat", "--job", "Heron"), ("job", "list")])
def test_an_interrupt_at_any_moment_is_quiet(words: tuple[str, ...], home: Path) -> None:
    """From where our own code begins; before that the interpreter itself is starting."""
    chance = random.Random(4)
    for _ in range(int(os.environ.get("BOXALOUD_INTERRUPTS", "8"))):
        talk = subprocess.Popen(
            [sys.executable, "-c", READY, *words],
            stdin=subprocess.PIPE, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE,
        )  # fmt: skip
        assert talk.stderr is not None
        assert talk.stderr.readline() == b"ready\n"
        time.sleep(chance.uniform(0, 0.4))
        talk.send_signal(signal.SIGINT)
        assert talk.communicate()[1].strip() == b""
        # while the interpreter ends it lets the signal end it, which a shell tells as 130 too
        assert talk.returncode in (0, 130, -signal.SIGINT)


def test_a_request_to_end_leaves_no_draft_and_keeps_the_job(home: Path) -> None:
    talk = subprocess.Popen(
        [*RUN, "chat", "--job", "Heron"],
        stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE,
    )  # fmt: skip
    assert talk.stdout is not None
    assert b"Heron" in talk.stdout.readline()
    talk.send_signal(signal.SIGTERM)
    assert talk.communicate()[1] == b""
    assert talk.returncode == 143
    assert not [each for each in (home / "data").rglob("*") if each.name.endswith((".new", "-wal"))]
    assert ran("job", "show", "Heron").returncode == 0


def test_an_interrupt_while_a_class_is_made_is_an_interrupt(
    capsys: pytest.CaptureFixture[str],
) -> None:
    """Python 3.11 gives one that comes in `__set_name__` as a RuntimeError of that cause. 130 is
    128 and the signal's number, as shells count it (POSIX, common practice)."""

    def command() -> None:
        raise RuntimeError("Error calling __set_name__") from KeyboardInterrupt()

    before = signal.getsignal(signal.SIGINT)
    try:
        assert guarded(command) == 128 + signal.SIGINT
    finally:
        signal.signal(signal.SIGINT, before)
    assert capsys.readouterr().err.strip() == ""
