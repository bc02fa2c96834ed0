"""The phrases of the data files, read into trees."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache
from typing import Any

from boxaloud.grammar import grammar_data
from boxaloud.grammar.phrases.statements import KINDS, Value
from boxaloud.grammar.phrases.template import Choice, Marked, Node, TemplateError, parse

FILES = ("box", "contents", "control")


@dataclass(frozen=True, slots=True)
class Phrase:
    """One way of saying a statement."""

    id: str
    kind: str
    """A kind of `grammar.statements.KINDS`, or `` for words that say nothing."""
    node: Node
    example: str
    topic: str
    weight: float = 1.0
    """How often this way of saying it is said, for sampling."""
    share: float = 1.0
    """How often it is said in any way."""
    priority: int = 0
    """Decides between covers that are otherwise alike."""
    when: tuple[str, ...] = ()
    """The open questions under which alone it may be used."""
    gives: dict[str, Value] = field(default_factory=dict)
    sampled_only: bool = False
    """True for what is read from the words of its clause (`data/patterns.toml`), and stands here
    for the recogniser's language model."""


class Rules:
    """The named rules that phrases are written with, each read when first used."""

    def __init__(self) -> None:
        self._texts: dict[str, Any] = dict(grammar_data.table("rules")["rules"])
        self._texts.update(grammar_data.table("lexicon")["names"])
        self._nodes: dict[str, Node] = {}
        self._open: list[str] = []

    def __call__(self, name: str) -> Node:
        """The tree of a named rule; `TemplateError` when there is none or it holds itself."""
        if name in self._nodes:
            return self._nodes[name]
        if name not in self._texts or name in self._open:
            raise TemplateError(f"no rule <{name}>, or one inside itself: {self._open}")
        self._open.append(name)
        node = self._read(self._texts[name])
        self._open.pop()
        self._nodes[name] = node
        return node

    def _read(self, text: str | dict[str, Any]) -> Node:
        """A rule is a template, or a table of names, each with the ways of saying it."""
        if isinstance(text, str):
            return parse(text, self)
        return Choice(tuple(
            Marked(parse(way, self), "own", "", _named(canonical))
            for canonical, ways in text.items() for way in ways
        ))  # fmt: skip

    @property
    def names(self) -> frozenset[str]:
        """All names of rules."""
        return frozenset(self._texts)


def _named(canonical: str) -> Value:
    return int(canonical) if canonical.isdecimal() else canonical


@lru_cache(maxsize=1)
def rules() -> Rules:
    """The named rules of the data files."""
    return Rules()


@lru_cache(maxsize=1)
def phrases() -> tuple[Phrase, ...]:
    """Every phrase, in the order of the files."""
    found = tuple(
        _phrase(row, way)
        for name in FILES
        for row in grammar_data.table(name)["phrase"]
        for way in row["say"]
    )
    for phrase in found:
        if phrase.kind and phrase.kind not in KINDS:
            raise TemplateError(f"phrase {phrase.id!r} makes an unknown kind {phrase.kind!r}")
    return found


def _phrase(row: dict[str, Any], way: str) -> Phrase:
    return Phrase(
        id=row["id"],
        kind=row["kind"],
        node=parse(way, rules()),
        example=row["example"],
        topic=row.get("topic", ""),
        weight=row.get("weight", 1.0) / len(row["say"]),
        share=row.get("weight", 1.0),
        priority=row.get("priority", 0),
        when=tuple(row.get("when", ())),
        gives=row.get("give", {}),
        sampled_only=row.get("sampled_only", False),
    )
