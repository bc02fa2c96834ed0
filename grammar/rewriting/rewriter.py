"""Utterances put in plain words: every rewrite rule that their words call for, in order."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cache
from typing import Literal, TypeAlias

from boxaloud.grammar.lazy_patterns import lazy_pattern
from boxaloud.grammar.lexer.heard_words import Word
from boxaloud.grammar.patterns.pattern_index import Sieve
from boxaloud.grammar.quick_dataclass import dataclass
from boxaloud.grammar.rewriting.heard_rewriting import HeardText
from boxaloud.grammar.rewriting.rewrite_rules import RewriteRule, Side, rewrite_rules

Subject: TypeAlias = Literal["called", "remarks", "asides"]
"""A file of rules that is also applied by itself."""


@dataclass(frozen=True, slots=True)
class _Rules:
    """Rules in their order, and what tells which of them the words of a text call for."""

    rules: Sequence[RewriteRule]
    sieve: Sieve

    def called(self, text: str, done: int) -> Iterator[tuple[int, RewriteRule]]:
        """The rules behind one that was tried, with their places."""
        for place in self.sieve.passing(text.lower()):
            if place > done:
                yield place, self.rules[place]


def rewritten(text: str, expect: str | None = None) -> str:
    """A typed text in plain words, each character in its place; `expect` names the open question.

    >>> rewritten("scratch the 14-3 thats next room")
    'scratch the 14-3                '
    """
    return _rewritten(text, _rules("typed", False), expect)


def rewritten_first(said: str | Sequence[Word], expect: str | None = None) -> str | Sequence[Word]:
    """What is typed or heard, with what is put in plain words before anything else is looked for.

    >>> rewritten_first("five 12-2s he says five and a dimmer")
    'five 12-2s and a dimmer'
    """
    if not isinstance(said, str):
        return _rewritten_words(said, _rules_of("called"), expect)
    called = _rewritten(said, _rules_of("called"), expect)
    text = said if called == said else _SPACES.sub(" ", called).strip()
    return _rewritten(text, _rules("typed", True), expect)


_SPACES = lazy_pattern(" +")


def without(subject: Subject, text: str) -> str:
    """A text without remarks, or without asides, each character in its place."""
    return _rewritten(text, _rules_of(subject), None)


def rewritten_words(words: Sequence[Word], expect: str | None = None) -> Sequence[Word]:
    """The words of an ear in plain words.

    >>> rewritten_words([Word("zilch", 0.5), Word("then", 0.9)])
    [Word(text='zilch', confidence=0.5), Word(text='then', confidence=0.9)]
    """
    return _rewritten_words(words, _rules("heard", False), expect)


def _rewritten_words(words: Sequence[Word], rules: _Rules, expect: str | None) -> Sequence[Word]:
    heard, done = HeardText(words), -1
    while (called := _next(heard.text, rules, done, expect)) is not None:
        done, replacements = called
        for start, end, told in replacements:
            heard.replace(start, end, told)
    return words if done < 0 else heard.words()


def _rewritten(text: str, rules: _Rules, expect: str | None) -> str:
    done = -1
    while (called := _next(text, rules, done, expect)) is not None:
        done, replacements = called
        for start, end, told in replacements:
            text = text[:start] + told + text[end:]
    return text


def _next(
    text: str, rules: _Rules, done: int, expect: str | None
) -> tuple[int, list[tuple[int, int, str]]] | None:
    """The next rule that changes a text, by its place, and what it changes. Another text may call
    for other rules, so that it is asked anew after each."""
    for place, rule in rules.called(text, done):
        if replacements := rule.replacements(text, expect):
            return place, replacements
    return None


@cache
def _rules(side: Side, first: bool) -> _Rules:
    return _sifted(
        [
            rule
            for rule in rewrite_rules()
            if rule.side in (None, side) and rule.first == first and rule.subject != "called"
        ]
    )


@cache
def _rules_of(subject: Subject) -> _Rules:
    return _sifted([rule for rule in rewrite_rules() if rule.subject == subject])


def _sifted(rules: Sequence[RewriteRule]) -> _Rules:
    return _Rules(rules, Sieve([[list(rule.needs), *rule.lacking] for rule in rules]))
