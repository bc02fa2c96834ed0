"""Kill a talk in the middle, again and again, and look for what it had acknowledged.

`python tests/storage/crash_injection.py random FOLDER KILLS` kills at random moments;
`python tests/storage/crash_injection.py writes FOLDER LIBRARY torn|whole` at every call that
changes a file, one after the other, and is run with LIBRARY (kill_at_call.c) preloaded. Either
prints a line of JSON. The talker is forked from a process that has everything loaded, so that a
kill costs milliseconds.
"""

from __future__ import annotations

import ctypes
import json
import os
import random
import signal
import sys
import time
from pathlib import Path
from typing import Any

from boxaloud.assistant.dialogue import Conversation
from boxaloud.assistant.storage import Session, repository
from boxaloud.assistant.storage.replay import replay
from boxaloud.assistant.storage.sqlite.journal_file import JobFile
from boxaloud.assistant.storage.sqlite.journal_rows import START, Mark

LINES = (
    "two 14-2 cables and a switch", "18 cubic inches", "no clamps", "undo", "next box island",
    "three 12-2 cables", "no, make that four", "a receptacle", "four square inch and a half deep",
    "clamps inside", "copy that box", "what is over", "call it pantry", "go back", "total",
)  # fmt: skip
JOB = "Killed Lane"


def talk(already: int, upto: int, told: int) -> None:
    """Say line after line; acknowledge each on `told` once its reply is there."""
    session = Session.open_or_start(JOB)
    os.write(told, b"o")
    for number in range(already, upto):
        reply = session.hear(line(number))
        assert reply.said, "no reply"
        assert session.kept, reply.said
        os.write(told, b".")


def line(number: int) -> str:
    return LINES[number % len(LINES)]


def child(already: int, upto: int, armed: tuple[ctypes.CDLL, int, int] | None) -> tuple[int, int]:
    """Fork a talker; gives its pid and the end of the pipe that its acknowledgements come on."""
    come, told = os.pipe()
    pid = os.fork()
    if pid:
        os.close(told)
        return pid, come
    try:
        os.close(come)
        if armed:
            library, calls, torn = armed
            library.arm(ctypes.c_long(calls), ctypes.c_int(torn))
        talk(already, upto, told)
        os._exit(0)
    except BaseException as fault:
        os.write(2, f"talker: {fault!r}\n".encode())
        os._exit(1)


def acknowledged(come: int) -> int:
    """How many statements were acknowledged before the pipe closed."""
    count = wait_for(come, sys.maxsize)
    os.close(come)
    return count


def wait_for(come: int, statements: int) -> int:
    """Wait until so many statements are acknowledged, or the pipe is closed; gives how many."""
    count = 0
    while count < statements and (got := os.read(come, 4096)):
        count += got.count(b".")
    return count


def kept() -> list[str]:
    """Every statement of the job that is on the disk, in order, each box's talk unfolded."""
    if not repository.is_taken(JOB):
        return []
    session = Session.open(JOB)
    assert not session._keeper.notes, session._keeper.notes
    heard = [
        json.loads(row.entry)["heard"] for row in session._keeper.rows if row.action == "entry"
    ]
    job = replay(session._keeper.rows)
    for name in job.texts:
        assert session.conversation.boxes.talk(name).assessment
    session.close()
    return heard


def check(before: int, acks: int) -> int:
    """Compare what is on the disk with what was acknowledged; gives what is there."""
    heard = kept()
    expected = [line(number) for number in range(len(heard))]
    assert heard == expected, f"kept {heard[-3:]}, expected {expected[-3:]}"
    assert before + acks <= len(heard) <= before + acks + 1, (before, acks, len(heard))
    return len(heard)


def at_random(kills: int, seed: int = 7) -> dict[str, int]:
    """Kill at random moments, the talk going on each time where it was.

    A moment is some way into the opening of the job, or into one of its next statements.
    """
    chance = random.Random(seed)
    opening = time_of(1)
    done = struck = acks = jobs = 0
    while struck < kills:
        pid, come = child(done, done + 10_000, None)
        now = wait_for(come, chance.randint(0, 6))
        time.sleep(chance.uniform(0, opening / 4 if now else opening))
        os.kill(pid, signal.SIGKILL)
        status = os.waitpid(pid, 0)[1]
        assert os.WIFSIGNALED(status), "the talker ended by itself"
        now += acknowledged(come)
        done = check(done, now)
        struck, acks = struck + 1, acks + now
        if done > 60:
            repository.remove(repository.find(JOB))
            done, jobs = 0, jobs + 1
    return {"kills": struck, "acknowledged": acks, "jobs": jobs}


def time_of(lines: int) -> float:
    """How long opening the job and so many lines take here and now, in seconds."""
    began = time.monotonic()
    pid, come = child(0, lines, None)
    os.waitpid(pid, 0)
    os.close(come)
    repository.remove(repository.find(JOB))
    return time.monotonic() - began


def warm() -> None:
    """Load and compile all that the talker needs, so that its forks start talking at once."""
    conversation = Conversation()
    for words in LINES:
        conversation.hear(words)


def at_every_call(library: str, torn: int) -> dict[str, int]:
    """Kill at the first, second, third … call that changes a file, until none is left."""
    loaded = ctypes.CDLL(library)
    calls = 0
    while True:
        calls += 1
        pid, come = child(0, 3, (loaded, calls, torn))
        status = os.waitpid(pid, 0)[1]
        acks = acknowledged(come)
        assert not os.WIFEXITED(status) or os.WEXITSTATUS(status) == 0
        check(0, acks)
        if os.WIFEXITED(status):
            return {"kills": calls - 1, "acknowledged": acks}
        # the talk must be able to go on after the kill
        before = len(kept())
        pid, come = child(before, before + 1, None)
        os.waitpid(pid, 0)
        assert check(before, acknowledged(come)) == before + 1
        repository.remove(repository.find(JOB))


def break_it() -> None:
    """Make the store acknowledge each statement one statement too early."""
    append, waiting = JobFile.append, []

    def late(file: JobFile, rows: Any, after: Mark, standing: Any = None) -> None:
        waiting.extend(rows)
        if len(waiting) > len(rows):
            ready = waiting[: -len(rows)]
            append(file, ready, Mark(ready[0].position - 1, late.check), None)  # type: ignore[attr-defined]
            late.check = ready[-1].check  # type: ignore[attr-defined]
            del waiting[: len(ready)]

    late.check = 0  # type: ignore[attr-defined]
    JobFile.append = late  # type: ignore[method-assign, assignment]
    JobFile.mark = lambda file: waiting[-1].mark if waiting else START  # type: ignore[method-assign, assignment]


if __name__ == "__main__":
    warm()
    os.environ["BOXALOUD_DATA"] = str(Path(sys.argv[2]))
    if sys.argv[-1] == "broken":
        break_it()
    if sys.argv[1] == "random":
        found = at_random(int(sys.argv[3]))
    else:
        found = at_every_call(sys.argv[3], int(sys.argv[4] == "torn"))
    sys.stdout.write(json.dumps(found) + "\n")
