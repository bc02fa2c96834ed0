"""Input that is no utterance: refused whole, in one sentence, before anything is made of it."""

from __future__ import annotations

import re
import unicodedata

from boxaloud.assistant.dialogue.nlg.sentences import say

MOST_WORDS = 2000
"""An utterance longer than this is no one's breath; it is asked for in pieces."""

#: Control characters (category Cc) but for tabs and line ends, and lone surrogates (Cs).
_CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff]")


def unreadable(text: str) -> str:
    """Why `text` cannot be taken, as a sentence; empty where it can be."""
    if _CONTROL.search(text):
        return say("unreadable.control")
    count = len(text.split())
    if count > MOST_WORDS:
        return say("unreadable.long", count=count, most=MOST_WORDS)
    return ""


def printable(text: str, most: int = 200) -> str:
    """`text` as it may be shown: without control characters, and not at endless length."""
    shown = "".join(
        char if unicodedata.category(char)[0] != "C" else " " for char in text[: most * 4]
    )
    shown = " ".join(shown.split())
    return shown if len(shown) <= most else shown[:most] + " …"
