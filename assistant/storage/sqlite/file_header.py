"""The first hundred bytes of a job's file, looked at before the engine opens it.

The engine takes a file cut short for a new one, and writes to it; a damaged file is evidence.

Form: SQLite, "Database File Format", section 1.3, the database header.
"""

from __future__ import annotations

import os
from pathlib import Path

LENGTH = 100
MAGIC = b"SQLite format 3\x00"
_FORMS = (1, 2)
"""Rollback journal, write-ahead log."""


def heading_trouble(path: Path, has_log: bool) -> str:
    """What is wrong with the head or the length of a file; empty where nothing is seen.

    While there is a log beside it, pages may still be missing from the file. Raises OSError.
    """
    with path.open("rb") as file:
        head = file.read(LENGTH)
        size = os.fstat(file.fileno()).st_size
    if len(head) < LENGTH or not head.startswith(MAGIC):
        return "it does not begin as a job does"
    if head[18] not in _FORMS or head[19] not in _FORMS:
        return "it is of no known form"
    page = int.from_bytes(head[16:18], "big")
    page = 65536 if page == 1 else page
    if page < 512 or page & (page - 1):
        return "its pages have no known size"
    counted = head[24:28] == head[92:96]  # the count of pages is of the last change
    pages = int.from_bytes(head[28:32], "big")
    if counted and not has_log and size < pages * page:
        return "it is cut short"
    return ""
