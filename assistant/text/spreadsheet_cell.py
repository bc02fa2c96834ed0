"""Cells that a spreadsheet takes as text or as a number, and never as a formula."""

from __future__ import annotations

import re

from boxaloud.assistant.text.printing import clean

_STARTS = ("=", "+", "-", "@", "\t", "\r", "\n", "＝", "＋", "－", "＠", "|", "%")
_NUMBER = re.compile(r"-?\d+(\.\d+)?")


def safe(value: object) -> str:
    """The value as a cell. What would begin a formula gets an apostrophe in front of it.

    A plain number stays a number, a negative one too.
    """
    text = "" if value is None else str(value)
    if _NUMBER.fullmatch(text):
        return text
    text = clean(text.replace("\x00", ""))
    return f"'{text}" if text.lstrip(" ").startswith(_STARTS) else text
