"""Sentences that the grammar understands, as they are spoken: for the recogniser's model.

The same phrases are walked as are parsed. What is only typed (figures, signs, abbreviations)
is left out; numbers are drawn from `data/spoken.toml`, so that they are as common as in the
trade rather than as in the grammar.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache, lru_cache

from boxaloud.grammar import grammar_data
from boxaloud.grammar.phrases.phrase_files import phrases, rules
from boxaloud.grammar.phrases.template import (
    EMPTY,
    Choice,
    Marked,
    Named,
    Node,
    Repeat,
    Sequence,
    Terminal,
    parse,
)

_TABLE = grammar_data.table("spoken")
_DRAWN: dict[str, dict[str, float]] = _TABLE["drawn"]
_TYPED = frozenset(_TABLE["typed"])
_PLURAL: dict[str, str] = {
    one: f"{one}s" for one in grammar_data.table("lexicon")["words"]["plural_in_s"]
} | grammar_data.table("lexicon")["plural"]
#: Of alternatives the first written is the commonest.
_FALLING = [0.6**place for place in range(200)]
_FALLING_SLOWLY = [0.88**place for place in range(200)]
#: Behind a word that stands in the plural unless another such word follows it.
_MARK = "*"
_SILENT = ("%comma", "%end", "%colon")
_OPTIONAL = float(_TABLE["optional"])


@dataclass(frozen=True, slots=True)
class _Way:
    """One way of saying a phrase aloud."""

    kind: str
    node: Node
    weight: float
    when: tuple[str, ...]


@dataclass(slots=True)
class _Voice:
    """One phrase being spoken: `many` once a count above one was said."""

    chance: random.Random
    many: bool = False

    def say(self, node: Node) -> list[str] | None:
        """The words of one way through `node`; None where there is only a typed way."""
        if isinstance(node, Terminal):
            return self._word(node.key)
        if isinstance(node, Named) and node.rule in _DRAWN:
            return self._draw(node.rule)
        if isinstance(node, (Named, Marked, Repeat)):
            return self.say(node.part)
        if isinstance(node, Choice):
            return self._choose(node)
        return self._all(node)

    def _word(self, key: str) -> list[str] | None:
        if key in _SILENT:
            return []
        if key[1:] in _DRAWN:
            return self._draw(key[1:])
        if key[0] == "!":
            return [key[1:]] if _spoken(key[1:]) else None
        if not _spoken(key):
            return None
        return [key + _MARK if self.many and key in _PLURAL else key]

    def _draw(self, name: str) -> list[str]:
        ways = _DRAWN[name]
        (way,) = self.chance.choices(list(ways), list(ways.values()))
        words = way.split()
        if self.many and words[-1] in _PLURAL:
            words[-1] += _MARK
        if name == "count":
            self.many = way not in ("one", "a", "another")
        return words

    def _choose(self, node: Choice) -> list[str] | None:
        parts = list(node.parts)
        if parts[-1] == EMPTY:
            if self.chance.random() > _OPTIONAL:
                return []
            parts.pop()
        while parts:
            (at,) = self.chance.choices(range(len(parts)), _FALLING[: len(parts)])
            said = self.say(parts.pop(at))
            if said is not None:
                return said
        return [] if node.parts[-1] == EMPTY else None

    def _all(self, node: Sequence) -> list[str] | None:
        words: list[str] = []
        for part in node.parts:
            said = self.say(part)
            if said is None:
                return None
            words += said
        return words


def _spoken(key: str) -> bool:
    return key not in _TYPED and key.replace("'", "").isalpha() and key[0] != "'"


@lru_cache(maxsize=1)
def _ways() -> tuple[_Way, ...]:
    """Every way of saying a phrase aloud: its own where the table has some, else as parsed."""
    found: list[_Way] = []
    done: set[str] = set()
    for phrase in phrases():
        own = _TABLE["phrases"].get(phrase.id)
        if own is None:
            if phrase.weight and _Voice(random.Random(0)).say(phrase.node):
                found.append(_Way(phrase.kind, phrase.node, phrase.weight, phrase.when))
        elif phrase.id not in done:
            done.add(phrase.id)
            total = sum(_FALLING_SLOWLY[: len(own)])
            found += [
                _Way(phrase.kind, parse(way, rules()), phrase.share * share / total, phrase.when)
                for way, share in zip(own, _FALLING_SLOWLY, strict=False)
            ]
    return tuple(found)


def sample(n: int, seed: int, expect: str | None = None) -> Iterator[str]:
    """`n` spoken sentences, the same for the same seed.

    `expect` narrows them to answers to that question, control phrases and corrections.
    """
    chance = random.Random(seed)
    mixture = _mixture(expect)
    shares = [share for share, _ in mixture]
    groups = [group for _, group in mixture]
    for _ in range(n):
        (group,) = chance.choices(groups, shares)
        yield _sentence(chance, group)


def _sentence(chance: random.Random, group: _Group) -> str:
    (size,) = chance.choices((1, 2, 3, 4), group.sizes)
    said: list[str] = []
    for turn in range(size):
        words = group.draw(chance)
        if turn and chance.random() < 0.4:
            said.append(chance.choice(_TABLE["joins"]))
        said += words
    if group.operand is not None and said:
        said += group.operand.draw(chance)
    if chance.random() < float(_TABLE["lead_share"]):
        said = chance.choice(_TABLE["leads"]).split() + said
    return " ".join(said)


@dataclass(frozen=True, slots=True)
class _Group:
    """Ways that are said together: `sizes` are the shares of 1, 2, 3, 4 in a sentence."""

    ways: tuple[_Way, ...]
    weights: tuple[float, ...]
    sizes: tuple[float, ...]
    operand: _Group | None = None

    def draw(self, chance: random.Random) -> list[str]:
        """The words of one way, by weight."""
        (way,) = chance.choices(self.ways, self.weights)
        return _counted(_Voice(chance).say(way.node) or [])


def _counted(words: list[str]) -> list[str]:
    """The words with the last of each run of counted nouns in the plural."""
    return [
        word
        if not word.endswith(_MARK)
        else word[:-1]
        if after.endswith(_MARK)
        else _PLURAL[word[:-1]]
        for word, after in zip(words, [*words[1:], ""], strict=True)
    ]


def _group(
    kinds: frozenset[str],
    sizes: tuple[float, ...],
    expect: str | None,
    operand: _Group | None = None,
) -> _Group:
    chosen = tuple(
        way for way in _ways() if way.kind in kinds and (not way.when or expect in way.when)
    )
    return _Group(chosen, tuple(way.weight for way in chosen), sizes, operand)


def _bare(question: str | None) -> _Group:
    """The barest answers to a question, the first written the commonest."""
    ways = tuple(_Way("", parse(way, rules()), 1.0, ()) for way in _TABLE["bare"][question])
    return _Group(ways, tuple(_FALLING_SLOWLY[: len(ways)]), (1.0, 0.0, 0.0, 0.0))


@cache
def _mixture(expect: str | None) -> tuple[tuple[float, _Group], ...]:
    """The groups of a sentence and their shares, for an open question or none."""
    contents = frozenset(_TABLE["groups"]["contents"])
    box = frozenset(_TABLE["groups"]["box"])
    control = frozenset(_TABLE["groups"]["control"])
    operators = frozenset(_TABLE["groups"]["operators"])
    one, several = (1.0, 0.0, 0.0, 0.0), (4.0, 3.0, 2.0, 1.0)
    things = _group(contents | box, several, None)
    answers = _TABLE["answers"].get(expect or "")
    said = things if answers is None else _group(frozenset(answers), one, expect)
    shares = _TABLE["shares"]["free" if answers is None else "asked"]
    return (
        (shares["said"], said),
        *([(shares["bare"], _bare(expect))] if expect in _TABLE["bare"] else []),
        (shares["control"], _group(control, one, None)),
        (shares["operator"], _group(operators, one, None, things)),
        (shares["things"], things),
    )


@lru_cache(maxsize=1)
def vocabulary() -> frozenset[str]:
    """Every word that `sample` can say."""
    words: set[str] = set()
    for said in (*_TABLE["joins"], *_TABLE["leads"]):
        words.update(said.split())
    bare = [way for question in _TABLE["bare"] for way in _bare(question).ways]
    for way in (*_ways(), *bare):
        _collect(way.node, words)
    return frozenset(words)


def _collect(node: Node, words: set[str]) -> bool:
    """Add the spoken words of a tree; False, and nothing added, where it cannot be said."""
    if isinstance(node, Terminal):
        return _collect_word(node.key, words)
    if isinstance(node, Named) and node.rule in _DRAWN:
        return _collect_word("%" + node.rule, words)
    if isinstance(node, (Named, Marked, Repeat)):
        return _collect(node.part, words)
    if isinstance(node, Choice):
        return any([_collect(part, words) for part in node.parts])
    mine: set[str] = set()
    if not all([_collect(part, mine) for part in node.parts]):
        return False
    words |= mine
    return True


def _collect_word(key: str, words: set[str]) -> bool:
    if key in _SILENT:
        return True
    key = key.removeprefix("!")
    found = " ".join(_DRAWN[key[1:]]).split() if key[1:] in _DRAWN else [key]
    if found == [key] and not _spoken(key):
        return False
    words.update(found)
    words.update(_PLURAL[word] for word in found if word in _PLURAL)
    return True


__all__ = ["sample", "vocabulary"]
