"""The one way to standard output and standard error.

What is printed was typed, heard or read from a file by somebody: characters that steer a terminal
or turn the order of a line are shown as a sign in their place, and letters that the terminal's
encoding lacks as what comes nearest.
"""

from __future__ import annotations

import codecs
import contextlib
import errno
import io
import os
import re
import sys
from collections.abc import Iterator
from typing import TextIO

INSTEAD = "\ufffd"
_STEERING = re.compile(
    "[\x00-\x08\x0b-\x1f\x7f-\x9f"  # all that steers but the line's end and the tabulator
    "\u061c\u200e\u200f\u202a-\u202e\u2066-\u2069"  # what turns the order of a line
    "\u2028\u2029\ufff9-\ufffb\U000e0000-\U000e007f"  # line ends and notes nobody sees
    "\ud800-\udfff]"  # halves of characters: bytes that are no text
)
_NEAREST = {
    "²": "2", "³": "3", "½": "1/2", "¼": "1/4", "¾": "3/4", "×": "x", "÷": "/", "–": "-", "—": "-",
    "−": "-", "“": '"', "”": '"', "‘": "'", "’": "'", "…": "...", "≥": ">=", "≤": "<=", "•": "*",
    "▸": ">", "ß": "ss",
}  # fmt: skip
_NEAR = "boxaloud-nearest"


class Unprintable(Exception):
    """Standard output takes nothing; `why` says it in a clause."""

    def __init__(self, why: str) -> None:
        super().__init__(why)
        self.why = why


def clean(text: str) -> str:
    """The text with a sign in place of each character that would steer a terminal."""
    return _STEERING.sub(INSTEAD, text)


def clean_json(text: str) -> str:
    """JSON with such characters as their escapes: the same value, and nothing to steer by."""
    return _STEERING.sub(_escaped, text)


def _escaped(found: re.Match[str]) -> str:
    code = ord(found[0])
    if code < 0x10000:
        return f"\\u{code:04x}"
    code -= 0x10000
    return f"\\u{0xD800 + (code >> 10):04x}\\u{0xDC00 + (code & 0x3FF):04x}"


def takes_all_letters() -> bool:
    """Whether standard output can show any letter."""
    return "utf" in (getattr(sys.stdout, "encoding", "") or "utf").lower()


def put(text: str) -> None:
    """A line on standard output, at once. Raises Unprintable, or BrokenPipeError where the
    reader has gone."""
    write(text + "\n")
    flush()


def write(text: str) -> None:
    """Text on standard output, cleaned."""
    with _told():
        sys.stdout.write(clean(text))


def draw(steering: str, text: str = "") -> None:
    """Our own steering of a terminal, and text behind it that may steer nothing."""
    with _told():
        sys.stdout.write(steering + clean(text))
        sys.stdout.flush()


def flush() -> None:
    """Put out what waits."""
    with _told():
        sys.stdout.flush()


@contextlib.contextmanager
def _told() -> Iterator[None]:
    try:
        yield
    except BrokenPipeError:
        raise
    except OSError as fault:
        raise Unprintable(fault.strerror or str(fault)) from None
    except ValueError as fault:  # it was closed
        raise Unprintable(str(fault)) from None


def warn(text: str, steering: str = "", end: str = "\n") -> None:
    """Text on standard error. Where nobody can read it, it is dropped."""
    with contextlib.suppress(OSError, ValueError, AttributeError):
        sys.stderr.write(steering + clean(text) + end)
        sys.stderr.flush()


def set_up() -> None:
    """Make the three streams usable, whatever the process was started with.

    A stream that is closed gets a device in its place, or the next file opened would be written
    to by all that prints.
    """
    for number in range(3):
        try:
            os.fstat(number)
        except OSError:
            os.open(os.devnull, os.O_RDWR)  # takes the lowest number that is free
    sys.stdin = sys.stdin or io.StringIO()
    sys.stdout = sys.stdout or _Closed()
    sys.stderr = sys.stderr or io.StringIO()
    codecs.register_error(_NEAR, _nearest)
    for stream in (sys.stdout, sys.stderr):
        _let_lack_letters(stream)
    with contextlib.suppress(AttributeError, OSError, ValueError):
        sys.stdin.reconfigure(errors="replace")  # type: ignore[union-attr]


def _let_lack_letters(stream: TextIO) -> None:
    with contextlib.suppress(AttributeError, OSError, ValueError):
        stream.reconfigure(errors=_NEAR)  # type: ignore[attr-defined]


def _nearest(fault: UnicodeError) -> tuple[str, int]:
    """What to write for letters that an encoding lacks."""
    if not isinstance(fault, UnicodeEncodeError):
        raise fault
    lacking = fault.object[fault.start : fault.end]
    return "".join(map(_near, lacking)), fault.end


def _near(letter: str) -> str:
    if letter in _NEAREST:
        return _NEAREST[letter]
    import unicodedata  # most terminals show all letters

    plain = unicodedata.normalize("NFKD", letter).encode("ascii", "ignore").decode()
    return plain or "?"


class _Closed(io.StringIO):
    """Standard output that was closed before we began."""

    def write(self, text: str) -> int:
        """Refuse."""
        raise OSError(errno.EBADF, "it is closed")
