"""What goes wrong, put in one plain sentence. This module owns standard error and exit codes."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable
from typing import TYPE_CHECKING

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
    print(" ".join(str(message).split()), file=sys.stderr)  # noqa: T201


def guarded(command: Callable[[], object]) -> int:
    """Run `command`; give its exit status, with any failure told in one sentence."""
    try:
        status = command()
    except SystemExit as end:
        return end.code if isinstance(end.code, int) else UNUSABLE
    except Problem as problem:
        complain(str(problem))
        return UNUSABLE
    except BrokenPipeError:
        # the reader has gone: point standard output elsewhere so that Python's own flush at
        # the end does not complain either
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return READER_GONE
    except KeyboardInterrupt:
        print(file=sys.stderr)  # noqa: T201  the shell asks on a line of its own
        return INTERRUPTED
    except Exception as fault:
        faulted(fault)
        return UNUSABLE
    return status if isinstance(status, int) else FITS


def faulted(fault: Exception) -> None:
    """Tell a fault of ours in one sentence."""
    if os.environ.get("BOXALOUD_TRACEBACK"):
        raise fault
    complain(
        f"Boxaloud met a fault of its own ({type(fault).__name__}: {fault}); "
        "what a job was told before it is kept. Set BOXALOUD_TRACEBACK=1 to see where."
    )
