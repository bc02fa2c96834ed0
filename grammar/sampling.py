"""Sentences that the grammar understands, as they are spoken: for the recogniser's model.

The same phrases are walked as are parsed. What is only typed (figures, signs, abbreviations)
is left out; numbers are drawn from `data/spoken.toml`, so that they are as common as in the
trade rather than as in the grammar.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from grammar import store
from grammar.expression import Choice, Marked, Named, Node, Repeat, Sequence, Terminal
from grammar.phrases import Phrase, phrases

_TABLE = store.table("spoken")
_DRAWN: dict[str, dict[str, float]] = _TABLE["drawn"]
_TYPED = frozenset(_TABLE["typed"])
_PLURAL: dict[str, str] = {
    one: f"{one}s" for one in store.table("lexicon")["words"]["plural_in_s"]
} | store.table("lexicon")["plural"]
#: Of alternatives the first written is the commonest.
_FALLING = [0.6**place for place in range(200)]
_OPTIONAL = float(_TABLE["optional"])


@dataclass(slots=True)
class _Voice:
    """One sentence being spoken: `many` once a count above one was said."""

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
        if key in ("%comma", "%end", "%colon"):
            return []
        if key in _DRAWN:
            return self._draw(key)
        if key in _TYPED or not key.replace("'", "").isalpha():
            return None
        return [_PLURAL.get(key, key) if self.many else key]

    def _draw(self, name: str) -> list[str]:
        ways = _DRAWN[name]
        (way,) = self.chance.choices(list(ways), list(ways.values()))
        if name == "count":
            self.many = way not in ("one", "a", "another", "an")
        return way.split()

    def _choose(self, node: Choice) -> list[str] | None:
        parts = list(node.parts)
        if parts[-1] == Sequence(()):
            if self.chance.random() > _OPTIONAL:
                return []
            parts.pop()
        while parts:
            (at,) = self.chance.choices(range(len(parts)), _FALLING[: len(parts)])
            part = parts.pop(at)
            said = self.say(part)
            if said is not None:
                return said
        return [] if node.parts[-1] == Sequence(()) else None

    def _all(self, node: Sequence) -> list[str] | None:
        words: list[str] = []
        for part in node.parts:
            said = self.say(part)
            if said is None:
                return None
            words += said
        return words


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
        phrase = group.draw(chance)
        words = _Voice(chance).say(phrase.node) or []
        if turn and chance.random() < 0.4:
            said.append(chance.choice(_TABLE["joins"]))
        said += words
    if group.operand is not None and said:
        said += _Voice(chance).say(group.operand.draw(chance).node) or []
    if chance.random() < float(_TABLE["lead_share"]):
        said = chance.choice(_TABLE["leads"]).split() + said
    return " ".join(said)


@dataclass(frozen=True, slots=True)
class _Group:
    """Phrases that are said together: `sizes` are the shares of 1, 2, 3, 4 in a sentence."""

    phrases: tuple[Phrase, ...]
    weights: tuple[float, ...]
    sizes: tuple[float, ...]
    operand: _Group | None = None

    def draw(self, chance: random.Random) -> Phrase:
        """One phrase, by weight."""
        (phrase,) = chance.choices(self.phrases, self.weights)
        return phrase


def _group(kinds: frozenset[str], sizes: tuple[float, ...], operand: _Group | None = None) -> _Group:
    chosen = tuple(
        phrase for phrase in phrases() if phrase.kind in kinds and phrase.weight > 0
        and _sayable(phrase)
    )  # fmt: skip
    return _Group(chosen, tuple(phrase.weight for phrase in chosen), sizes, operand)


@lru_cache(maxsize=None)
def _sayable_ids() -> frozenset[int]:
    return frozenset(
        place
        for place, phrase in enumerate(phrases())
        if _Voice(random.Random(place)).say(phrase.node)
    )


def _sayable(phrase: Phrase) -> bool:
    return phrases().index(phrase) in _sayable_ids()


@lru_cache(maxsize=None)
def _mixture(expect: str | None) -> tuple[tuple[float, _Group], ...]:
    """The groups of a sentence and their shares, for an open question or none."""
    contents = frozenset(_TABLE["groups"]["contents"])
    box = frozenset(_TABLE["groups"]["box"])
    control = frozenset(_TABLE["groups"]["control"])
    operators = frozenset(_TABLE["groups"]["operators"])
    one, several = (1.0, 0.0, 0.0, 0.0), (4.0, 3.0, 2.0, 1.0)
    things = _group(contents | box, several)
    answers = _TABLE["answers"].get(expect or "")
    said = things if answers is None else _group(frozenset(answers), one)
    shares = _TABLE["shares"]["free" if answers is None else "asked"]
    return (
        (shares["said"], said),
        (shares["control"], _group(control, one)),
        (shares["operator"], _group(operators, one, things)),
        (shares["things"], things),
    )


@lru_cache(maxsize=1)
def vocabulary() -> frozenset[str]:
    """Every word that `sample` can say."""
    words: set[str] = set()
    for join in (*_TABLE["joins"], *_TABLE["leads"]):
        words.update(join.split())
    for place in _sayable_ids():
        if phrases()[place].weight > 0:
            _collect(phrases()[place].node, words)
    return frozenset(words)


def _collect(node: Node, words: set[str]) -> bool:
    """Add the spoken words of a tree; False, and nothing added, where it cannot be said."""
    if isinstance(node, Terminal):
        return _collect_word(node.key, words)
    if isinstance(node, Named) and node.rule in _DRAWN:
        words.update(" ".join(_DRAWN[node.rule]).split())
        return True
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
    if key in ("%comma", "%end", "%colon"):
        return True
    if key in _DRAWN:
        words.update(" ".join(_DRAWN[key]).split())
        return True
    if key in _TYPED or not key.replace("'", "").isalpha():
        return False
    words.add(key)
    words.add(_PLURAL.get(key, key))
    return True


__all__ = ["sample", "vocabulary"]
