"""What can go wrong with a job's file, told apart and put in plain words."""

from __future__ import annotations

import errno
import os
import sqlite3
from pathlib import Path

from boxaloud.assistant.storage.storage_messages import say
from boxaloud.assistant.text.problem import Problem


class NotKept(Problem):
    """It cannot be kept just now. `clause` says why: "The disk is full"."""

    def __init__(self, clause: str) -> None:
        super().__init__(f"{clause}.")
        self.clause = clause


class Damaged(Problem):
    """The file is no longer what was written."""


class Moved(Exception):
    """Another front end has written to the job since it was read."""


class Replaced(Exception):
    """The file holds another history than the one that was read from it."""


class TooNew(Problem):
    """The file was written by a later version. It is not touched."""


_DAMAGE = frozenset(
    {
        sqlite3.SQLITE_ERROR,  # a table or a column is not there, or the form of the file is none
        sqlite3.SQLITE_CORRUPT,
        sqlite3.SQLITE_NOTADB,
        sqlite3.SQLITE_SCHEMA,
        sqlite3.SQLITE_TOOBIG,
        sqlite3.SQLITE_MISMATCH,
        sqlite3.SQLITE_FORMAT,
    }
)
_BUSY = frozenset({sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED})
_READ_ONLY = frozenset({sqlite3.SQLITE_READONLY, sqlite3.SQLITE_PERM})
_FULL_ERRNO = frozenset({errno.ENOSPC, errno.EDQUOT, errno.EFBIG})
_READ_ONLY_ERRNO = frozenset({errno.EACCES, errno.EPERM, errno.EROFS})


def told_os(fault: OSError, path: Path) -> NotKept:
    """A fault of the system in this room's terms."""
    return NotKept(_os_trouble(fault, path))


def told(fault: sqlite3.Error | OSError, path: Path) -> NotKept | Damaged:
    """A fault of the database or the system in this room's terms."""
    if isinstance(fault, OSError):
        return told_os(fault, path)
    whole = getattr(fault, "sqlite_errorcode", 0)
    code = whole & 0xFF
    if code in _DAMAGE or whole == sqlite3.SQLITE_IOERR_SHORT_READ:
        return Damaged(str(fault))
    return NotKept(_sqlite_trouble(code, fault, path))


def _sqlite_trouble(code: int, fault: sqlite3.Error, path: Path) -> str:
    if not os.path.isdir(path.parent):
        return say("trouble.gone", path=path.parent)
    if code == sqlite3.SQLITE_FULL:
        return say("trouble.full")
    if code in _BUSY:
        return say("trouble.busy", path=path)
    if code in _READ_ONLY or not os.access(path.parent, os.W_OK):
        return say("trouble.read_only", path=path.parent)
    return say("trouble.broken", path=path, why=fault)


def _os_trouble(fault: OSError, path: Path) -> str:
    if fault.errno in _FULL_ERRNO:
        return say("trouble.full")
    if fault.errno in _READ_ONLY_ERRNO:
        return say("trouble.read_only", path=path.parent)
    if not os.path.isdir(path.parent):
        return say("trouble.gone", path=path.parent)
    return say("trouble.broken", path=path, why=fault.strerror or fault)
