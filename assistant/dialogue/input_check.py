"""Input that is no utterance: refused whole, in one sentence, before anything is made of it."""

from __future__ import annotations

import re
import unicodedata

from boxaloud.assistant.dialogue.nlg.sentences import say

MOST_WORDS = 2000
"""An utterance longer than this is no one's breath; it is asked for in pieces."""
MOST_CHARACTERS = 20_000
"""The same, where it is no words at all."""
MOST_THINGS = 250
"""Things said in one go that are worked through: a whole box has a tenth of that."""
MOST_TOGETHER = 1000
"""Characters without a space between them: more are no word."""
MOST_DIGITS = 40
"""A number of more digits than this is none of the trade."""

#: Control characters (category Cc) but for tabs and line ends, and lone surrogates (Cs).
_CONTROL = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\ud800-\udfff]")
_DIGITS = re.compile(rf"\d{{{MOST_DIGITS + 1},}}+")
_ENDLESS = re.compile(rf"(?<!\S)\S{{{MOST_TOGETHER + 1},}}+")
_WORD = re.compile(r"[^\s,;:.!?()]+")


def unreadable(text: str) -> str:
    """Why `text` cannot be taken, as a sentence; empty where it can be."""
    if len(text) > MOST_CHARACTERS:
        return say("unreadable.large", count=len(text), most=MOST_CHARACTERS)
    if _CONTROL.search(text):
        return say("unreadable.control")
    if _DIGITS.search(text):
        return say("unreadable.digits", most=MOST_DIGITS)
    if _ENDLESS.search(text):
        return say("unreadable.endless", most=MOST_TOGETHER)
    # what stands between breaks is a word, whether or not there are spaces: "1,1,1,1"
    count = len(_WORD.findall(text)) if len(text) > MOST_WORDS else 0
    if count > MOST_WORDS:
        return say("unreadable.long", count=count, most=MOST_WORDS)
    return ""


def too_much(things: int) -> str:
    """Why an utterance that says so many things cannot be taken; empty where it can be."""
    return "" if things <= MOST_THINGS else say("unreadable.things", count=things, most=MOST_THINGS)


def printable(text: str, most: int = 200) -> str:
    """`text` as it may be shown: without control characters, and not at endless length."""
    shown = "".join(
        char if unicodedata.category(char)[0] != "C" else " " for char in text[: most * 4]
    )
    shown = " ".join(shown.split())
    return shown if len(shown) <= most else shown[:most] + " …"
