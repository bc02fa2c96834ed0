"""The template language: a phrase as written in a data file, made into a tree.

word            a literal word (its plural too, where the lexicon knows one)
!word           the word as it stands, never its plural
%class          a class of tokens, such as `%size` (`grammar.symbols`)
<rule>          another rule, written out in its place
{slot:rule}     the same, its words kept as the value of a slot
[ … ]           may be left out          ( a | b )   one of these
x+              once or more             x=slot:value   gives the slot that value
"""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass, field
from decimal import Decimal
from typing import TypeAlias

from boxaloud.grammar.phrases.statements import Value


@dataclass(frozen=True, slots=True)
class Terminal:
    """One token: a literal word, or a `%class`."""

    key: str


@dataclass(frozen=True, slots=True)
class Sequence:
    """Its parts, one after the other."""

    parts: tuple[Node, ...]


@dataclass(frozen=True, slots=True)
class Choice:
    """One of its parts; an empty `Sequence` among them makes it optional."""

    parts: tuple[Node, ...]


@dataclass(frozen=True, slots=True)
class Repeat:
    """Its part, once or more."""

    part: Node


@dataclass(frozen=True, slots=True)
class Marked:
    """Its part, whose tokens give `slot`: their value by `rule`, or the constant `value`."""

    part: Node
    slot: str
    rule: str = ""
    value: Value = None


@dataclass(frozen=True, slots=True)
class Named:
    """The rule that a part was written out from, for sampling and for the dead-rule check."""

    part: Node
    rule: str


Node: TypeAlias = "Terminal | Sequence | Choice | Repeat | Marked | Named"

EMPTY = Sequence(())
_PIECE = re.compile(
    r"\s*(?:(?P<ref><[\w-]+>)|(?P<slot>\{[\w+]+:[\w-]+\})|(?P<sign>[\[\]()|+])"
    r"|=(?P<give>\w+):(?P<value>'[^']*'|[\w.-]+)|(?P<word>[^\s\[\]()|<>{}=+]+))"
)


class TemplateError(ValueError):
    """A phrase in a data file that cannot be read; the message names it."""


@dataclass(slots=True)
class _Reader:
    text: str
    rule: Callable[[str], Node]
    pieces: list[tuple[str, str]] = field(default_factory=list)
    place: int = 0

    def peek(self) -> tuple[str, str]:
        return self.pieces[self.place] if self.place < len(self.pieces) else ("end", "")

    def take(self) -> tuple[str, str]:
        piece = self.peek()
        self.place += 1
        return piece


def parse(text: str, rule: Callable[[str], Node]) -> Node:
    """Read one phrase. `rule` gives the tree of a named rule; raises `TemplateError`."""
    reader = _Reader(text, rule)
    place = 0
    stripped = text.strip()
    while place < len(stripped):
        match = _PIECE.match(stripped, place)
        if match is None or match.end() == place:
            raise TemplateError(f"cannot read {stripped[place:]!r} in the phrase {stripped!r}")
        name = match.lastgroup or ""
        if name == "value":
            reader.pieces.append(("give", f"{match['give']}:{match['value']}"))
        else:
            reader.pieces.append((name, match[name]))
        place = match.end()
    node = _choice(reader)
    if reader.peek()[0] != "end":
        raise TemplateError(f"unexpected {reader.peek()[1]!r} in the phrase {stripped!r}")
    return node


def _choice(reader: _Reader) -> Node:
    parts = [_sequence(reader)]
    while reader.peek() == ("sign", "|"):
        reader.take()
        parts.append(_sequence(reader))
    return parts[0] if len(parts) == 1 else Choice(tuple(parts))


def _sequence(reader: _Reader) -> Node:
    parts: list[Node] = []
    while True:
        kind, text = reader.peek()
        if kind == "end" or (kind == "sign" and text in "|])"):
            return parts[0] if len(parts) == 1 else Sequence(tuple(parts))
        parts.append(_suffixed(reader))


def _suffixed(reader: _Reader) -> Node:
    node = _atom(reader)
    while True:
        kind, text = reader.peek()
        if kind == "give":
            reader.take()
            slot, _, value = text.partition(":")
            node = Marked(node, slot, "", constant(value))
        elif (kind, text) == ("sign", "+"):
            reader.take()
            node = Repeat(node)
        else:
            return node


def _atom(reader: _Reader) -> Node:
    kind, text = reader.take()
    if kind == "word":
        return Terminal(text)
    if kind == "ref":
        return Named(reader.rule(text[1:-1]), text[1:-1])
    if kind == "slot":
        slot, _, rule = text[1:-1].partition(":")
        return Marked(Named(reader.rule(rule), rule), slot, rule)
    if (kind, text) in (("sign", "["), ("sign", "(")):
        inside = _choice(reader)
        if reader.take() != ("sign", "]" if text == "[" else ")"):
            raise TemplateError(f"a bracket is not closed in the phrase {reader.text!r}")
        return Choice((inside, EMPTY)) if text == "[" else inside
    raise TemplateError(f"unexpected {text or kind!r} in the phrase {reader.text!r}")


def constant(text: str) -> Value:
    """A value written in a phrase: `true`, `false`, a whole number, or a word or 'words'."""
    if text in ("true", "false"):
        return text == "true"
    if re.fullmatch(r"-?\d+", text):
        return int(text)
    if re.fullmatch(r"\d+\.\d+", text):
        return Decimal(text)
    return text.strip("'")
