"""What goes wrong, put in one plain sentence. Exit codes, and how a process ends."""

from __future__ import annotations

import os
import signal
import sys
from collections.abc import Callable
from types import FrameType
from typing import TYPE_CHECKING

from boxaloud.assistant.text import printing
from boxaloud.assistant.text.problem import Problem

if TYPE_CHECKING:
    from boxaloud.assistant.dialogue import Reply

FITS, OVER, UNUSABLE, INCOMPLETE = 0, 1, 2, 3
INTERRUPTED, READER_GONE = 130, 141
"""As a shell tells them, 128 and the number of the signal: neither is ever a verdict."""

EXIT_OF_VERDICT = {"fits": FITS, "over": OVER, "incomplete": INCOMPLETE}


def exit_status(reply: Reply | None, anything_entered: bool) -> int:
    """0 fits, 1 over, 3 incomplete; 2 where nothing at all was understood."""
    if reply is None or not anything_entered:
        return UNUSABLE
    return EXIT_OF_VERDICT[reply.verdict]


def complain(message: str) -> None:
    """One sentence on standard error."""
    printing.warn(" ".join(str(message).split()))


def guarded(command: Callable[[], object]) -> int:
    """Run `command`; give its exit status, with any failure told in one sentence."""
    try:
        status = _status(command)
        printing.flush()
    except printing.Unprintable as trouble:
        _drop_output()
        complain(f"Standard output cannot be written to: {trouble.why}.")
        return UNUSABLE
    except BrokenPipeError:
        _drop_output()
        return READER_GONE
    except KeyboardInterrupt:
        _when_interrupted(_gone)
        printing.warn("")  # the shell asks on a line of its own
        return INTERRUPTED
    return status


def _status(command: Callable[[], object]) -> int:
    try:
        status = command()
    except SystemExit as end:
        return end.code if isinstance(end.code, int) else UNUSABLE
    except Problem as problem:
        complain(str(problem))
        return UNUSABLE
    except (printing.Unprintable, BrokenPipeError):
        raise
    except Exception as fault:
        if _is_interrupt(fault):
            raise KeyboardInterrupt from fault
        faulted(fault)
        return UNUSABLE
    return status if isinstance(status, int) else FITS


def _is_interrupt(fault: BaseException | None) -> bool:
    """Whether an interrupt is the cause of a fault: one that comes while a class is made is given
    by Python 3.11 as a RuntimeError of `__set_name__`."""
    while fault is not None:
        if isinstance(fault, KeyboardInterrupt):
            return True
        fault = fault.__cause__
    return False


def _drop_output() -> None:
    """The reader has gone, or there is no room: point standard output elsewhere, so that
    Python's own flush at the end does not complain either."""
    try:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    except (OSError, ValueError):
        return


def faulted(fault: Exception) -> None:
    """Tell a fault of ours in one sentence."""
    if os.environ.get("BOXALOUD_TRACEBACK"):
        raise fault
    complain(
        f"Boxaloud met a fault of its own ({type(fault).__name__}: {fault}); "
        "what a job was told before it is kept. Set BOXALOUD_TRACEBACK=1 to see where."
    )


def process(command: Callable[[], object]) -> int:
    """`guarded`, for a whole process: its streams and signals too.

    An interrupt gives 130 and a request to end 128 and its number, whenever they come; drafts
    and folders of ours are cleared away.
    """
    printing.set_up()
    if not os.environ.get("BOXALOUD_TRACEBACK"):
        sys.unraisablehook = lambda _: None
    for name in ("SIGTERM", "SIGHUP"):
        if hasattr(signal, name) and signal.getsignal(getattr(signal, name)) == signal.SIG_DFL:
            signal.signal(getattr(signal, name), _ended)

    def run() -> object:
        _when_interrupted(signal.default_int_handler)
        return command()

    status = guarded(run)
    _when_interrupted(_gone)
    return status


def _when_interrupted(act: Callable[[int, FrameType | None], object]) -> None:
    if signal.getsignal(signal.SIGINT) != signal.SIG_IGN:
        signal.signal(signal.SIGINT, act)


def _gone(*_: object) -> None:
    os._exit(INTERRUPTED)


def _ended(number: int, _: FrameType | None) -> None:
    signal.signal(number, signal.SIG_IGN)
    raise SystemExit(128 + number)
