"""What a token may stand for: the literal words and token classes that it matches.

Tokens that match the same things share one symbol, so that the automaton sees a few hundred
symbols whatever is said.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from boxaloud.grammar import grammar_data
from boxaloud.grammar.lexer import numbers
from boxaloud.grammar.lexer.misspellings import Mender

BREAKS = frozenset('\n,;:.()[]!?=/•*"$%^+')
_SIGNS = {
    ",": ("%comma", "%stop"),
    ":": ("%colon", "%stop"),
    ";": ("%end",),
    ".": ("%end",),
    "!": ("%end",),
    "?": ("%end",),
    "\n": ("%end",),
    "": ("%end",),
    "(": ("%open",),
    "[": ("%open",),
    ")": ("%close",),
    "]": ("%close",),
    "=": ("%equals", "%stop"),
    "/": ("slash",),
    "×": ("x",),
    "*": ("x",),
    '"': ("inch",),
    "#": ("number",),
    "&": ("and",),
    "w/": ("with",),
    "w/g": ("with-ground",),
    "w/o": ("without",),
}
#: Tokens remembered; beyond it the memory is begun again, so that no input can fill it.
_REMEMBERED = 20_000

FREE, BREAK, HESITATION, MEANT = 60, 1, 0, 10_000


def _function_words() -> frozenset[str]:
    """Words that say what a clause does: never an adjective that nobody need know."""
    table = grammar_data.table("clauses")
    lists = [table["polarity"]["negators"], table["other"]["change"], table["other"]["quantity"]]
    lists += [table["correction"][name] for name in ("marks", "additive")]
    lists += [table["mood"][name] for name in ("wh", "auxiliary", "modal", "verbs_of_request")]
    words = {word for words in lists for word in words if " " not in word}
    return frozenset(
        words | {"scratch", "ditch", "lose", "forget", "leave", "minus", "fewer", "less"}
    )


_FUNCTION_WORDS = _function_words()


@dataclass(slots=True)
class Symbols:
    """The symbol of every token, found once and remembered.

    `keys` numbers the terminals of all phrases; `members[symbol]` are the terminals that a
    symbol matches; `cost[symbol]` is what leaving its token uncovered costs.
    """

    keys: dict[str, int]
    members: list[frozenset[int]] = field(default_factory=list)
    cost: list[int] = field(default_factory=list)
    repaired: dict[str, str] = field(default_factory=dict)
    known: dict[str, int] = field(default_factory=dict)
    _ids: dict[tuple[frozenset[int], int], int] = field(default_factory=dict)
    _lexicon: Lexicon = field(init=False)
    _mender: Mender = field(init=False)

    def __post_init__(self) -> None:
        self._lexicon = Lexicon()
        words = {key.removeprefix("!") for key in self.keys if key.removeprefix("!").isalpha()}
        nouns = {plural for plural, one in self._lexicon.singular.items() if one in words}
        known = words | nouns | self._lexicon.fillers | set(self._lexicon.spelling)
        self._mender = Mender(words | nouns, known)

    def of(self, text: str) -> int:
        """The symbol of a token."""
        symbol = self.known.get(text)
        if symbol is None:
            if len(self.known) > _REMEMBERED:
                self.known.clear()
            symbol = self.known[text] = self._classify(text)
        return symbol

    def _classify(self, text: str) -> int:
        if text in self._lexicon.hesitations:
            return self._symbol(frozenset(), HESITATION)
        words = self._lexicon.readings(text)
        matched = {self.keys[word] for word in words if word in self.keys}
        meant = not (matched or words & self._lexicon.fillers)
        matched |= self._classes(text)
        strange = (
            meant
            and text.isalpha()
            and text not in _FUNCTION_WORDS
            and text not in self._lexicon.homophones
            and not numbers.word_classes(text)
        )
        if strange and "%unknown" in self.keys:
            matched.add(self.keys["%unknown"])
        if meant and text.isalpha() and text.isascii() and not numbers.word_classes(text):
            mended = self._mender.mend(text)
            if mended is not None:
                self.repaired[text] = mended
                matched |= {
                    self.keys[word] for word in self._lexicon.readings(mended) if word in self.keys
                }
        return self._symbol(frozenset(matched), self._cost(text, words))

    def _classes(self, text: str) -> set[int]:
        found = list(_SIGNS.get(text, ()))
        numeric = numbers.word_classes(text) if text else ()
        found += numeric
        found += self._lexicon.sounds_like(text)
        if text and text not in BREAKS:
            found.append("%any")
            if not numeric and text[0].isalpha():
                found.append("%name")
        return {self.keys[name] for name in found if name in self.keys}

    def _cost(self, text: str, words: set[str]) -> int:
        if text in BREAKS or text in _SIGNS:
            return BREAK
        return FREE if words & self._lexicon.fillers else MEANT

    def _symbol(self, matched: frozenset[int], cost: int) -> int:
        symbol = self._ids.get((matched, cost))
        if symbol is None:
            symbol = self._ids[matched, cost] = len(self.members)
            self.members.append(matched)
            self.cost.append(cost)
        return symbol


class Lexicon:
    """The word lists of `data/lexicon.toml`."""

    def __init__(self) -> None:
        table = grammar_data.table("lexicon")
        self.fillers = frozenset(table["words"]["filler"])
        self.hesitations = frozenset(table["words"]["hesitation"])
        self.spelling: dict[str, str] = table["spelling"]
        self.plural: dict[str, str] = {
            one: f"{one}s" for one in table["words"]["plural_in_s"]
        } | table["plural"]
        self.singular = {plural: one for one, plural in self.plural.items()}
        self.also = {text: set(words) for text, words in table["also"].items()}
        self.homophones: dict[str, str] = table["homophones"]

    def readings(self, text: str) -> set[str]:
        """The words that a token may be: itself, as usually spelt, in the singular."""
        found = {text}
        if text.endswith(("'s", "s'")):
            found.add(text[:-2] if text.endswith("'s") else text[:-1])
        for word in tuple(found):
            usual = self.spelling.get(word, word)
            found.add(usual)
            found.add("!" + usual)
            if usual in self.singular:
                found.add(self.singular[usual])
        found |= self.also.get(text, set())
        if text in numbers.WORD_OF_FIGURE:
            found.add(numbers.WORD_OF_FIGURE[text])
        return found

    def sounds_like(self, text: str) -> tuple[str, ...]:
        """The class of words that sound like a number, where a number is expected."""
        return ("%sounds",) if text in self.homophones else ()
