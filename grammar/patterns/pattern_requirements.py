"""What a line must hold for a regular expression to match it, read off the expression.

To look for words in a line takes a thousandth of the time that it takes to compile an expression,
and most expressions do not match. What is read off is less than the whole truth but never more:
a line that lacks it cannot match. Of syntax that the patterns do not use nothing is read off.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import TypeAlias

Needs: TypeAlias = list[list[str]]
"""Of each list one text at least must stand in the line."""

#: Letters that stand for themselves, as many as do, and none of them repeated.
_PLAIN = re.compile(r"[^\\()\[\]|.^$*+?{}]+(?![*+?{])")
_ZERO_WIDTH = frozenset("^$")
_ZERO_WIDTH_ESCAPES = frozenset("bBAZ")
_CLASS_ESCAPES = frozenset("dDsSwW")
_MOST = 4
"""Lists of one expression: each makes a sieve wider for all of them, and the longest tell most."""
_SHORTEST = 2
"""Letters of a text that tells anything: a space or an "s" stands in every text."""
#: What is written so that the requirements can be read off: a reference to a group, flags, which
#: change nothing of it in small letters, and what is looked ahead or back for, which must stand in
#: the text as well. An escaped bracket before "?" begins none of these.
_PLAINER = (
    (re.compile(r"\(\?P=\w+\)"), "(?:)"),
    (re.compile(r"^\(\?[ims]+\)"), ""),
    (re.compile(r"(?<!\\)\(\?-?[ims]+:"), "(?:"),
    (re.compile(r"(?<!\\)\(\?<?="), "(?:"),
    (re.compile(r"\\u2019"), "’"),
    (re.compile(r"\\x27"), "'"),
    (re.compile(r"\\x22"), '"'),
    (re.compile(r"\\t"), "\t"),
)


class _Strange(Exception):
    """Syntax that is not read here."""


def needs(expression: str) -> Needs:
    """What must stand in a line that `expression` matches, the longest texts first."""
    reader = _Reader(expression)
    try:
        found = reader.choice()
        if reader.place < len(expression):
            return []
    except (_Strange, IndexError):
        return []
    return sorted(found, key=_weight, reverse=True)


def telling_needs(expression: str) -> Needs:
    """What most tells of a text in small letters that `expression`, which may be one of any case,
    does not match it: what is looked ahead or back for is needed too.

    >>> telling_needs("(?P<n>two|three) cables?(?= in (?:all|total))")
    [[' cable'], [' in '], ['two', 'three'], ['all', 'total']]
    """
    for written, plain in _PLAINER:
        expression = written.sub(plain, expression)
    found = [[text.lower() for text in texts] for texts in needs(expression)]
    telling = [texts for texts in found if min(len(text.strip()) for text in texts) >= _SHORTEST]
    return telling[:_MOST]


def may_match(line: str, needed: Needs) -> bool:
    """Whether a line holds what is needed."""
    return all(any(text in line for text in texts) for texts in needed)


def _weight(texts: Sequence[str]) -> int:
    return min(map(len, texts))


class _Reader:
    """Reads an expression from left to right."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.place = 0

    def peek(self) -> str:
        """The next character; "" at the end."""
        return self.text[self.place : self.place + 1]

    def take(self) -> str:
        """The next character, stepped over. Raises IndexError at the end."""
        self.place += 1
        return self.text[self.place - 1]

    def choice(self) -> Needs:
        """Alternatives: one text of each, the longest it needs, if each needs one."""
        parts = [self.sequence()]
        while self.peek() == "|":
            self.take()
            parts.append(self.sequence())
        if len(parts) == 1:
            return parts[0]
        if not all(parts):
            return []
        return [[text for part in parts for text in max(part, key=_weight)]]

    def sequence(self) -> Needs:
        """What one part after the other needs; letters side by side make one text."""
        found: Needs = []
        run = ""
        while self.peek() not in ("", "|", ")"):
            if plain := _PLAIN.match(self.text, self.place):
                run += plain.group()
                self.place = plain.end()
                continue
            letter, inside = self.atom()
            least = self.least()
            if letter and least == "once":
                run += letter
                continue
            if letter and least == "more":
                inside = [[letter]]
            if run:
                found.append([run])
                run = ""
            if least != "none":
                found += inside
        return [*found, [run]] if run else found

    def atom(self) -> tuple[str, Needs]:
        """A letter that stands for itself, else "" and what the part needs."""
        sign = self.take()
        if sign == "(":
            return "", self.group()
        if sign == "[":
            self.letters()
            return "", []
        if sign == "\\":
            return self.escaped(), []
        if sign in "*+?{":
            raise _Strange
        return ("" if sign == "." or sign in _ZERO_WIDTH else sign), []

    def escaped(self) -> str:
        """What stands behind a backslash: a sign that stands for itself, else ""."""
        sign = self.take()
        if sign in _ZERO_WIDTH_ESCAPES or sign in _CLASS_ESCAPES:
            return ""
        if sign.isalnum():
            raise _Strange
        return sign

    def letters(self) -> None:
        """Step over a set of letters."""
        if self.peek() == "^":
            self.take()
        if self.peek() == "]":
            self.take()
        while (sign := self.take()) != "]":
            if sign == "\\":
                self.take()

    def group(self) -> Needs:
        """A group, whose bracket was taken. What is looked ahead or back for is not needed."""
        counts = True
        if self.peek() == "?":
            head = self.head()
            if head in ("?=", "?!", "?<=", "?<!"):
                counts = False
            elif head not in ("?:", "?P<"):
                raise _Strange
        found = self.choice()
        if self.take() != ")":
            raise _Strange
        return found if counts else []

    def head(self) -> str:
        """What stands before the inside of a group, the name of a named one stepped over."""
        for head in ("?:", "?=", "?!", "?<=", "?<!", "?P<"):
            if self.text.startswith(head, self.place):
                self.place += len(head)
                while head == "?P<" and self.take() != ">":
                    pass
                return head
        return ""

    def least(self) -> str:
        """How often the part before is there at the least: "none", "once" or "more"."""
        sign = self.peek()
        if sign not in ("*", "+", "?", "{") or not sign:
            return "once"
        self.take()
        least = "more" if sign == "+" else "none"
        if sign == "{":
            while (digit := self.take()) != "}":
                if not (digit.isdecimal() or digit == ","):
                    raise _Strange
        if self.peek() in ("?", "+"):
            self.take()
        return least
